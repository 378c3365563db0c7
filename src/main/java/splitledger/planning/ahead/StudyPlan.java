package splitledger.planning.ahead;

import java.util.List;
import splitledger.statistics.LadderEquivalence;
import splitledger.statistics.SampleSizes;

/**
 * A planned study.
 *
 * @param file what was wanted and known
 * @param design the cheapest that gives it
 * @param steps what more effort buys; empty if no uncertainty is wanted
 * @param draws expanded uncertainties that such studies would find, sorted; empty likewise
 */
public record StudyPlan(PlanFile file, StudyDesign design, List<Step> steps, List<Double> draws) {
    /** Detection limit over the scatter of blanks with endless blanks and both risks 0.05. */
    static final double LIMIT_IN_SDS = 3.29;

    private static final double RISK = 0.05;

    public StudyPlan {
        steps = List.copyOf(steps);
        draws = List.copyOf(draws);
    }

    StudyPlan(PlanFile file, StudyDesign design, List<Step> steps, double[] draws) {
        this(file, design, steps, java.util.Arrays.stream(draws).boxed().toList());
    }

    /** The same design for another plan file. */
    StudyPlan with(PlanFile other) {
        return new StudyPlan(other, design, steps, draws);
    }

    /**
     * A design on the way to smaller uncertainty.
     *
     * @param cost in the unit of the plan file
     * @param expanded relative expanded uncertainty expected, as a fraction
     */
    public record Step(StudyDesign design, double cost, double expanded) {}

    /** Share of sorted draws at or below a value. */
    static double share(double[] draws, double wanted) {
        int below = 0;
        while (below < draws.length && draws[below] <= wanted) {
            below++;
        }
        return (double) below / draws.length;
    }

    /** Share of studies that find no more than the wanted uncertainty. */
    public double promised() {
        final double[] all = draws.stream().mapToDouble(Double::doubleValue).toArray();
        return share(all, file.wanted().uncertainty().orElse(Double.POSITIVE_INFINITY));
    }

    /** The same if the prior is as uncertain as its degrees of freedom say. */
    double doubted() {
        return share(
                Prediction.draws(design, file, Planner.STUDIES, true),
                file.wanted().uncertainty().orElseThrow());
    }

    /** A quantile of what studies would find, by counting. */
    public double quantile(double p) {
        return draws.get(Math.min(draws.size() - 1, (int) (p * draws.size())));
    }

    /** Detection limit that a study of this design finds on average of its variance, mg/L. */
    public double limit() {
        return SampleSizes.detectionLimit(
                file.prior().blank().orElseThrow().value(), design.blanks(), 1, RISK, RISK);
    }

    /** A quantile of the detection limits that studies would find, mg/L. */
    public double limit(double p) {
        final double df = design.blanks() - 1.0;
        return limit() * Math.sqrt(splitledger.statistics.Quantiles.chiSquare(p, df) / df);
    }

    /** Probability of finding a detection limit at or below the wanted one. */
    public double chanceOfLimit() {
        return SampleSizes.chanceOfLimit(
                file.prior().blank().orElseThrow().value(),
                file.wanted().limit().orElseThrow(),
                design.blanks(),
                1,
                new SampleSizes.Risks(RISK, RISK, file.wanted().chance()));
    }

    /** Power of the check after maintenance, a lower bound. */
    public double power() {
        return new LadderEquivalence(file.wanted().margin().orElseThrow(), RISK)
                .power(
                        file.prior().injection().value(),
                        file.prior().occasion().value(),
                        design.checks());
    }
}
