package splitledger.planning.ahead;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalInt;
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
    private static final int MOST_CALIBRANTS = 6;
    private static final int MOST_BLANKS = 200;
    private static final double RISK = 0.05;
    private static final double HUNDRED = 100;

    private final String name;
    private final PlanFile file;
    private final int blanks;
    private final int spiked;
    private final int checks;

    private Planner(String name, PlanFile file) throws ProblemException {
        this.name = name;
        this.file = file;
        this.blanks = blanksNeeded();
        this.spiked = file.wanted().limit().isPresent() ? Minima.SPIKED : 0;
        this.checks = checksNeeded();
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
            final StudyDesign design = rest(file.wanted().limit().isPresent());
            return new StudyPlan(file, design, List.of(), new double[0]);
        }
        final double wanted = file.wanted().uncertainty().get();
        final List<Candidate> candidates = candidates();
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
                1);
    }

    /** Every design within reach, the cheapest first; equal costs in a fixed order. */
    private List<Candidate> candidates() {
        final List<Candidate> all = new ArrayList<>();
        for (int days = Minima.GROUPS; days <= MOST_DAYS; days++) {
            for (int p = 2; p <= MOST_PREPARATIONS; p++) {
                for (int m = 2; m <= MOST_INJECTIONS; m++) {
                    for (int k = Minima.PREPARATIONS_A_LEVEL; k <= MOST_CALIBRANTS; k++) {
                        for (int r = 1; r <= MOST_OF_RESULT; r++) {
                            add(all, days, p, m, k, r);
                        }
                    }
                }
            }
        }
        all.sort(Comparator.comparingDouble(Candidate::cost));
        return all;
    }

    private void add(List<Candidate> all, int days, int p, int m, int k, int r) {
        final StudyDesign even = design(days, p, m, Placement.EVEN, k, r);
        final StudyDesign ratio = design(days, p, m, Placement.RATIO, k, r);
        final boolean evenIsBetter =
                Prediction.calibration(even, file) <= Prediction.calibration(ratio, file);
        final StudyDesign better = evenIsBetter ? even : ratio;
        all.add(new Candidate(better, better.cost(file)));
    }

    private StudyDesign design(int days, int p, int m, Placement placement, int k, int r) {
        return new StudyDesign(days, p, m, Minima.LEVELS, placement, k, blanks, spiked, checks, r);
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
