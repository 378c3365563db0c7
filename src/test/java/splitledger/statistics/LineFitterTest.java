package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static splitledger.Digits.assertDigits;
import static splitledger.statistics.Outcomes.assertNot;
import static splitledger.statistics.Outcomes.value;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import splitledger.Oracle;
import splitledger.statistics.Outcome.Reason;

class LineFitterTest {
    /** Invented data of {@code oracle.R}. */
    static final double[] X = {0.5, 0.5, 1, 1, 2, 2, 5, 5, 10, 10, 20, 20};

    static final double[] Y = {
        1.31, 1.22, 2.26, 2.41, 4.52, 4.28, 10.61, 11.20, 20.1, 21.4, 42.9, 40.2
    };

    static LineFit fit(Weighting weighting, double[] x, double[] y) {
        return value(LineFitter.withDefaults().withWeighting(weighting).fit(x, y));
    }

    @Test
    void fiveCalibrants() {
        // worked by hand
        final LineFit line =
                fit(
                        Weighting.NONE,
                        new double[] {1, 2, 3, 4, 5},
                        new double[] {10.1, 19.9, 30.2, 39.8, 50.1});

        assertThat(line.intercept()).isCloseTo(0.05, within(1e-12));
        assertThat(line.slope()).isCloseTo(9.99, within(1e-12));
        assertThat(line.residualSd()).isCloseTo(0.188856, within(5e-7));
        assertThat(line.covariance()).isCloseTo(-0.0107, within(5e-5));
    }

    /** lm() of R with weights 1/x^p. */
    @ParameterizedTest
    @EnumSource
    void weightedLinesOfR(Weighting weighting) {
        final String name = "line-weights-" + weighting.power();
        final LineFit line = fit(weighting, X, Y);

        assertDigits(12, Oracle.number(name, "intercept"), line.intercept(), "intercept");
        assertDigits(13, Oracle.number(name, "slope"), line.slope(), "slope");
        assertDigits(12, Oracle.number(name, "residual-sd"), line.residualSd(), "s");
        assertDigits(
                12, Oracle.number(name, "intercept-variance"), line.interceptVariance(), "var a");
        assertDigits(12, Oracle.number(name, "slope-variance"), line.slopeVariance(), "var b");
        assertDigits(12, Oracle.number(name, "covariance"), line.covariance(), "cov");
        assertDigits(12, Oracle.number(name, "r-squared"), line.rSquared(), "r-squared");
    }

    /**
     * Miller and Miller, Statistics and Chemometrics for Analytical Chemistry, calibration of a
     * fluorimeter; printed values, s(y/x) and s(a) to one unit of the last digit (they follow from
     * rounded intermediate results). Data and results from memory, and they reproduce each other.
     */
    @Test
    void fluorescenceCalibration() {
        final LineFit line =
                fit(
                        Weighting.NONE,
                        new double[] {0, 2, 4, 6, 8, 10, 12},
                        new double[] {2.1, 5.0, 9.0, 12.6, 17.3, 21.0, 24.7});

        assertThat(line.slope()).isCloseTo(1.930, within(0.0005));
        assertThat(line.intercept()).isCloseTo(1.518, within(0.0005));
        assertThat(Math.sqrt(line.rSquared())).isCloseTo(0.9989, within(0.00005));
        assertThat(line.residualSd()).isCloseTo(0.4329, within(0.0001));
        assertThat(Math.sqrt(line.slopeVariance())).isCloseTo(0.0409, within(0.00005));
        assertThat(Math.sqrt(line.interceptVariance())).isCloseTo(0.2950, within(0.0001));
        final double t = Quantiles.coverageFactor(0.95, line.degreesOfFreedom());
        assertThat(t * Math.sqrt(line.slopeVariance())).isCloseTo(0.11, within(0.005));
        assertThat(t * Math.sqrt(line.interceptVariance())).isCloseTo(0.76, within(0.005));
    }

    /**
     * Harvey, Modern Analytical Chemistry, examples 5.10 and 5.11; the book's s_r 0.4035 and s_b1
     * 0.965 come from rounded fitted values, hence 0.001 of tolerance there. Data from memory,
     * results as printed.
     */
    @Test
    void externalStandards() {
        final LineFit line = harvey();

        assertThat(line.slope()).isCloseTo(120.706, within(0.0005));
        assertThat(line.intercept()).isCloseTo(0.209, within(0.0005));
        assertThat(line.residualSd()).isCloseTo(0.4035, within(0.001));
        assertThat(Math.sqrt(line.slopeVariance())).isCloseTo(0.965, within(0.001));
        assertThat(Math.sqrt(line.interceptVariance())).isCloseTo(0.292, within(0.0005));
    }

    static LineFit harvey() {
        return fit(
                Weighting.NONE,
                new double[] {0, 0.1, 0.2, 0.3, 0.4, 0.5},
                new double[] {0.00, 12.36, 24.83, 35.91, 48.79, 60.42});
    }

    /** JCGM 100:2008, H.3, table H.6: thermometer corrections, t0 = 20 (published values). */
    @Test
    void thermometerOfTheGuide() {
        final double[] t = {
            21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511
        };
        final double[] b = {
            -0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160
        };
        final double[] x = java.util.Arrays.stream(t).map(v -> v - 20).toArray();
        final LineFit line = fit(Weighting.NONE, x, b);

        assertThat(line.intercept()).isCloseTo(-0.1712, within(0.00005));
        assertThat(Math.sqrt(line.interceptVariance())).isCloseTo(0.0029, within(0.00005));
        assertThat(line.slope()).isCloseTo(0.00218, within(0.000005));
        assertThat(Math.sqrt(line.slopeVariance())).isCloseTo(0.00067, within(0.000005));
        assertThat(line.covariance() / Math.sqrt(line.slopeVariance() * line.interceptVariance()))
                .isCloseTo(-0.930, within(0.0005));
        assertThat(line.residualSd()).isCloseTo(0.0035, within(0.00005));
        assertThat(line.at(10)).isCloseTo(-0.1494, within(0.00005));
        assertThat(Math.sqrt(line.lineVariance(10))).isCloseTo(0.0041, within(0.00005));
    }

    @Test
    void varianceOfTheLineIsThatOfItsCoefficients() {
        for (Weighting weighting : Weighting.values()) {
            final LineFit line = fit(weighting, X, Y);
            for (double x : new double[] {0, 0.7, 8, 50}) {
                final double parts =
                        line.interceptVariance()
                                + 2 * x * line.covariance()
                                + x * x * line.slopeVariance();
                assertDigits(11, parts, line.lineVariance(x), "variance at " + x);
                assertDigits(12, line.intercept() + line.slope() * x, line.at(x), "line at " + x);
            }
        }
    }

    @Test
    void anExactLineHasNoScatterAndInfiniteT() {
        final LineFit line = fit(Weighting.NONE, new double[] {1, 2, 3}, new double[] {2, 4, 6});

        assertThat(line.residualSd()).isZero();
        assertThat(line.slopeT()).isInfinite();
        assertThat(line.rSquared()).isEqualTo(1);
    }

    @Test
    void dataThatGiveNoLineGiveTheReason() {
        final LineFitter fitter = LineFitter.withDefaults();
        assertNot(
                fitter.fit(new double[] {1, 2}, new double[] {1, 2}),
                Reason.TOO_FEW_POINTS,
                "3 points",
                "found 2");
        assertNot(
                fitter.fit(new double[] {2, 2, 2}, new double[] {1, 2, 3}), Reason.NO_SPREAD_IN_X);
        assertNot(
                fitter.withWeighting(Weighting.INVERSE)
                        .fit(new double[] {0, 1, 2}, new double[] {0, 1, 2}),
                Reason.ZERO_AMOUNT,
                "1/x");
        assertNot(
                fitter.withWeighting(Weighting.INVERSE_SQUARE)
                        .fit(new double[] {-1, 1, 2}, new double[] {0, 1, 2}),
                Reason.ZERO_AMOUNT,
                "1/x^2");
    }

    @ParameterizedTest
    @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
    void aValueThatIsNoNumberIsRefused(double bad) {
        assertThatIllegalArgumentException()
                .isThrownBy(
                        () ->
                                LineFitter.withDefaults()
                                        .fit(new double[] {1, 2, 3}, new double[] {1, bad, 3}))
                .withMessageContaining("point 1");
        assertThatIllegalArgumentException()
                .isThrownBy(
                        () ->
                                LineFitter.withDefaults()
                                        .fit(new double[] {bad, 2, 3}, new double[] {1, 2, 3}));
    }

    @Test
    void unequalLengthsAreRefused() {
        assertThatIllegalArgumentException()
                .isThrownBy(
                        () -> LineFitter.withDefaults().fit(new double[] {1, 2}, new double[] {1}))
                .withMessageContaining("x has 2 values, y 1");
    }
}
