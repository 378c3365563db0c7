package splitledger.planning.ahead;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import splitledger.evaluation.Minima;

/**
 * A sample as it is and with three additions, prepared anew on each day. Days are the units: the
 * mean of a day scatters by day^2 + s^2 [sum ((n + a)/a)^2 / p + (sum n/a)^2 / p] / levels^2, with
 * n what is there, a what is added, s^2 = preparation^2 + injection^2 / m; the slope of the
 * calibration, which all share, adds its relative variance.
 */
record RecoveryExperiment(PlanFile file, int onDays, int preparations, int injections)
        implements Experiment {
    private static final List<Double> SHARES = List.of(0.5, 1.0, 1.5);

    /**
     * Degrees of freedom of the slope of 5 levels made twice: 8 to describe the scatter by two
     * components, about a third of them left for the slope. By simulation.
     */
    private static final double CALIBRATION_FREEDOM = 3;

    /** Variance of the slope with weights that are estimated, over that with known ones; same. */
    private static final double ESTIMATED_WEIGHTS = 1.5;

    private static final double LEVELS_AGREE = 0.95;
    private static final int MOST_DAYS = 20;
    private static final int MOST_PREPARATIONS = 4;
    private static final int MOST_INJECTIONS = 3;

    /** The cheapest that gives what is wanted; empty if none within reach does. */
    static Optional<Experiment> of(PlanFile file) {
        Optional<Experiment> best = Optional.empty();
        double cost = Double.POSITIVE_INFINITY;
        for (int d = Minima.RECOVERY; d <= MOST_DAYS; d++) {
            for (int p = 1; p <= MOST_PREPARATIONS; p++) {
                for (int m = 1; m <= MOST_INJECTIONS; m++) {
                    final int solutions = d * p * (SHARES.size() + 1);
                    final double c = Experiment.cost(file, d, solutions, solutions * m);
                    if (c >= cost) {
                        continue;
                    }
                    final Experiment e = new RecoveryExperiment(file, d, p, m);
                    if (e.chance() >= file.wanted().chance()) {
                        best = Optional.of(e);
                        cost = c;
                    }
                }
            }
        }
        return best;
    }

    /** What is there before, so that the largest addition still lies within the calibrants. */
    static double there(PlanFile.Amounts amounts) {
        return Math.min(amounts.result(), amounts.highest() / (1 + SHARES.get(2)));
    }

    @Override
    public Expected expected() {
        final PlanFile.Prior prior = file.prior();
        final double s =
                Experiment.square(prior.preparation().value())
                        + Experiment.square(prior.injection().value()) / injections;
        double spiked = 0;
        double unspiked = 0;
        for (double a : SHARES) {
            spiked += Experiment.square((1 + a) / a);
            unspiked += 1 / a;
        }
        final double mean =
                Experiment.square(prior.day().value())
                        + s
                                * (spiked + Experiment.square(unspiked))
                                / preparations
                                / Experiment.square(SHARES.size());
        final double calibration = ESTIMATED_WEIGHTS * Prediction.slope(StudyDesign.fewest(), file);
        final double own = mean / onDays;
        final double total = own + calibration;
        final double freedom =
                total
                        * total
                        / (own * own / (onDays - 1.0)
                                + calibration * calibration / CALIBRATION_FREEDOM);
        return new Expected(Math.sqrt(total), freedom);
    }

    /** Levels that agree are told to differ in one study of twenty: then there is no mean. */
    @Override
    public double chance() {
        return LEVELS_AGREE * expected().chance(wanted());
    }

    @Override
    public List<List<Part>> days() {
        final List<String> labels = new ArrayList<>(List.of("R0", "R1", "R2", "R3"));
        return java.util.Collections.nCopies(
                onDays, List.of(Part.made("spike", "R", labels, preparations, injections)));
    }

    @Override
    public Map<String, Map<String, Double>> levels() {
        final Map<String, Map<String, Double>> all = new LinkedHashMap<>();
        for (int i = 0; i <= SHARES.size(); i++) {
            final double added =
                    i == 0 ? 0 : StudyDesign.threeDigits(SHARES.get(i - 1) * there(file.amounts()));
            final Map<String, Double> each = new LinkedHashMap<>();
            file.targets().forEach(t -> each.put(t, added));
            all.put("R" + i, each);
        }
        return all;
    }

    @Override
    public String block() {
        return "  recovery: {where: {series: spike, level: [R1, R2, R3]}, added: amount,"
                + " native: {series: spike, level: R0}}\n";
    }

    @Override
    public int solutions() {
        return onDays * preparations * (SHARES.size() + 1);
    }

    @Override
    public String figure() {
        return "recovery";
    }

    @Override
    public String compound() {
        return file.targets().get(0);
    }

    @Override
    public double wanted() {
        return file.wanted().recovery().orElseThrow();
    }

    @Override
    public String unit() {
        return "%";
    }

    @Override
    public List<Setting> settings() {
        return List.of(
                new Setting(
                        "recovery-days",
                        onDays,
                        "1",
                        "the units of the mean; at least "
                                + Minima.RECOVERY
                                + ", so that each level is made "
                                + Minima.RECOVERY
                                + " times (ICH Q2(R2), from memory)"),
                new Setting(
                        "recovery-levels",
                        SHARES.size(),
                        "1",
                        "half of what is there, as much, and one and a half times; a sample that"
                                + " holds about "
                                + PlanWords.digits(there(file.amounts()))
                                + " mg/L"),
                new Setting(
                        "recovery-preparations",
                        preparations,
                        "1",
                        "of each level and of the sample as it is, each day"),
                new Setting("recovery-injections", injections, "1", "of each preparation"));
    }
}
