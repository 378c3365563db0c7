package splitledger.propagation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.api.Assertions.withinPercentage;

import java.util.concurrent.ExecutionException;
import java.util.concurrent.ForkJoinPool;
import org.apache.commons.math3.distribution.GammaDistribution;
import org.apache.commons.math3.distribution.LogNormalDistribution;
import org.apache.commons.math3.distribution.RealDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import splitledger.propagation.Comparison.Kind;
import splitledger.propagation.MonteCarlo.Simulated;

/** When trials end, and what their comparison with the law of propagation says. */
class AdaptiveTest {

    private static Simulated run(Given given, String equation) {
        return MonteCarlo.adaptive(5, 0.95).run(Given.parse(equation), given.inputs());
    }

    private static Comparison compared(Given given, String equation) {
        final Uncertain law = given.propagate(equation);
        final double k =
                splitledger.statistics.Quantiles.coverageFactor(0.95, law.degreesOfFreedom());
        return Comparison.of(
                law,
                k * law.standardUncertainty(),
                SecondOrder.of(Given.parse(equation), given.inputs()),
                run(given, equation));
    }

    /** JCGM 101:2008, 7.9.2: 0.00035 to two digits is 35 x 10^-5: 0.5 x 10^-5. */
    @ParameterizedTest
    @CsvSource({
        "0.00035, 2, 0.000005",
        "2, 1, 0.5",
        "2, 2, 0.05",
        "0.0996, 2, 0.005",
        "0.0994, 2, 0.0005",
        "96, 1, 50",
        "10.1, 2, 0.5",
        "0, 2, 0"
    })
    void toleranceIsHalfAUnitOfTheLastDigit(double u, int digits, double expected) {
        assertThat(Settling.tolerance(u, digits)).isEqualTo(expected);
    }

    @ParameterizedTest
    @CsvSource({"0.0539, 1", "10.1, 2", "2.94, 2", "2.96, 1", "9.96, 2", "0, 1", "0.3, 1"})
    void digitsAreMeaningfulAsInRounding(double u, int digits) {
        assertThat(Settling.meaningfulDigits(u)).isEqualTo(digits);
    }

    @Test
    void trialsGoOnUntilTwoDigitsAreSettled() {
        // u = 9.6 has a tolerance of 0.05, u = 1.04 one of 0.05 too: relative to u nine times as
        // fine
        final Simulated fine = run(new Given().input("a", 100, 9.6), "a");
        final Simulated coarse = run(new Given().input("a", 100, 1.04), "a");

        assertThat(fine.settled()).isTrue();
        assertThat(coarse.settled()).isTrue();
        assertThat(coarse.trials()).isEqualTo(100_000);
        // twice sqrt(0.025 0.975 / n) / density = 0.05 with density 0.0584 / 9.6 gives 1.05 10^6
        assertThat(fine.trials()).isBetween(500_000, 1_700_000);
        assertThat(fine.trials() % 10_000).isZero();
        assertThat(fine.upper()).isCloseTo(100 + 1.959964 * 9.6, within(0.1));
    }

    @Test
    void theNumberOfThreadsChangesNothing() throws ExecutionException, InterruptedException {
        final Given given = new Given().input("a", 5, 0.33, 6).input("b", 2, 0.1);
        final Simulated usual = run(given, "a * b");
        final ForkJoinPool alone = new ForkJoinPool(1);
        final ForkJoinPool four = new ForkJoinPool(4);
        try {
            assertThat(alone.submit(() -> run(given, "a * b")).get()).isEqualTo(usual);
            assertThat(four.submit(() -> run(given, "a * b")).get()).isEqualTo(usual);
        } finally {
            alone.shutdown();
            four.shutdown();
        }
    }

    /** With 3 degrees of freedom standard deviations never settle; the ends do. */
    @Test
    void fewDegreesOfFreedomSettleByTheirEnds() {
        final Simulated y = run(new Given().input("a", 10, 1, 3), "a");
        // t(3) at 0.975
        final double t = 3.182446;

        assertThat(y.settled()).isTrue();
        assertThat(y.upper()).isCloseTo(10 + t, within(0.1));
        assertThat(y.lower()).isCloseTo(10 - t, within(0.1));
    }

    /** A t input alone: the intervals agree, the standard deviations by sqrt(nu/(nu - 2)). */
    @Test
    void oneTInputIsValidatedAndItsWiderDeviationSaid() {
        final Given given = new Given().input("a", 10, 1, 6);
        final Comparison c = compared(given, "a");

        assertThat(c.validated()).isTrue();
        assertThat(run(given, "a").standardDeviation())
                .isCloseTo(Math.sqrt(6.0 / 4), withinPercentage(2));
        assertThat(c.reasons())
                .singleElement()
                .satisfies(
                        r -> {
                            assertThat(r.kind()).isEqualTo(Kind.FEW_DEGREES_OF_FREEDOM);
                            assertThat(r.size()).isCloseTo(Math.sqrt(1.5), within(1e-12));
                        });
    }

    @Test
    void aRatioWithAnUncertainDivisorIsSkewedAndSaidToBe() {
        final Comparison c = compared(new Given().input("a", 10, 0.1).input("b", 1, 0.25), "a / b");

        assertThat(c.validated()).isFalse();
        assertThat(c.upperDifference()).isPositive();
        assertThat(c.reasons()).extracting(Comparison.Reason::kind).contains(Kind.SKEWNESS);
    }

    @Test
    void aDominantRectangleIsSaid() {
        final Comparison c =
                compared(
                        new Given()
                                .input(
                                        "a",
                                        0,
                                        10,
                                        Double.POSITIVE_INFINITY,
                                        new Shape.Rectangular())
                                .input("b", 0, 1),
                        "a + b");

        assertThat(c.validated()).isFalse();
        assertThat(c.reasons())
                .singleElement()
                .satisfies(
                        r -> {
                            assertThat(r.kind()).isEqualTo(Kind.SHAPE);
                            assertThat(r.about()).isEqualTo("rectangular");
                            assertThat(r.size()).isCloseTo(100.0 / 101, within(1e-12));
                        });
    }

    @Test
    void causesThatCancelAreNoDifference() {
        final Uncertain same = Uncertain.of(7, "1", Given.root("s"), 2);
        final Given given = new Given().input("a", same).input("b", same.at(3));

        assertThat(compared(given, "a - b").validated()).isTrue();
        assertThat(compared(given, "a - b").reasons()).isEmpty();
    }

    @Test
    void aFlatEquationIsNotValidated() {
        final Comparison c = compared(new Given().input("a", 0, 1), "a^2");

        assertThat(c.validated()).isFalse();
        assertThat(c.reasons())
                .anySatisfy(
                        r -> {
                            assertThat(r.kind()).isEqualTo(Kind.CURVATURE);
                            assertThat(r.size()).isInfinite();
                        });
    }

    /** Ends of the positive shapes against the general library's quantiles; 3.3 standard errors. */
    @ParameterizedTest
    @CsvSource({"lognormal, 0.1", "lognormal, 0.6", "gamma, 0.1", "gamma, 0.6", "gamma, 1.2"})
    void positiveShapesHaveTheirExactIntervals(String code, double relative) {
        final Shape shape =
                code.equals("gamma") ? new Shape.Gamma(relative) : new Shape.Lognormal(relative);
        final double squared = relative * relative;
        final double variance = StrictMath.log1p(squared);
        final RealDistribution exact =
                code.equals("gamma")
                        ? new GammaDistribution(1 / squared, 4 * squared)
                        : new LogNormalDistribution(
                                StrictMath.log(4) - variance / 2, Math.sqrt(variance));
        final int n = 400_000;
        final Simulated y =
                new Given()
                        .input("x", 4, 4 * relative, Double.POSITIVE_INFINITY, shape)
                        .simulate("x", 8, n, 0.95);

        assertThat(shape.code()).isEqualTo(code);
        for (double[] end : new double[][] {{0.025, y.lower()}, {0.975, y.upper()}}) {
            final double q = exact.inverseCumulativeProbability(end[0]);
            final double error = 3.3 * Math.sqrt(0.025 * 0.975 / n) / exact.density(q);
            assertThat(end[1]).isCloseTo(q, within(error));
        }
        assertThat(y.mean()).isCloseTo(4, within(3.3 * 4 * relative / Math.sqrt(n)));
    }

    @Test
    void theHistogramHoldsAllButTheOutermostThousandths() {
        final MonteCarlo.Histogram h =
                new Given().input("a", 3, 1).simulate("a", 4, 100_000, 0.95).histogram();
        final double sum = h.densities().stream().mapToDouble(d -> d * h.step()).sum();

        assertThat(sum).isCloseTo(0.998, within(1e-9));
        assertThat(h.from()).isCloseTo(3 - 3.09, within(0.1));
    }
}
