package splitledger.propagation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.TreeMap;
import org.apache.commons.statistics.distribution.TDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import splitledger.statistics.Quantiles;

/**
 * Simulated intervals against exact ones. What one run may miss is computed: an end at probability
 * p has standard error sqrt(p (1 - p) / n) / density, a standard deviation s sqrt((kurtosis - 1) /
 * (4 n)); 3.3 of them are allowed. The seeds are fixed.
 */
class MonteCarloTest {
    private static final int N = 1_000_000;
    private static final double Z = 3.3;

    private static double endError(double density) {
        return Z * Math.sqrt(0.025 * 0.975 / N) / density;
    }

    private static Given four(double lastSd, Shape shape) {
        return new Given()
                .input("a", 0, 1, Double.POSITIVE_INFINITY, shape)
                .input("b", 0, 1, Double.POSITIVE_INFINITY, shape)
                .input("c", 0, 1, Double.POSITIVE_INFINITY, shape)
                .input("d", 0, lastSd, Double.POSITIVE_INFINITY, shape);
    }

    /** JCGM 101:2008, 9.2.2: four normals of standard deviation 1; exact 3.92. */
    @Test
    void fourNormals() {
        final MonteCarlo.Simulated y =
                four(1, new Shape.Normal()).simulate("a + b + c + d", 1, N, 0.95);
        final double end = 2 * Quantiles.normal(0.975);
        // density of N(0, 4) there
        final double error = endError(0.0584451 / 2);

        assertThat(end).isCloseTo(3.92, within(0.005));
        assertThat(y.upper()).isCloseTo(end, within(error));
        assertThat(y.lower()).isCloseTo(-end, within(error));
        assertThat(y.standardDeviation()).isCloseTo(2, within(Z * 2 / Math.sqrt(2.0 * N)));
        assertThat(y.mean()).isCloseTo(0, within(Z * 2 / Math.sqrt(N)));
        assertThat(y.withoutValue()).isZero();
        assertThat(y.trials()).isEqualTo(N);
    }

    /**
     * JCGM 101:2008, 9.2.3: four rectangles of standard deviation 1; exact half-width 2 sqrt(3) (2
     * - (3/5)^(1/4)) = 3.88. Density at the end: the last cubic piece of four rectangles.
     */
    @Test
    void fourRectangles() {
        final MonteCarlo.Simulated y =
                four(1, new Shape.Rectangular()).simulate("a + b + c + d", 2, N, 0.95);
        final double end = 2 * Math.sqrt(3) * (2 - StrictMath.pow(0.6, 0.25));
        // sum of four unit rectangles s: density (4 - s)^3 / 6; one unit is 2 sqrt(3) wide
        final double width = 2 * Math.sqrt(3);
        final double density = StrictMath.pow(0.6, 0.75) / 6 / width;

        assertThat(end).isCloseTo(3.88, within(0.005));
        assertThat(y.upper()).isCloseTo(end, within(endError(density)));
        assertThat(y.lower()).isCloseTo(-end, within(endError(density)));
        assertThat(y.standardDeviation()).isCloseTo(2, within(Z * 2 / Math.sqrt(2.0 * N)));
    }

    /**
     * JCGM 101:2008, 9.2.4: three rectangles of standard deviation 1 and one of 10; exact 17.0158
     * (computed with R, printed 17.0), u 10.15. Near the end the density is that of the wide
     * rectangle times the share of the others that still reach it, at least a half.
     */
    @Test
    void oneDominantRectangle() {
        final MonteCarlo.Simulated y =
                four(10, new Shape.Rectangular()).simulate("a + b + c + d", 3, N, 0.95);
        final double density = 0.5 / (20 * Math.sqrt(3));

        assertThat(y.upper()).isCloseTo(17.0158141, within(endError(density)));
        assertThat(y.lower()).isCloseTo(-17.0158141, within(endError(density)));
        assertThat(y.standardDeviation())
                .isCloseTo(10.14889157, within(Z * 10.15 / Math.sqrt(2.0 * N)));
        assertThat(y.shortestUpper() - y.shortestLower()).isCloseTo(34.03, within(0.1));
    }

    /** Every shape has mean 0, standard deviation 1 and the ends it says it has. */
    @ParameterizedTest
    @ValueSource(doubles = {-4, -3, -2, -1, 0, 0.3, 0.8, 1})
    void shapesAreStandardised(double which) {
        final Shape shape =
                which == -4
                        ? new Shape.Normal()
                        : which == -3
                                ? new Shape.Rectangular()
                                : which == -2
                                        ? new Shape.Triangular()
                                        : which == -1
                                                ? new Shape.Arcsine()
                                                : new Shape.Trapezoidal(which);
        final MonteCarlo.Simulated y =
                new Given()
                        .input("x", 0, 1, Double.POSITIVE_INFINITY, shape)
                        .simulate("x", 4, N, 0.9999);

        assertThat(y.mean()).isCloseTo(0, within(Z / Math.sqrt(N)));
        assertThat(y.standardDeviation()).isCloseTo(1, within(Z / Math.sqrt(2.0 * N)));
        if (!Double.isInfinite(shape.halfWidthInDeviations())) {
            assertThat(y.upper()).isLessThanOrEqualTo(shape.halfWidthInDeviations());
            assertThat(y.upper()).isGreaterThan(0.97 * shape.halfWidthInDeviations());
            assertThat(y.lower()).isGreaterThanOrEqualTo(-shape.halfWidthInDeviations());
        }
    }

    /** Quantiles of the shapes follow from their areas: exact half-widths at 95 %. */
    @Test
    void shapesHaveTheirExactIntervals() {
        // rectangle 0.95 a; triangle a (1 - sqrt(0.05)); arcsine a sin(pi/2 0.95)
        check(new Shape.Rectangular(), 0.95 * Math.sqrt(3), 1 / (2 * Math.sqrt(3)));
        final double triangle = Math.sqrt(6);
        check(new Shape.Triangular(), triangle * (1 - Math.sqrt(0.05)), Math.sqrt(0.05) / triangle);
        final double arcsine = Math.sqrt(2) * StrictMath.sin(Math.PI / 2 * 0.95);
        check(new Shape.Arcsine(), arcsine, 1 / (Math.PI * Math.sqrt(2 - arcsine * arcsine)));
        // trapezium of top/base 0.5: slope area below an end of height h: h (1 - 0.5) a ... ;
        // tail 0.025 = (a - x)^2 / (a^2 (1 - 0.25) 2)
        final double a = Math.sqrt(6 / 1.25);
        final double left = Math.sqrt(0.025 * 2 * 0.75);
        check(new Shape.Trapezoidal(0.5), a * (1 - left), left / (a * 0.75));
    }

    private static void check(Shape shape, double end, double density) {
        final MonteCarlo.Simulated y =
                new Given()
                        .input("x", 5, 1, Double.POSITIVE_INFINITY, shape)
                        .simulate("x", 5, N, 0.95);
        assertThat(y.upper()).as(shape.code()).isCloseTo(5 + end, within(endError(density)));
        assertThat(y.lower()).as(shape.code()).isCloseTo(5 - end, within(endError(density)));
    }

    /** One pool: the ratio to its estimated standard deviation is t, also for several roots. */
    @ParameterizedTest
    @CsvSource({"3, 0.95", "5, 0.9", "8, 0.95", "2, 0.9", "30, 0.99"})
    void rootsOfOnePoolGiveTheTIntervalOfThatPool(double df, double coverage) {
        final Pool pool = new Pool("s", df, "");
        final Root one = Root.normal("1", pool, Effect.STROKE, ActsOn.SAMPLE, "");
        final Root two = Root.normal("2", pool, Effect.STROKE, ActsOn.CALIBRANT, "");
        final Given given =
                new Given()
                        .input("a", Uncertain.of(10, "1", one, 3))
                        .input("b", Uncertain.of(0, "1", two, 4));
        final MonteCarlo.Simulated y = given.simulate("a + b", 6, N, coverage);
        final double t = Quantiles.coverageFactor(coverage, df);
        final double step = 1e-4;
        final double density = (Quantiles.tTail(t, df) - Quantiles.tTail(t + step, df)) / step / 5;
        final double p = (1 - coverage) / 2;
        final double error = Z * Math.sqrt(p * (1 - p) / N) / density;

        assertThat(given.propagate("a + b").degreesOfFreedom()).isCloseTo(df, within(1e-9));
        assertThat(y.upper()).isCloseTo(10 + 5 * t, within(error));
        assertThat(y.lower()).isCloseTo(10 - 5 * t, within(error));
        assertThat(y.standardDeviationExists()).isEqualTo(df > 2);
    }

    /** Roots of different pools have a chi-square each: the tail is that of the convolution. */
    @ParameterizedTest
    @CsvSource({"4, 4", "3, 20"})
    void rootsOfTwoPoolsAreIndependent(double one, double two) {
        final MonteCarlo.Simulated y =
                new Given()
                        .input("a", 0, 1, one)
                        .input("b", 0, 1, two)
                        .simulate("a + b", 7, N, 0.95);
        final TDistribution law = TDistribution.of(one);
        double tail = 0;
        final double step = 0.005;
        for (double x = -200; x < 200; x += step) {
            tail += step * law.density(x) * Quantiles.tTail(y.upper() - x, two);
        }

        assertThat(tail).isCloseTo(0.025, within(Z * Math.sqrt(0.025 * 0.975 / N)));
    }

    /** 2 degrees of freedom: t has no variance, so there is no standard uncertainty to give. */
    @Test
    void twoDegreesOfFreedomHaveNoSimulatedStandardUncertainty() {
        final MonteCarlo.Simulated y =
                new Given().input("a", 1, 1, 2).simulate("a", 8, 10_000, 0.95);

        assertThat(y.standardDeviationExists()).isFalse();
        assertThat(y.standardDeviation()).isZero();
        assertThat(y.upper()).isGreaterThan(y.lower());
    }

    @Test
    void aSharedRootIsDrawnOnceATrial() {
        final Root shared = Given.root("s");
        final MonteCarlo.Simulated y =
                new Given()
                        .input("a", Uncertain.of(7, "1", shared, 2))
                        .input("b", Uncertain.of(3, "1", shared, 2))
                        .simulate("a - b", 9, 10_000, 0.95);

        assertThat(y.standardDeviation()).isLessThan(1e-14);
        assertThat(y.mean()).isCloseTo(4, within(1e-12));
    }

    @Test
    void theSameSeedGivesTheSameNumbersAndAnotherGivesOthers() {
        final Given given = new Given().input("a", 1, 0.1, 5).input("b", 2, 0.1);

        assertThat(given.simulate("a * b", 10, 20_000, 0.95))
                .isEqualTo(given.simulate("a * b", 10, 20_000, 0.95))
                .isNotEqualTo(given.simulate("a * b", 11, 20_000, 0.95));
    }

    @Test
    void trialsWithoutAValueAreCountedAndLeftOut() {
        // a below 0 with probability 15.87 %
        final MonteCarlo.Simulated y = new Given().input("a", 1, 1).simulate("ln(a)", 12, N, 0.95);

        assertThat(y.withoutValue() / (double) N)
                .isCloseTo(0.158655, within(Z * Math.sqrt(0.16 * 0.84 / N)));
        assertThatExceptionOfType(ArithmeticException.class)
                .isThrownBy(() -> new Given().input("a", -5, 1).simulate("ln(a)", 1, 1000, 0.95))
                .withMessageContaining("no finite value");
    }

    @Test
    void trialsAreWholeBlocks() {
        assertThat(new Given().input("a", 1, 1).simulate("a", 1, 1, 0.95).trials()).isEqualTo(1000);
        assertThat(new Given().input("a", 1, 1).simulate("a", 1, 1001, 0.95).trials())
                .isEqualTo(2000);
        assertThat(MonteCarlo.of(1, 1000, 0.95).run(Given.parse("2 * 3"), new TreeMap<>()).mean())
                .isEqualTo(6);
    }

    @Test
    void senselessRunsAreRefused() {
        assertThatIllegalArgumentException().isThrownBy(() -> MonteCarlo.of(1, 0, 0.95));
        assertThatIllegalArgumentException().isThrownBy(() -> MonteCarlo.of(1, 1000, 1));
        assertThatIllegalArgumentException().isThrownBy(() -> MonteCarlo.of(1, 1000, Double.NaN));
    }

    /**
     * JCGM 101:2008, 9.3: mass standard, delta m = (mRc + dmRc) (1 + (rhoa - 1.2) (1/rhow -
     * 1/rhor)) - 100 000 mg, deviations in mg. Printed (one random run, from memory): mean 1.2341,
     * u 0.0754; the exact u computed with R is 0.07548.
     */
    @Test
    void massStandard() {
        final double root3 = Math.sqrt(3);
        final MonteCarlo.Simulated y =
                new Given()
                        .input("mRc", 100000.000, 0.050)
                        .input("dmRc", 1.234, 0.020)
                        .input(
                                "ra",
                                1.20,
                                0.1 / root3,
                                Double.POSITIVE_INFINITY,
                                new Shape.Rectangular())
                        .input(
                                "rW",
                                8000,
                                1000 / root3,
                                Double.POSITIVE_INFINITY,
                                new Shape.Rectangular())
                        .input(
                                "rR",
                                8000,
                                50 / root3,
                                Double.POSITIVE_INFINITY,
                                new Shape.Rectangular())
                        .simulate(
                                "(mRc + dmRc) * (1 + (ra - 1.2) * (1 / rW - 1 / rR)) - 100000",
                                13,
                                N,
                                0.95);

        assertThat(y.mean()).isCloseTo(1.2341, within(0.0002));
        assertThat(y.standardDeviation()).isCloseTo(0.0754, within(0.0002));
        // width printed 0.2991, two ends each with its error
        assertThat(y.shortestUpper() - y.shortestLower()).isCloseTo(0.2991, within(0.001));
    }
}
