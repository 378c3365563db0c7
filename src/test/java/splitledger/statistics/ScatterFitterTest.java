package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static splitledger.Digits.assertDigits;
import static splitledger.statistics.CalibrationOracle.UNEVEN;
import static splitledger.statistics.CalibrationOracle.X;
import static splitledger.statistics.CalibrationOracle.Y;
import static splitledger.statistics.Outcomes.assertNot;
import static splitledger.statistics.Outcomes.value;

import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.ScatterLaw.Form;

class ScatterFitterTest {

    static ScatterFit fit(MeanLaw mean, double[] x, double[] y, double[] shares) {
        return value(ScatterFitter.withDefaults().withMean(mean).fit(x, y, shares));
    }

    /** The oracle iterates minimum norm equations with full matrices, to 12 digits. */
    @ParameterizedTest
    @CsvSource({
        "two-component-line, LINE, false",
        "two-component-origin, THROUGH_ORIGIN, false",
        "two-component-quadratic, QUADRATIC, false",
        "two-component-line-uneven, LINE, true"
    })
    void bothPartsOfTheScatterAndTheMeanAreThoseOfR(String name, MeanLaw mean, boolean uneven) {
        final double[] y = mean == MeanLaw.QUADRATIC ? CalibrationOracle.curved() : Y;
        final double[] shares = uneven ? UNEVEN : CalibrationOracle.ones(18);
        final ScatterFit found = fit(mean, X, y, shares);

        assertDigits(9, number(name, "constant"), found.law().constant(), "s0^2");
        assertDigits(9, number(name, "proportional"), found.law().proportional(), "s1^2");
        for (int k = 0; k < mean.parameters(); k++) {
            assertDigits(9, number(name, "coefficient-" + k), found.coefficient(k), "b" + k);
            // derivatives by differences in the oracle
            assertDigits(
                    7,
                    number(name, "coefficient-freedom-" + k),
                    found.coefficientFreedom(k),
                    "df of b" + k);
            for (int l = k; l < mean.parameters(); l++) {
                assertDigits(9, number(name, "covariance-" + k + l), found.covariance(k, l), "cov");
            }
        }
        for (int k = 0; k < 2; k++) {
            for (int l = k; l < 2; l++) {
                assertDigits(
                        8,
                        number(name, "part-covariance-" + k + l),
                        found.partCovariance(k, l),
                        "covariance of parts");
            }
        }
        for (String x0 : new String[] {"0", "0.7", "15"}) {
            final double at = Double.parseDouble(x0);
            assertDigits(
                    7,
                    number(name, "prediction-freedom-" + x0),
                    found.predictionFreedom(at, 0.5),
                    "df of a prediction at " + x0);
            assertDigits(
                    7,
                    number(name, "scatter-freedom-" + x0),
                    found.scatter(at).degreesOfFreedom(),
                    "df of s(x) at " + x0);
        }
    }

    @Test
    void likelihoodsDifferFromEachOtherAsThoseOfR() {
        final String name = "two-component-line";
        final ScatterFit found = fit(MeanLaw.LINE, X, Y, CalibrationOracle.ones(18));

        assertDigits(
                10,
                number(name, "likelihood") - number(name, "likelihood-constant"),
                found.likelihood() - found.constantLikelihood(),
                "both over constant");
        assertDigits(
                10,
                number(name, "likelihood") - number(name, "likelihood-proportional"),
                found.likelihood() - found.proportionalLikelihood(),
                "both over proportional");
        assertThat(ScatterGrowth.byBoundaryLaw(found).statistic()).isGreaterThan(20);
    }

    @Test
    void givenConstantScatterItIsTheLineOfLeastSquares() {
        final ScatterFit found =
                value(ScatterFitter.withDefaults().withForm(Form.CONSTANT).fit(X, Y));
        final LineFit line = LineFitterTest.fit(Weighting.NONE, X, Y);

        assertDigits(12, line.intercept(), found.coefficient(0), "a");
        assertDigits(13, line.slope(), found.coefficient(1), "b");
        assertDigits(12, line.residualSd(), Math.sqrt(found.law().constant()), "s");
        assertDigits(12, line.interceptVariance(), found.covariance(0, 0), "var a");
        assertDigits(12, line.covariance(), found.covariance(0, 1), "cov");
        assertDigits(12, 16, found.coefficientFreedom(0), "n - 2");
        assertDigits(12, 16, found.predictionFreedom(7, 1), "n - 2");
        assertDigits(12, 16, found.scatter(7).degreesOfFreedom(), "n - 2");
    }

    @Test
    void givenProportionalScatterEverythingHasAllDegreesOfFreedom() {
        final ScatterFit found =
                value(ScatterFitter.withDefaults().withForm(Form.PROPORTIONAL).fit(X, Y));

        assertThat(found.law().form()).isEqualTo(Form.PROPORTIONAL);
        assertDigits(12, 16, found.predictionFreedom(7, 0.3), "n - 2");
        assertDigits(12, 16, found.scatter(0).degreesOfFreedom(), "n - 2");
    }

    @Test
    void scatterThatFallsEndsWithoutAProportionalPart() {
        final ScatterFit found =
                fit(MeanLaw.LINE, X, wavering(m -> 0.05 - 0.0005 * m), CalibrationOracle.ones(18));

        assertThat(found.law().form()).isEqualTo(Form.CONSTANT);
        assertThat(ScatterGrowth.byBoundaryLaw(found).p()).isEqualTo(1);
        assertThat(ScatterGrowth.byBoundaryLaw(found).statistic()).isZero();
    }

    @Test
    void scatterThatGrowsFasterThanTheResponseEndsWithoutAConstantPart() {
        final ScatterFit found =
                fit(
                        MeanLaw.LINE,
                        X,
                        wavering(m -> 0.01 * m * Math.sqrt(m)),
                        CalibrationOracle.ones(18));

        assertThat(found.law().form()).isEqualTo(Form.PROPORTIONAL);
        assertThat(found.likelihood()).isEqualTo(found.proportionalLikelihood());
        assertThat(ScatterGrowth.byBoundaryLaw(found).p()).isLessThan(1e-6);
    }

    /** Three preparations a level at -1, 0 and +1 times the scatter, on 1 + 2x. */
    private static double[] wavering(DoubleUnaryOperator scatter) {
        final double[] y = new double[X.length];
        for (int i = 0; i < y.length; i++) {
            final double mean = 1 + 2 * X[i];
            y[i] = mean + (i % 3 - 1) * scatter.applyAsDouble(mean);
        }
        return y;
    }

    @Test
    void otherUnitsOfAmountAndResponseScaleTheResult() {
        final double[] x = Arrays.stream(X).map(v -> 1000 * v).toArray();
        final double[] y = Arrays.stream(Y).map(v -> 1e6 * v).toArray();
        final ScatterFit one = fit(MeanLaw.LINE, X, Y, CalibrationOracle.ones(18));
        final ScatterFit other = fit(MeanLaw.LINE, x, y, CalibrationOracle.ones(18));

        assertDigits(9, 1e12 * one.law().constant(), other.law().constant(), "s0^2");
        assertDigits(9, one.law().proportional(), other.law().proportional(), "s1^2");
        assertDigits(9, 1000 * one.coefficient(1), other.coefficient(1), "slope");
        assertDigits(8, one.predictionFreedom(0.7, 1), other.predictionFreedom(700, 1), "freedom");
    }

    @Test
    void aLevelWithoutAnyAmountIsWelcome() {
        final double[] x = {0, 0, 0, 1, 1, 1, 10, 10, 10, 100, 100, 100};
        final double[] y = {0.02, -0.03, 0.00, 1.04, 0.97, 1.01, 10.3, 9.8, 10.1, 104, 98, 101};
        final ScatterFit found = fit(MeanLaw.LINE, x, y, CalibrationOracle.ones(12));

        assertThat(found.law().form()).isEqualTo(Form.BOTH);
        assertThat(Math.sqrt(found.law().constant())).isBetween(0.01, 0.06);
        assertThat(Math.sqrt(found.law().proportional())).isBetween(0.01, 0.06);
    }

    @Test
    void tooLittleDataSaySo() {
        assertNot(
                ScatterFitter.withDefaults()
                        .fit(new double[] {1, 2, 3, 4}, new double[] {1, 2, 3, 4.1}),
                Reason.TOO_FEW_POINTS,
                "5");
        assertNot(
                ScatterFitter.withDefaults()
                        .fit(new double[] {1, 1, 1, 4, 4}, new double[] {1, 1.1, 3, 4.1, 4}),
                Reason.TOO_FEW_LEVELS);
        assertNot(
                ScatterFitter.withDefaults()
                        .fit(new double[] {1, 2, 3, 4, 5}, new double[] {3, 5, 7, 9, 11}),
                Reason.NO_SCATTER);
        assertNot(
                ScatterFitter.withDefaults()
                        .withForm(Form.PROPORTIONAL)
                        .fit(
                                new double[] {0, 1, 2, 3, 4, 5, 1000},
                                new double[] {0, 1.1, 1.9, 3.1, 3.9, 5.1, 1000}),
                Reason.MEAN_NEAR_ZERO);
    }

    @Test
    void badArgumentsAreNamed() {
        assertThatIllegalArgumentException()
                .isThrownBy(
                        () ->
                                ScatterFitter.withDefaults()
                                        .fit(new double[] {1, 2}, new double[] {1}))
                .withMessageContaining("x has 2 values, y 1");
        assertThatIllegalArgumentException()
                .isThrownBy(
                        () ->
                                ScatterFitter.withDefaults()
                                        .fit(new double[] {Double.NaN}, new double[] {1}))
                .withMessageContaining("NaN");
        assertThatIllegalArgumentException().isThrownBy(() -> new ScatterLaw(0, 0));
    }

    private static double number(String name, String quantity) {
        return CalibrationOracle.number(name, quantity);
    }
}
