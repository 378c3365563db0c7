package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static splitledger.Digits.assertDigits;
import static splitledger.statistics.CalibrationOracle.X;
import static splitledger.statistics.CalibrationOracle.Y;
import static splitledger.statistics.CalibrationOracle.number;
import static splitledger.statistics.Outcomes.assertNot;
import static splitledger.statistics.Outcomes.value;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.ScatterLaw.Form;

class AmountPredictorTest {
    /** Fluorescence of seven standards (a textbook's example, from memory). */
    private static final double[] FLUORESCEIN_X = {0, 2, 4, 6, 8, 10, 12};

    private static final double[] FLUORESCEIN_Y = {2.1, 5.0, 9.0, 12.6, 17.3, 21.0, 24.7};

    private static ScatterFit both(MeanLaw mean, double[] y) {
        return ScatterFitterTest.fit(mean, X, y, CalibrationOracle.ones(18));
    }

    private static ScatterFit constant(MeanLaw mean, double[] x, double[] y) {
        return value(ScatterFitter.withDefaults().withMean(mean).withForm(Form.CONSTANT).fit(x, y));
    }

    /** The same sums over the same ratios by full matrices; 20 times finer steps change 1e-6. */
    @ParameterizedTest
    @CsvSource({"two-component-line, LINE", "two-component-quadratic, QUADRATIC"})
    void theAverageOverLawsIsThatOfR(String name, MeanLaw mean) {
        final double[] y = mean == MeanLaw.QUADRATIC ? CalibrationOracle.curved() : Y;
        final ScatterFit fit = both(mean, y);
        final ScatterAverage average = new ScatterAverage(fit);
        for (String at : new String[] {"0.7", "15"}) {
            final double x0 = Double.parseDouble(at);
            final double h = average.halfWidth(fit.at(x0), mean.terms(x0), 1, 0.95, 0.1);

            assertDigits(6, number(name, "average-half-width-" + at), h, "at " + at);
            assertDigits(5, number(name, "average-half-width-fine-" + at), h, "finer, " + at);
        }
        final double[] slope = mean == MeanLaw.LINE ? new double[] {0, 1} : new double[] {0, 1, 0};
        assertDigits(
                6,
                number(name, "average-half-width-slope"),
                average.halfWidth(fit.coefficient(1), slope, 0, 0.95, 0.1),
                "slope");
    }

    @Test
    void theFactorIsTheLargerOfTheTwo() {
        final ScatterFit fit = both(MeanLaw.LINE, Y);
        final AmountPredictor predictor = AmountPredictor.of(fit, 0.95);
        for (String at : new String[] {"0.7", "15"}) {
            final double x0 = Double.parseDouble(at);
            final double sd = Math.sqrt(fit.meanVariance(x0) + fit.law().variance(fit.at(x0)));
            final double student = Quantiles.coverageFactor(0.95, fit.predictionFreedom(x0, 1));
            final double averaged = number("two-component-line", "average-half-width-" + at) / sd;

            assertDigits(
                    6, Math.max(student, averaged), predictor.factorAt(x0, 1), "factor at " + at);
        }
    }

    /** Roots of the condition found in R, k = 2.3, a sample of half the usual variance. */
    @ParameterizedTest
    @ValueSource(strings = {"1.3", "12"})
    void theSetWithTheScatterAtXItselfHasTheEndsOfR(String response) {
        final ScatterFit fit = both(MeanLaw.LINE, Y);
        final double y0 = Double.parseDouble(response);
        final double x0 = (y0 - fit.coefficient(0)) / fit.coefficient(1);
        final FiellerSet set =
                value(
                        FiellerSet.of(
                                x0,
                                y0,
                                fit.coefficient(1),
                                fit.meanVariance(x0),
                                fit.covariance(0, 1) + x0 * fit.covariance(1, 1),
                                fit.covariance(1, 1),
                                fit.law(),
                                0.5,
                                2.3));

        assertDigits(9, number("limits", "inverse-" + response + "-lower"), set.lower(), "lower");
        assertDigits(9, number("limits", "inverse-" + response + "-upper"), set.upper(), "upper");
    }

    /** x 1..5; worked by hand. */
    @Test
    void anAmountFromFiveCalibrants() {
        final ScatterFit fit =
                constant(
                        MeanLaw.LINE,
                        new double[] {1, 2, 3, 4, 5},
                        new double[] {10.1, 19.9, 30.2, 39.8, 50.1});
        final AmountPrediction found = value(AmountPredictor.withGivenLaw(fit, 0.95).amount(25, 1));

        assertThat(found.amount()).isCloseTo(2.497497, within(5e-7));
        assertThat(found.standardUncertainty()).isCloseTo(0.020926, within(5e-7));
        assertThat(found.lower()).isCloseTo(2.430709, within(5e-7));
        assertThat(found.upper()).isCloseTo(2.563923, within(5e-7));
        assertThat(found.degreesOfFreedom()).isCloseTo(3, within(1e-8));
    }

    /** s_x0 as printed in the textbook (from memory); ends computed in R by another formula. */
    @ParameterizedTest
    @CsvSource({
        "2.9, 0.72, 0.26, 0.01899159311, 1.381572914",
        "13.5, 6.21, 0.24, 5.590607743, 6.825056394",
        "23, 11.13, 0.26, 10.46610635, 11.82158104"
    })
    void amountsOfATextbook(double y0, double amount, double u, double lower, double upper) {
        final ScatterFit fit = constant(MeanLaw.LINE, FLUORESCEIN_X, FLUORESCEIN_Y);
        final AmountPrediction found = value(AmountPredictor.withGivenLaw(fit, 0.95).amount(y0, 1));

        assertThat(found.amount()).isCloseTo(amount, within(0.005));
        assertThat(found.standardUncertainty()).isCloseTo(u, within(0.005));
        assertDigits(8, lower, found.lower(), "lower");
        assertDigits(9, upper, found.upper(), "upper");
    }

    @Test
    void aQuadraticCalibrationAndALineThroughOriginHaveTheEndsOfR() {
        final AmountPredictor curve =
                AmountPredictor.withGivenLaw(
                        constant(MeanLaw.QUADRATIC, X, CalibrationOracle.curved()), 0.95);
        for (String y0 : new String[] {"6", "35"}) {
            final AmountPrediction found = value(curve.amount(Double.parseDouble(y0), 0.5));

            assertDigits(10, number("quadratic", "amount-" + y0), found.amount(), "amount");
            assertDigits(9, number("quadratic", "lower-" + y0), found.lower(), "lower");
            assertDigits(9, number("quadratic", "upper-" + y0), found.upper(), "upper");
        }
        final AmountPrediction found =
                value(
                        AmountPredictor.withGivenLaw(constant(MeanLaw.THROUGH_ORIGIN, X, Y), 0.95)
                                .amount(12, 1));
        assertDigits(10, number("origin", "lower"), found.lower(), "lower");
        assertDigits(10, number("origin", "upper"), found.upper(), "upper");
    }

    @Test
    void aResponseThatAQuadraticCurveDoesNotReachHasNoAmount() {
        final double[] x = {1, 2, 3, 4, 5, 6};
        final double[] y = {11.02, 19.97, 27.01, 31.98, 35.02, 36.01};
        final AmountPredictor predictor =
                AmountPredictor.withGivenLaw(constant(MeanLaw.QUADRATIC, x, y), 0.95);

        assertNot(predictor.amount(40, 1), Reason.NO_FINITE_VALUE, "does not reach");
        assertNot(predictor.amount(35.99, 1), Reason.UNBOUNDED_INTERVAL, "turning point");
        assertThat(value(predictor.amount(20, 1)).amount()).isBetween(1.9, 2.1);
    }

    /** Silver by standard additions, a textbook's example (from memory). */
    @Test
    void anAmountByStandardAdditions() {
        final ScatterFit fit =
                constant(
                        MeanLaw.LINE,
                        new double[] {0, 5, 10, 15, 20, 25, 30},
                        new double[] {0.32, 0.41, 0.52, 0.60, 0.70, 0.77, 0.89});
        final AmountPrediction found = value(AmountPredictor.withGivenLaw(fit, 0.95).byAddition());

        assertThat(found.amount()).isCloseTo(17.3, within(0.05));
        assertThat(found.standardUncertainty()).isCloseTo(0.749, within(0.002));
        assertThat(found.factor() * found.standardUncertainty()).isCloseTo(1.9, within(0.05));
        assertThat(found.responseUncertainty()).isZero();
        // Fieller's ends are not symmetric, but hold the first order's in the main
        assertThat(found.lower()).isBetween(15.2, 15.6);
        assertThat(found.upper()).isBetween(19.1, 19.6);
    }

    @Test
    void aSlopeThatIsNotToldFromZeroHasNoInterval() {
        final ScatterFit fit =
                constant(MeanLaw.LINE, new double[] {1, 2, 3}, new double[] {1, 3, 2});

        assertNot(
                AmountPredictor.withGivenLaw(fit, 0.95).amount(2, 1),
                Reason.UNBOUNDED_INTERVAL,
                "484.3");
    }

    @Test
    void anEstimatedLawIsNotTakenForAGivenOne() {
        final ScatterFit fit = both(MeanLaw.LINE, Y);

        assertThatIllegalArgumentException()
                .isThrownBy(() -> AmountPredictor.withGivenLaw(fit, 0.95));
    }

    @Test
    void degreesOfFreedomGiveTheFactorBack() {
        final AmountPredictor predictor = AmountPredictor.of(both(MeanLaw.LINE, Y), 0.95);

        assertThat(predictor.freedomFor(1.95)).isInfinite();
        for (double df : new double[] {0.5, 1, 2.5, 16, 400}) {
            final double found = predictor.freedomFor(Quantiles.coverageFactor(0.95, df));
            assertDigits(7, df, found, "freedom");
        }
    }

    @Test
    void theSdIntervalHoldsTheChiSquareInterval() {
        final ScatterFit fit = both(MeanLaw.LINE, Y);
        final AmountPredictor.SdInterval found = AmountPredictor.of(fit, 0.95).sdInterval(0.7);

        assertThat(found.lower()).isPositive().isLessThanOrEqualTo(fit.scatter(0.7).sdLower(0.95));
        assertThat(found.upper()).isGreaterThanOrEqualTo(fit.scatter(0.7).sdUpper(0.95));
    }
}
