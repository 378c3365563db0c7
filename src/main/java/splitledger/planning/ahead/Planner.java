package splitledger.planning.ahead;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.TreeMap;
import splitledger.base.Numbers;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.evaluation.Minima;
import splitledger.planning.ahead.StudyDesign.Placement;
import splitledger.statistics.LadderEquivalence;
import splitledger.statistics.SampleSizes;

/**
 * The cheapest design that gives what is wanted in the wanted share of studies. Sizes of blanks and
 * checks have closed forms; precision study and calibration are searched in order of their cost,
 * and the first that keeps the promise by the closed form is confirmed by draws.
 */
public final class Planner {
    /** Studies drawn to confirm a design. */
    public static final int STUDIES = 2000;

    private static final int FEW_STUDIES = 200;
    private static final int MOST_DAYS = 20;
    private static final int MOST_PREPARATIONS = 5;
    private static final int MOST_INJECTIONS = 4;
    private static final int MOST_OF_RESULT = 4;
    private static final int MOST_LEVELS = 8;
    private static final int MOST_CALIBRANTS = 6;
    private static final int MOST_BLANKS = 200;

    /** A gain in variance that is worth more levels or another placement. */
    private static final double WORTH = 0.02;

    private static final double RISK = 0.05;
    private static final double HUNDRED = 100;

    private final String name;
    private final PlanFile file;
    private final int blanks;
    private final int spiked;
    private final int checks;
    private final List<Experiment> experiments;
    private final Map<Integer, List<StudyDesign>> calibrations = new TreeMap<>();

    private Planner(String name, PlanFile file) throws ProblemException {
        this.name = name;
        this.file = file;
        this.blanks = blanksNeeded();
        this.spiked = file.wanted().limit().isPresent() ? Minima.SPIKED : 0;
        this.checks = checksNeeded();
        this.experiments = experiments();
    }

    /** A design, what is expected of it and what it costs. */
    record Candidate(StudyDesign design, double cost) {}

    /**
     * Plans.
     *
     * @param name of the plan file, for messages
     * @throws ProblemException if no design within reach gives what is wanted
     */
    public static StudyPlan plan(String name, PlanFile file) throws ProblemException {
        return new Planner(name, file).plan();
    }

    private StudyPlan plan() throws ProblemException {
        if (file.wanted().uncertainty().isEmpty()) {
            final StudyDesign design =
                    rest(file.wanted().limit().isPresent() || file.wanted().recovery().isPresent());
            if (design.cost(file).isEmpty()) {
                throw tooShort();
            }
            return new StudyPlan(file, design, List.of(), new double[0]);
        }
        final double wanted = file.wanted().uncertainty().get();
        final List<Candidate> candidates = candidates();
        if (candidates.isEmpty()) {
            throw tooShort();
        }
        final List<StudyPlan.Step> steps = frontier(candidates);
        for (Candidate c : candidates) {
            if (Prediction.of(c.design(), file).chanceBelow(wanted) < file.wanted().chance()) {
                continue;
            }
            if (hopeless(c.design(), wanted)) {
                continue;
            }
            final double[] draws = Prediction.draws(c.design(), file, STUDIES, false);
            if (StudyPlan.share(draws, wanted) >= file.wanted().chance()) {
                return new StudyPlan(file, c.design(), steps, draws);
            }
        }
        final StudyPlan.Step best = steps.get(steps.size() - 1);
        throw unreachable(
                "wanted.expanded-uncertainty",
                Numbers.text(HUNDRED * wanted) + " %",
                "about "
                        + Numbers.text(Math.round(1000 * HUNDRED * best.expanded()) / 1000.0)
                        + " % or more",
                "even "
                        + MOST_DAYS
                        + " days do not give it in the wanted share of studies: reduce the largest"
                        + " scatter, or want less");
    }

    /** Whether a few draws show already that the promise would not be kept. */
    private boolean hopeless(StudyDesign design, double wanted) {
        final double chance = file.wanted().chance();
        final double share =
                StudyPlan.share(Prediction.draws(design, file, FEW_STUDIES, false), wanted);
        return share < chance - 3 * Math.sqrt(chance * (1 - chance) / FEW_STUDIES);
    }

    /** Calibration, blanks, checks as asked for, without a precision study. */
    private StudyDesign rest(boolean calibrated) {
        return new StudyDesign(
                0,
                0,
                2,
                calibrated ? Minima.LEVELS : 0,
                Placement.EVEN,
                calibrated ? Minima.PREPARATIONS_A_LEVEL : 0,
                blanks,
                spiked,
                checks,
                1,
                experiments);
    }

    /** Every design within reach, the cheapest first; equal costs in a fixed order. */
    private List<Candidate> candidates() {
        final List<Candidate> all = new ArrayList<>();
        for (int days = Minima.GROUPS; days <= MOST_DAYS; days++) {
            for (int p = 2; p <= MOST_PREPARATIONS; p++) {
                for (int m = 2; m <= MOST_INJECTIONS; m++) {
                    for (StudyDesign line : calibrations(m)) {
                        for (int r = 1; r <= MOST_OF_RESULT; r++) {
                            add(all, days, p, line, r);
                        }
                    }
                }
            }
        }
        all.sort(Comparator.comparingDouble(Candidate::cost));
        return all;
    }

    private void add(List<Candidate> all, int days, int p, StudyDesign line, int r) {
        final StudyDesign design =
                new StudyDesign(
                        days,
                        p,
                        line.injections(),
                        line.levels(),
                        line.placement(),
                        line.calibrants(),
                        blanks,
                        spiked,
                        checks,
                        r,
                        experiments);
        design.cost(file).ifPresent(cost -> all.add(new Candidate(design, cost)));
    }

    /**
     * For each number of calibrant solutions the levels, their placement and the preparations of
     * each that leave the least uncertainty at the result; only those that more solutions improve.
     * Of equals the one with fewer levels and at equal distances.
     */
    private List<StudyDesign> calibrations(int injections) {
        return calibrations.computeIfAbsent(
                injections,
                m -> {
                    final Map<Integer, StudyDesign> best = new TreeMap<>();
                    for (int l = Minima.LEVELS; l <= MOST_LEVELS; l++) {
                        for (int k = Minima.PREPARATIONS_A_LEVEL; k <= MOST_CALIBRANTS; k++) {
                            for (Placement placement : Placement.values()) {
                                final StudyDesign line = line(m, l, placement, k);
                                best.merge(l * k, line, this::better);
                            }
                        }
                    }
                    final List<StudyDesign> kept = new ArrayList<>();
                    double least = Double.POSITIVE_INFINITY;
                    for (StudyDesign line : best.values()) {
                        final double variance = Prediction.calibration(line, file);
                        if (variance < least) {
                            least = variance;
                            kept.add(line);
                        }
                    }
                    return kept;
                });
    }

    private StudyDesign better(StudyDesign before, StudyDesign after) {
        return Prediction.calibration(after, file)
                        < (1 - WORTH) * Prediction.calibration(before, file)
                ? after
                : before;
    }

    private StudyDesign line(int m, int levels, Placement placement, int k) {
        return new StudyDesign(0, 0, m, levels, placement, k, 0, 0, 0, 1, List.of());
    }

    private List<Experiment> experiments() throws ProblemException {
        final List<Experiment> all = new ArrayList<>();
        if (file.wanted().exponent().isPresent()) {
            all.add(
                    sized(
                            SplitExperiment.of(file),
                            "wanted.split-exponent",
                            "scatter of a set-up too large for it: set ratios by measured flows,"
                                    + " allow a wider range, or want less"));
        }
        if (file.wanted().energy().isPresent()) {
            all.add(sized(HeatExperiment.of(file), "wanted.activation-energy", heat()));
        }
        if (file.wanted().heavy().isPresent()) {
            all.add(
                    sized(
                            LadderExperiment.of(file),
                            "wanted.heavy-to-light-ratio",
                            "what is wrong with mass and response of a member is too large for it:"
                                    + " a better known ladder, or want less"));
        }
        if (file.wanted().recovery().isPresent()) {
            all.add(
                    sized(
                            RecoveryExperiment.of(file),
                            "wanted.recovery",
                            "scatter between days and preparations too large for it: reduce the"
                                    + " largest, or want less"));
        }
        return all;
    }

    private String heat() {
        final double[] ends = HeatExperiment.usable(file);
        return "2 to 60 % are expected to be lost from "
                + Numbers.text(ends[0])
                + " to "
                + Numbers.text(ends[1])
                + " degC of the range; "
                + Numbers.text(Minima.DEGREES)
                + " degC are needed: widen settings.inlet-temperature, change the flow, or want"
                + " less";
    }

    private Experiment sized(Optional<Experiment> found, String key, String hint)
            throws ProblemException {
        if (found.isEmpty()) {
            throw unreachable(key, "what no design within reach gives", "a wider half width", hint);
        }
        return found.get();
    }

    private ProblemException tooShort() {
        return unreachable(
                "working-day",
                file.setting().day().most() + " injections a day",
                "a day that holds all calibrants with their washes and checks, or all settings of"
                        + " an experiment",
                "what is compared must be done on one day: longer days, or a shorter run");
    }

    /** What more effort buys: designs whose uncertainty no cheaper one reaches. */
    private List<StudyPlan.Step> frontier(List<Candidate> candidates) {
        final List<StudyPlan.Step> steps = new ArrayList<>();
        double best = Double.POSITIVE_INFINITY;
        for (Candidate c : candidates) {
            final Prediction found = Prediction.of(c.design(), file);
            if (found.expanded() < best) {
                best = found.expanded();
                steps.add(new StudyPlan.Step(c.design(), c.cost(), best));
            }
        }
        return steps;
    }

    private int blanksNeeded() throws ProblemException {
        if (file.wanted().limit().isEmpty()) {
            return 0;
        }
        final double wanted = file.wanted().limit().get();
        final double sd =
                file.prior().blank().map(PlanFile.Known::value).orElse(Double.POSITIVE_INFINITY);
        final OptionalInt needed =
                SampleSizes.blanks(
                        sd,
                        wanted,
                        1,
                        new SampleSizes.Risks(RISK, RISK, file.wanted().chance()),
                        Minima.BLANKS,
                        MOST_BLANKS);
        if (needed.isEmpty()) {
            throw unreachable(
                    "wanted.detection-limit",
                    Numbers.text(wanted) + " mg/L",
                    "more than "
                            + Numbers.text(Math.round(1000 * sd * StudyPlan.LIMIT_IN_SDS) / 1000.0)
                            + " mg/L",
                    "blanks that scatter by "
                            + Numbers.text(sd)
                            + " mg/L do not allow it, however many: inject more, split less, or"
                            + " want less");
        }
        return needed.getAsInt();
    }

    private int checksNeeded() throws ProblemException {
        if (file.wanted().margin().isEmpty()) {
            return 0;
        }
        final double margin = file.wanted().margin().get();
        final OptionalInt needed =
                new LadderEquivalence(margin, RISK)
                        .needed(
                                file.prior().injection().value(),
                                file.prior().occasion().value(),
                                file.wanted().power());
        if (needed.isEmpty()) {
            throw unreachable(
                    "wanted.equivalence-margin",
                    Numbers.text(HUNDRED * margin) + " %",
                    "a wider margin",
                    "the scatter between occasions alone is too large for it: injections do not"
                            + " shrink it");
        }
        return needed.getAsInt();
    }

    private ProblemException unreachable(String key, String found, String expected, String hint) {
        return new ProblemException(new Problem(name, 0, key, found, expected, hint));
    }
}
