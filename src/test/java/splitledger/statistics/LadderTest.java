package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import splitledger.Oracle;

/** Against R ({@code oracle/ladder.csv}) and cases worked by hand. */
class LadderTest {
    private static final double[] B = {
        125.7, 150.8, 174.2, 216.3, 253.6, 286.9, 316.7, 343.8, 368.6, 391.3, 412.2, 431.6, 449.7,
        465.7, 482, 497
    };

    private static final double[] Y = {
        0.004, -0.006, 0.009, 0.001, -0.008, 0.005, 0.002, -0.004, -0.011, -0.015, -0.034, -0.041,
        -0.068, -0.079, -0.112, -0.121
    };

    private static final Map<String, Double> NUMBERS = read();

    private static Map<String, Double> read() {
        final Map<String, Double> numbers = new TreeMap<>();
        Oracle.lines("/oracle/ladder.csv").stream()
                .skip(1)
                .map(line -> line.split(",", -1))
                .forEach(c -> numbers.put(c[0] + "," + c[1], Double.parseDouble(c[2])));
        return numbers;
    }

    private static double oracle(String name, String quantity) {
        return NUMBERS.getOrDefault(name + "," + quantity, Double.NaN);
    }

    private static LadderFit fit(LadderCurve curve) {
        return Outcomes.value(LadderFitter.fit(B, Y)).stream()
                .filter(f -> f.curve() == curve)
                .findFirst()
                .orElseThrow();
    }

    @Test
    void everyCurveHasTheSumOfSquaresAndTheCriterionOfTheOracle() {
        for (LadderCurve curve : LadderCurve.values()) {
            assertThat(fit(curve).squares())
                    .as(curve.code())
                    .isCloseTo(oracle(curve.code(), "squares"), within(1e-9));
            assertThat(fit(curve).criterion())
                    .as(curve.code())
                    .isCloseTo(oracle(curve.code(), "criterion"), within(1e-5));
        }
    }

    @Test
    void theSlopeOfTheLineAndItsUncertaintyAreThoseOfTheOracle() {
        final LadderFit line = fit(LadderCurve.LINE);
        double sum = 0;
        for (double w : line.weights(300, 200)) {
            sum += w * w;
        }

        assertThat(line.changePer100()).isCloseTo(oracle("line", "slope"), within(1e-12));
        assertThat(Math.sqrt(sum * line.variance()))
                .isCloseTo(oracle("line", "slope-u"), within(1e-12));
    }

    @Test
    void theOnsetAndItsIntervalByTheFProfileAreThoseOfTheOracle() {
        final LadderFit hinge = fit(LadderCurve.HINGE);
        final double[] ends = LadderFitter.onsets(B, Y, hinge, 0.95);

        assertThat(hinge.shape()[0]).isCloseTo(oracle("hinge", "onset"), within(1e-4));
        assertThat(ends[0]).isCloseTo(oracle("hinge", "onset-lower"), within(1e-4));
        assertThat(ends[1]).isCloseTo(oracle("hinge", "onset-upper"), within(1e-4));
    }

    @Test
    void aDifferenceOfTheLogisticHasTheUncertaintyOfTheOracle() {
        final LadderFit logistic = fit(LadderCurve.LOGISTIC);
        double sum = 0;
        for (double w : logistic.weights(220, 343.8)) {
            sum += w * w;
        }

        assertThat(logistic.value(220) - logistic.value(343.8))
                .isCloseTo(oracle("logistic", "difference"), within(1e-5));
        assertThat(Math.sqrt(sum * logistic.variance()))
                .isCloseTo(oracle("logistic", "difference-u"), within(1e-5));
    }

    @Test
    void theCubicIsThatOfTheOracle() {
        final LadderCubic cubic = new LadderCubic(B, Y);

        assertThat(cubic.value(220) - cubic.value(343.8))
                .isCloseTo(oracle("cubic", "difference"), within(1e-12));
        assertThat(cubic.variance(220, 343.8))
                .isCloseTo(oracle("cubic", "difference-variance"), within(1e-14));
    }

    @Test
    void aLadderThatFallsBeyondAKneeIsNotDescribedByALine() {
        assertThat(LadderFitter.chosen(Outcomes.value(LadderFitter.fit(B, Y))).curve())
                .isIn(LadderCurve.HINGE, LadderCurve.LOGISTIC);
    }

    @Test
    void fewMembersGetSimpleCurvesAndFewerThanSixNone() {
        assertThat(fits(14)).hasSize(4);
        assertThat(fits(13)).hasSize(3);
        assertThat(fits(10)).hasSize(3);
        assertThat(fits(9)).hasSize(2);
        assertThat(fits(6)).hasSize(2);
        assertThat(LadderFitter.fit(first(B, 5), first(Y, 5)))
                .isInstanceOf(Outcome.NotComputed.class);
    }

    private static List<LadderFit> fits(int members) {
        return Outcomes.value(LadderFitter.fit(first(B, members), first(Y, members)));
    }

    private static double[] first(double[] values, int n) {
        return java.util.Arrays.copyOf(values, n);
    }

    @Test
    void anExactLineIsFoundAsALineWithoutScatter() {
        final double[] y = new double[B.length];
        for (int i = 0; i < y.length; i++) {
            y[i] = 1 - 0.0004 * B[i];
        }
        final LadderFit chosen = LadderFitter.chosen(Outcomes.value(LadderFitter.fit(B, y)));

        assertThat(chosen.curve()).isEqualTo(LadderCurve.LINE);
        assertThat(chosen.changePer100()).isCloseTo(-0.04, within(1e-12));
    }

    @Test
    void moreInjectionsOfTheSameSolutionDoNotMakeMembersBetterKnown() {
        final double[][] few = {Y, Y};
        final double[][] many = {Y, Y, Y, Y, Y, Y, Y, Y};
        final double[] a = LadderMeans.of(B, few).means();
        final double[] b = LadderMeans.of(B, many).means();

        assertThat(LadderFitter.chosen(Outcomes.value(LadderFitter.fit(B, a))).variance())
                .isCloseTo(
                        LadderFitter.chosen(Outcomes.value(LadderFitter.fit(B, b))).variance(),
                        within(1e-12));
    }

    @Test
    void whatAnInjectionHasInCommonLeavesTheMembersAlone() {
        final double[] other = Y.clone();
        final double[] gap = Y.clone();
        for (int i = 0; i < Y.length; i++) {
            other[i] += 0.3;
            gap[i] -= 0.1;
        }
        gap[15] = Double.NaN;
        final LadderMeans means = LadderMeans.of(B, new double[][] {Y, other, gap});

        for (int i = 1; i < Y.length; i++) {
            assertThat(means.means()[i] - means.means()[0]).isCloseTo(Y[i] - Y[0], within(1e-9));
        }
        assertThat(means.slopeVariance().getAsDouble()).isCloseTo(0, within(1e-16));
        assertThat(means.noiseSd().getAsDouble()).isCloseTo(0, within(1e-8));
    }
}
