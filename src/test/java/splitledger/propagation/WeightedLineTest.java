package splitledger.propagation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static splitledger.Digits.assertDigits;
import static splitledger.statistics.Outcomes.assertNot;
import static splitledger.statistics.Outcomes.value;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import splitledger.statistics.LineFit;
import splitledger.statistics.LineFitter;
import splitledger.statistics.Outcome;
import splitledger.statistics.Quantiles;
import splitledger.statistics.VarianceEstimate;
import splitledger.statistics.Weighting;

class WeightedLineTest {
    private static final double[] X = {1, 2, 3, 4, 5};
    private static final double[] Y = {10.1, 19.9, 30.2, 39.8, 50.1};

    private static WeightedLine line(
            Weighting weighting, double[] x, double[] y, Optional<VarianceEstimate> injection) {
        final LineFit fit = value(LineFitter.withDefaults().withWeighting(weighting).fit(x, y));
        final Pool pool = new Pool("cal", fit.degreesOfFreedom(), "scatter about the line");
        return new WeightedLine("cal", fit, "mg/L", "pA s", pool, injection, 2);
    }

    @Test
    void anAmountFromFiveCalibrants() {
        // worked by hand
        final UncertainLine.Predicted found =
                value(line(Weighting.NONE, X, Y, Optional.empty()).predict(25, 1, "P1", 0.95));

        assertThat(found.amount().value()).isCloseTo(2.497497, within(5e-7));
        assertThat(found.amount().standardUncertainty()).isCloseTo(0.020926, within(5e-7));
        assertThat(found.amount().degreesOfFreedom()).isCloseTo(3, within(1e-9));
        assertThat(found.exact().lower()).isCloseTo(2.430709, within(1e-6));
        assertThat(found.exact().upper()).isCloseTo(2.563923, within(1e-6));
        assertThat(found.amount().unit()).isEqualTo("mg/L");
    }

    /** x 1..6, the response's scatter from the same residuals: exactly 4, worked by hand. */
    @ParameterizedTest
    @ValueSource(doubles = {1, 3.5, 6})
    void aPureCalibrationBudgetHasExactlyTwoDegreesOfFreedomLess(double x0) {
        final WeightedLine line =
                line(
                        Weighting.NONE,
                        new double[] {1, 2, 3, 4, 5, 6},
                        new double[] {10.2, 19.7, 30.1, 40.3, 49.6, 60.2},
                        Optional.empty());
        final UncertainLine.Predicted found =
                value(line.predict(line.line().at(x0), 1, "P1", 0.95));

        assertThat(found.amount().value()).isCloseTo(x0, within(1e-12));
        assertThat(found.amount().degreesOfFreedom()).isCloseTo(4, within(1e-9));
    }

    @ParameterizedTest
    @EnumSource
    void coefficientsCarryTheVariancesAndTheCovarianceOfTheFit(Weighting weighting) {
        final WeightedLine line = line(weighting, X, Y, Optional.empty());
        final LineFit fit = line.line();

        assertDigits(13, fit.slopeVariance(), line.slope().variance(), "var b");
        assertDigits(13, fit.interceptVariance(), line.intercept().variance(), "var a");
        assertDigits(13, fit.covariance(), line.intercept().covariance(line.slope()), "cov");
        assertThat(line.intercept().degreesOfFreedom()).isCloseTo(3, within(1e-9));
        assertThat(line.slope().unit()).isEqualTo("pA s/(mg/L)");
    }

    @ParameterizedTest
    @EnumSource
    void firstOrderAgreesWithTheInversePrediction(Weighting weighting) {
        final WeightedLine line = line(weighting, X, Y, Optional.empty());
        for (double y0 : new double[] {12, 25, 49}) {
            for (int m = 1; m <= 3; m++) {
                final UncertainLine.Predicted found = value(line.predict(y0, m, "P1", 0.95));

                assertDigits(
                        12,
                        found.exact().standardUncertainty(),
                        found.amount().standardUncertainty(),
                        "u at " + y0);
            }
        }
    }

    @Test
    void amountsFromOneLineCorrelateThroughIt() {
        final WeightedLine line = line(Weighting.NONE, X, Y, Optional.empty());
        final Uncertain one = value(line.predict(25, 1, "P1", 0.95)).amount();
        final Uncertain two = value(line.predict(26, 1, "P2", 0.95)).amount();
        final LineFit fit = line.line();
        final double b = fit.slope();
        // covariance of the line at the two amounts over b^2
        final double expected =
                fit.residualSd()
                        * fit.residualSd()
                        * (1.0 / 5 + (one.value() - 3) * (two.value() - 3) / 10)
                        / (b * b);

        assertDigits(10, expected, one.covariance(two), "covariance");
    }

    /**
     * Calibrants were means of q = 2 injections with residual variance s^2; a mean of m has s^2 +
     * s_i^2 (1/m - 1/2).
     */
    @Test
    void theNumberOfInjectionsChangesTheScatterOfTheirMeanAlone() {
        final VarianceEstimate within = new VarianceEstimate(0.01, 5);
        final WeightedLine line = line(Weighting.NONE, X, Y, Optional.of(within));
        final double s2 = line.line().residualSd() * line.line().residualSd();

        assertDigits(12, s2 + 0.005, line.response(25, 2.5, 1, "P").variance(), "one injection");
        assertDigits(12, s2, line.response(25, 2.5, 2, "P").variance(), "as the calibrants");
        assertDigits(
                12, s2 + 0.01 * (0.25 - 0.5), line.response(25, 2.5, 4, "P").variance(), "four");
        assertThat(line.response(25, 2.5, 1, "P").degreesOfFreedom()).isGreaterThan(3);
        // many injections never count for less than their own scatter
        final WeightedLine noisy =
                line(Weighting.NONE, X, Y, Optional.of(new VarianceEstimate(0.5, 5)));
        assertDigits(12, 0.5 / 10, noisy.response(25, 2.5, 10, "P").variance(), "ten");
    }

    @Test
    void scatterFollowsTheLawOfTheLine() {
        final WeightedLine line =
                line(Weighting.INVERSE_SQUARE, X, Y, Optional.of(new VarianceEstimate(0.0001, 5)));
        final double low = line.response(10, 1, 1, "P").standardUncertainty();

        assertDigits(12, 5 * low, line.response(50, 5, 1, "P").standardUncertainty(), "at 5");
    }

    @Test
    void aLineWithoutASlopeHasNoAmounts() {
        final WeightedLine flat =
                line(
                        Weighting.NONE,
                        new double[] {1, 2, 3, 4},
                        new double[] {1, 2, 2, 1},
                        Optional.empty());
        assertNot(flat.predict(1.5, 1, "P", 0.95), Outcome.Reason.NO_FINITE_VALUE);

        final WeightedLine vague =
                line(
                        Weighting.NONE,
                        new double[] {1, 2, 3},
                        new double[] {1, 3, 2},
                        Optional.empty());
        assertNot(vague.predict(2, 1, "P", 0.95), Outcome.Reason.UNBOUNDED_INTERVAL, "484.3");
    }

    /** The interval of the simulated amount against Fieller's, which is exact for this model. */
    @Test
    void monteCarloOverTheRootsGivesTheExactInterval() {
        final WeightedLine line = line(Weighting.NONE, X, Y, Optional.empty());
        final UncertainLine.Predicted found = value(line.predict(25, 1, "P1", 0.95));
        final MonteCarlo.Simulated y =
                new Given()
                        .input("y", found.response())
                        .input("a", line.intercept())
                        .input("b", line.slope())
                        .simulate("(y - a) / b", 21, 1_000_000, 0.95);
        final double t = Quantiles.coverageFactor(0.95, 3);
        final double u = found.amount().standardUncertainty();
        final double density = (Quantiles.tTail(t, 3) - Quantiles.tTail(t + 1e-4, 3)) / 1e-4 / u;
        final double error = 3.3 * Math.sqrt(0.025 * 0.975 / 1_000_000) / density;

        assertThat(y.lower()).isCloseTo(found.exact().lower(), within(error + 0.002 * u));
        assertThat(y.upper()).isCloseTo(found.exact().upper(), within(error + 0.002 * u));
    }
}
