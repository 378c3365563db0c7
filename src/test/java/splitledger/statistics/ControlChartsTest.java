package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import org.apache.commons.math3.analysis.integration.IterativeLegendreGaussIntegrator;
import org.apache.commons.math3.util.FastMath;
import org.junit.jupiter.api.Test;
import splitledger.statistics.RunRules.Rule;
import splitledger.statistics.RunRules.Signal;

/**
 * Worked examples: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2 (individuals and moving
 * ranges, ten batches) and 6.3.2.4 (moving average, twenty values); from memory, and consistent
 * with each other by hand. Run lengths: Champ and Woodall, Technometrics 29 (1987) 393, table 1;
 * Lucas and Saccucci, Technometrics 32 (1990) 1; from memory.
 */
class ControlChartsTest {
    private static final double[] BATCHES = {
        49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1
    };
    private static final double[] TWENTY = {
        52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8,
        51.2, 52.6, 52.4, 53.6, 52.1
    };
    private static final double[] AVERAGES = {
        50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52,
        50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99
    };

    @Test
    void constantsOfTwoValuesAreThoseOfIntegrationAndOfTheTables() {
        // density of |x - y| is that of a half normal law of variance 2
        final IterativeLegendreGaussIntegrator integrator =
                new IterativeLegendreGaussIntegrator(12, 1e-12, 1e-12);
        final double mean = integrator.integrate(1 << 20, r -> r * halfNormal(r), 0, 20);
        final double square = integrator.integrate(1 << 20, r -> r * r * halfNormal(r), 0, 20);

        assertThat(MovingRange.D2).isCloseTo(mean, within(1e-10)).isCloseTo(1.128, within(5e-4));
        assertThat(MovingRange.D3)
                .isCloseTo(FastMath.sqrt(square - mean * mean), within(1e-10))
                .isCloseTo(0.853, within(5.1e-4));
        assertThat(3 / MovingRange.D2).isCloseTo(2.66, within(5e-3));
        assertThat(new MovingRange(0, 1, 1).rangeUpper()).isCloseTo(3.267, within(1e-3));
    }

    private static double halfNormal(double r) {
        return FastMath.exp(-r * r / 4) / FastMath.sqrt(FastMath.PI);
    }

    @Test
    void individualsAndMovingRangesOfTheHandbook() {
        final MovingRange chart = MovingRange.of(BATCHES);

        assertThat(chart.centre()).isCloseTo(50.81, within(1e-9));
        assertThat(chart.meanRange()).isCloseTo(1.8778, within(5e-5));
        // the handbook rounds d2 to 1.128
        assertThat(chart.upper()).isCloseTo(55.8041, within(2e-3));
        assertThat(chart.lower()).isCloseTo(45.8159, within(2e-3));
    }

    @Test
    void movingAverageOfTheHandbook() {
        final double[] sd = new double[TWENTY.length];
        Arrays.fill(sd, 2.0539);
        final List<MovingAverage.Step> steps = MovingAverage.of(TWENTY, sd, 50, 0.3, 3);

        for (int i = 0; i < AVERAGES.length; i++) {
            assertThat(steps.get(i).value()).as("value " + i).isCloseTo(AVERAGES[i], within(6e-3));
            assertThat(steps.get(i).outside()).isZero();
        }
        assertThat(steps.get(19).upper()).isCloseTo(52.5884, within(1e-3));
        assertThat(steps.get(19).lower()).isCloseTo(47.4115, within(1e-3));
        // at the first time the average is 0.3 x
        assertThat(steps.get(0).upper()).isCloseTo(50 + 3 * 0.3 * 2.0539, within(1e-12));
        final double third = 0.3 / 1.7 * (1 - FastMath.pow(0.7, 6));
        assertThat(steps.get(2).upper())
                .isCloseTo(50 + 3 * 2.0539 * FastMath.sqrt(third), within(1e-12));
    }

    @Test
    void eachRuleSpeaksAtThePointThatCompletesItsPattern() {
        assertThat(RunRules.of(0, 3.1, -3.1).get(1))
                .contains(new Signal(Rule.BEYOND_THREE, 1))
                .hasSize(1);
        final List<List<Signal>> two = RunRules.of(2.1, 0, 2.2, 2.3, -2.1);
        assertThat(two.get(0)).isEmpty();
        assertThat(two.get(2)).containsExactly(new Signal(Rule.TWO_OF_THREE, 1));
        assertThat(two.get(4)).isEmpty();
        final List<List<Signal>> four = RunRules.of(-1.1, -1.2, 0.5, -1.3, -1.4, -0.5);
        assertThat(four.get(3)).isEmpty();
        assertThat(four.get(4)).containsExactly(new Signal(Rule.FOUR_OF_FIVE, -1));
        assertThat(four.get(5)).isEmpty();
        final List<List<Signal>> eight = RunRules.of(.1, .1, .1, .1, .1, .1, .1, .1, -.1);
        assertThat(eight.get(6)).isEmpty();
        assertThat(eight.get(7)).containsExactly(new Signal(Rule.EIGHT_IN_A_ROW, 1));
        assertThat(eight.get(8)).isEmpty();
        assertThat(RunRules.of(Double.NaN, Double.POSITIVE_INFINITY).get(1)).isNotEmpty();
    }

    @Test
    void falseSignalsOfTheRulesComeAsOftenAsPublished() {
        final double[] lengths = new double[4];
        final int runs = 3000;
        for (int run = 0; run < runs; run++) {
            final double[] z = normals(run, 4500);
            final List<List<Signal>> signals = RunRules.of(z);
            lengths[0] += first(signals, Rule.BEYOND_THREE);
            lengths[1] += first(signals, Rule.BEYOND_THREE, Rule.TWO_OF_THREE);
            lengths[2] += first(signals, Rule.BEYOND_THREE, Rule.EIGHT_IN_A_ROW);
            lengths[3] += first(signals, Rule.values());
        }

        // the standard error of a mean run length is its size over sqrt(runs): 1.8 %
        assertThat(lengths[0] / runs).isCloseTo(370.4, within(4 * 370.4 / Math.sqrt(runs)));
        assertThat(lengths[1] / runs).isCloseTo(225.44, within(4 * 225.44 / Math.sqrt(runs)));
        assertThat(lengths[2] / runs).isCloseTo(152.73, within(4 * 152.73 / Math.sqrt(runs)));
        assertThat(lengths[3] / runs).isCloseTo(91.75, within(4 * 91.75 / Math.sqrt(runs)));
    }

    @Test
    void falseSignalsOfTheMovingAverageComeAsOftenAsPublished() {
        final int runs = 3000;
        final int length = 6000;
        final double[] sd = new double[length];
        Arrays.fill(sd, 1);
        double sum = 0;
        for (int run = 0; run < runs; run++) {
            final List<MovingAverage.Step> steps =
                    MovingAverage.of(
                            normals(100_000 + run, length),
                            sd,
                            0,
                            MovingAverage.WEIGHT,
                            MovingAverage.WIDTH);
            sum += first(length, i -> steps.get(i).outside() != 0);
        }

        // published for constant limits; exact ones are narrower at the beginning: a little less
        assertThat(sum / runs).isBetween(500 * 0.94, 500 * 1.04);
    }

    private static double[] normals(long index, int count) {
        final RandomStream random = RandomStream.of(20260304, index);
        return IntStream.range(0, count).mapToDouble(i -> random.nextNormal()).toArray();
    }

    private static int first(List<List<Signal>> signals, Rule... rules) {
        final List<Rule> wanted = List.of(rules);
        return first(
                signals.size(),
                i -> signals.get(i).stream().anyMatch(s -> wanted.contains(s.rule())));
    }

    private static int first(int length, IntPredicate speaks) {
        return 1 + IntStream.range(0, length).filter(speaks).findFirst().orElse(length);
    }

    @Test
    void limitsOfManyStandardDeviationsAreThoseOfChiSquare() {
        final double[] s = new double[4000];
        final double[] freedom = new double[s.length];
        Arrays.fill(s, 2);
        Arrays.fill(freedom, 9);
        final SpreadChart.Step step = Outcomes.value(SpreadChart.of(s, freedom, s.length)).get(0);

        // chi-square of 9 degrees of freedom exceeds 26.9 with probability 0.00145 (tables: 27.877
        // at 0.001); the quantile comes from the room's own chi-square, tested elsewhere
        assertThat(step.upper())
                .isCloseTo(
                        2 * Math.sqrt(Quantiles.chiSquare(1 - SpreadChart.TAIL, 9) / 9),
                        within(2e-3));
        assertThat(step.lower())
                .isCloseTo(
                        2 * Math.sqrt(Quantiles.chiSquare(SpreadChart.TAIL, 9) / 9), within(2e-3));
        assertThat(SpreadChart.TAIL).isCloseTo(0.0013499, within(1e-7));
    }

    @Test
    void twoStandardDeviationsAreComparedByTheirRatio() {
        // F(0.95; 5, 5) = 5.0503 in the usual tables: the deviate is that of 5 % in one tail
        final List<SpreadChart.Step> steps =
                Outcomes.value(
                        SpreadChart.of(
                                new double[] {1, FastMath.sqrt(5.0503)}, new double[] {5, 5}, 2));

        assertThat(steps.get(1).z()).isCloseTo(1.6449, within(1e-4));
        assertThat(steps.get(0).z()).isCloseTo(-1.6449, within(1e-4));
        assertThat(steps.get(1).centre()).isEqualTo(1);
    }

    @Test
    void valueAtALimitOfAStandardDeviationIsThreeDeviatesAway() {
        final double[] s = {1, 1.2, 0.9, 1.1, 0.95};
        final double[] freedom = {9, 20, 5.5, 14, 8};
        final SpreadChart.Step step = Outcomes.value(SpreadChart.of(s, freedom, 4)).get(4);
        final double[] high = {1, 1.2, 0.9, 1.1, step.upper()};
        final double[] low = {1, 1.2, 0.9, 1.1, step.lower()};

        assertThat(Outcomes.value(SpreadChart.of(high, freedom, 4)).get(4).z())
                .isCloseTo(3, within(1e-8));
        assertThat(Outcomes.value(SpreadChart.of(low, freedom, 4)).get(4).z())
                .isCloseTo(-3, within(1e-8));
    }

    @Test
    void standardDeviationsThatAreAllZeroGiveNoLimits() {
        assertThat(SpreadChart.of(new double[3], new double[] {4, 4, 4}, 3))
                .isInstanceOf(Outcome.NotComputed.class);
        assertThat(SpreadChart.of(new double[] {1, 0, 1}, new double[] {4, 4, 4}, 3))
                .isInstanceOf(Outcome.Computed.class);
        assertThat(SpreadChart.of(new double[] {1}, new double[] {4}, 1))
                .isInstanceOf(Outcome.NotComputed.class);
    }
}
