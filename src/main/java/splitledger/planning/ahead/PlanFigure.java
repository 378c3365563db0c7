package splitledger.planning.ahead;

import java.util.List;
import java.util.function.ToDoubleFunction;
import splitledger.base.Numbers;
import splitledger.statistics.Quantiles;
import splitledger.study.Doubles;
import splitledger.study.Figure;
import splitledger.study.Figure.Axis;
import splitledger.study.Figure.Role;

/** Uncertainty against effort. */
final class PlanFigure {
    private static final double PERCENT = 100;
    private static final double LOW = 0.1;
    private static final double HIGH = 0.9;

    private PlanFigure() {}

    static Figure of(StudyPlan plan) {
        final List<StudyPlan.Step> steps = plan.steps();
        final double wanted = PERCENT * plan.file().wanted().uncertainty().orElseThrow();
        final double cost = plan.design().cost(plan.file()).orElseThrow();
        final double expected = PERCENT * Prediction.of(plan.design(), plan.file()).expanded();
        final Doubles x = each(steps, StudyPlan.Step::cost);
        final double[] ends = {steps.get(0).cost(), steps.get(steps.size() - 1).cost()};
        final double top = PERCENT * quantile(plan, steps.get(0), HIGH);
        return new Figure(
                "effort",
                "plan",
                "",
                "Uncertainty against effort",
                "The line is the expanded uncertainty that is expected of the best design for each"
                        + " effort, the band holds what 8 of 10 such studies would find. The chosen"
                        + " design is the cheapest whose studies reach the wanted value in the wanted"
                        + " share.",
                "The chosen design costs "
                        + Numbers.text(cost)
                        + " "
                        + plan.file().costs().unit()
                        + " and is expected to give "
                        + rounded(expected)
                        + " %; wanted are "
                        + rounded(wanted)
                        + " %.",
                Axis.covering("effort", plan.file().costs().unit(), ends[0], ends[1]),
                Axis.covering("relative expanded uncertainty", "%", 0, Math.max(top, 1.1 * wanted)),
                List.of(
                        new Figure.Band(
                                "8 of 10 studies",
                                Role.PREDICTION,
                                x,
                                each(steps, s -> PERCENT * quantile(plan, s, LOW)),
                                each(steps, s -> PERCENT * quantile(plan, s, HIGH))),
                        new Figure.Line(
                                "expected", Role.FIT, x, each(steps, s -> PERCENT * s.expanded())),
                        new Figure.Line(
                                "wanted",
                                Role.REFERENCE,
                                Doubles.of(ends),
                                Doubles.of(new double[] {wanted, wanted})),
                        new Figure.Points(
                                "chosen",
                                Role.DATA,
                                Doubles.of(new double[] {cost}),
                                Doubles.of(new double[] {expected}),
                                List.of("chosen"))));
    }

    private static double quantile(StudyPlan plan, StudyPlan.Step step, double p) {
        final double df = Prediction.of(step.design(), plan.file()).degreesOfFreedom();
        return step.expanded() * Math.sqrt(Quantiles.chiSquare(p, df) / df);
    }

    private static Doubles each(List<StudyPlan.Step> steps, ToDoubleFunction<StudyPlan.Step> f) {
        return Doubles.of(steps.stream().mapToDouble(f).toArray());
    }

    private static String rounded(double value) {
        return Numbers.text(Math.rint(value * PERCENT) / PERCENT);
    }
}
