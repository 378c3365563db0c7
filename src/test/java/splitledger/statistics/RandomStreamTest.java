package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.function.DoubleSupplier;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.apache.commons.statistics.distribution.GammaDistribution;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Draws against the distribution functions of Commons Statistics. The seeds are fixed, so that the
 * tests give the same answer every time; each limit would be passed by 999 of 1000 seeds.
 */
class RandomStreamTest {
    private static final int N = 400_000;

    /** Kolmogorov's limit at 0.1 %, times 1/sqrt(n). */
    private static final double LIMIT = 1.95;

    /** Of 1000 normal deviates one lies outside. */
    private static final double Z = 3.29;

    private static double[] draws(int n, DoubleSupplier next) {
        final double[] values = new double[n];
        Arrays.setAll(values, i -> next.getAsDouble());
        Arrays.sort(values);
        return values;
    }

    /** Largest distance between the steps of the sample and the law, times sqrt(n). */
    private static double kolmogorov(double[] sorted, DoubleUnaryOperator law) {
        double most = 0;
        final int n = sorted.length;
        for (int i = 0; i < n; i++) {
            final double f = law.applyAsDouble(sorted[i]);
            most = Math.max(most, Math.max(f - (double) i / n, (double) (i + 1) / n - f));
        }
        return most * Math.sqrt(n);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 20_260_101, -7})
    void normalsFollowTheNormalLaw(long seed) {
        final RandomStream random = RandomStream.of(seed, 0);
        final double[] z = draws(N, random::nextNormal);

        assertThat(kolmogorov(z, NormalDistribution.of(0, 1)::cumulativeProbability))
                .isLessThan(LIMIT);
    }

    /** Mean 0, variance 1 (u = sqrt(2/n)), third moment 0 (sqrt(15/n)), fourth 3 (sqrt(96/n)). */
    @Test
    void normalsHaveTheMomentsOfTheNormalLaw() {
        final RandomStream random = RandomStream.of(42, 3);
        final double[] z = draws(N, random::nextNormal);
        final double[] expected = {0, 1, 0, 3};
        final double[] variance = {1, 2, 15, 96};
        for (int power = 1; power <= 4; power++) {
            double sum = 0;
            for (double v : z) {
                sum += StrictMath.pow(v, power);
            }
            assertThat(sum / N)
                    .as("moment %d", power)
                    .isCloseTo(expected[power - 1], within(Z * Math.sqrt(variance[power - 1] / N)));
        }
    }

    /** Beyond the ziggurat's base (3.654) another method takes over: its share and its shape. */
    @Test
    void theTailHasItsShareAndItsShape() {
        final double start = 3.654152885361009;
        final NormalDistribution law = NormalDistribution.of(0, 1);
        final double share = 2 * law.survivalProbability(start);
        final RandomStream random = RandomStream.of(99, 0);
        final int n = 20_000_000;
        final double[] tail = new double[n / 1000];
        int found = 0;
        int negative = 0;
        for (int i = 0; i < n; i++) {
            final double z = random.nextNormal();
            if (Math.abs(z) > start) {
                tail[found++] = Math.abs(z);
                negative += z < 0 ? 1 : 0;
            }
        }

        assertThat((double) found).isCloseTo(n * share, within(Z * Math.sqrt(n * share)));
        assertThat((double) negative).isCloseTo(found / 2.0, within(Z * Math.sqrt(found / 4.0)));
        final double[] sorted = Arrays.copyOf(tail, found);
        Arrays.sort(sorted);
        assertThat(kolmogorov(sorted, z -> 1 - 2 * law.survivalProbability(z) / share))
                .isLessThan(LIMIT);
    }

    /** Ziggurat layers meet at their edges: a fault there shows near the centre and the base. */
    @Test
    void theCentreAndTheShoulderHaveTheirShare() {
        final NormalDistribution law = NormalDistribution.of(0, 1);
        final RandomStream random = RandomStream.of(5, 5);
        final int n = 4_000_000;
        final double[] edges = {0.05, 0.215, 0.5, 1, 2, 3, 3.4, 3.6};
        final long[] inside = new long[edges.length];
        for (int i = 0; i < n; i++) {
            final double z = Math.abs(random.nextNormal());
            for (int j = 0; j < edges.length; j++) {
                inside[j] += z < edges[j] ? 1 : 0;
            }
        }
        for (int j = 0; j < edges.length; j++) {
            final double p = 1 - 2 * law.survivalProbability(edges[j]);
            assertThat((double) inside[j])
                    .as("inside %s", edges[j])
                    .isCloseTo(n * p, within(Z * Math.sqrt(n * p * (1 - p))));
        }
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.05, 0.3, 0.5, 0.99, 1, 1.01, 2.7, 15, 400})
    void gammaDrawsFollowTheGammaLaw(double shape) {
        final RandomStream random = RandomStream.of(11, (long) (100 * shape));
        final double[] g = draws(N, () -> random.nextGamma(shape));
        final GammaDistribution law = GammaDistribution.of(shape, 1);

        assertThat(kolmogorov(g, law::cumulativeProbability)).isLessThan(LIMIT);
        final double mean = Arrays.stream(g).sum() / N;
        assertThat(mean).isCloseTo(shape, within(Z * Math.sqrt(shape / N)));
    }

    @ParameterizedTest
    @ValueSource(doubles = {1, 2, 3, 4.5, 16.7, 300})
    void chiSquareDrawsFollowTheChiSquareLaw(double df) {
        final RandomStream random = RandomStream.of(12, (long) (10 * df));
        final double[] c = draws(N, () -> random.nextChiSquare(df));
        final ChiSquaredDistribution law = ChiSquaredDistribution.of(df);

        assertThat(kolmogorov(c, law::cumulativeProbability)).isLessThan(LIMIT);
    }

    @Test
    void uniformDrawsAreUniformAndBelowOne() {
        final RandomStream random = RandomStream.of(7, 7);
        final double[] u = draws(N, random::nextDouble);

        assertThat(u[0]).isNotNegative();
        assertThat(u[N - 1]).isLessThan(1);
        assertThat(kolmogorov(u, x -> x)).isLessThan(LIMIT);
    }

    @Test
    void wholeNumbersComeAlikeOften() {
        final RandomStream random = RandomStream.of(8, 8);
        final int[] counts = new int[7];
        for (int i = 0; i < N; i++) {
            counts[random.nextInt(7)]++;
        }
        double chiSquare = 0;
        for (int count : counts) {
            chiSquare += (count - N / 7.0) * (count - N / 7.0) / (N / 7.0);
        }
        assertThat(chiSquare).isLessThan(Quantiles.chiSquare(0.999, 6));
    }

    @Test
    void successiveNormalsDoNotCorrelateNorDoNeighbouringStreams() {
        final RandomStream one = RandomStream.of(3, 0);
        final RandomStream two = RandomStream.of(3, 1);
        double lag = 0;
        double cross = 0;
        double last = 0;
        for (int i = 0; i < N; i++) {
            final double a = one.nextNormal();
            lag += a * last;
            cross += a * two.nextNormal();
            last = a;
        }
        assertThat(lag / N).isCloseTo(0, within(Z / Math.sqrt(N)));
        assertThat(cross / N).isCloseTo(0, within(Z / Math.sqrt(N)));
    }

    @Test
    void seedAndIndexAloneDecide() {
        assertThat(draws(50, RandomStream.of(1, 2)::nextNormal))
                .isEqualTo(draws(50, RandomStream.of(1, 2)::nextNormal));
        assertThat(RandomStream.of(1, 2).nextLong()).isNotEqualTo(RandomStream.of(2, 1).nextLong());
        assertThat(RandomStream.of(0, 0).nextLong()).isNotEqualTo(RandomStream.of(0, 1).nextLong());
    }

    /**
     * The documented recipe (seed by SplitMix64, xoshiro256++, ziggurat of 256 layers) followed by
     * a second program in another language, numbers copied from there.
     */
    @Test
    void theStreamIsWhatItsRecipeGives() {
        final RandomStream bits = RandomStream.of(1, 2);
        assertThat(new long[] {bits.nextLong(), bits.nextLong(), bits.nextLong(), bits.nextLong()})
                .containsExactly(
                        -8240567053254723522L,
                        232953302039375902L,
                        -1355947982863864201L,
                        -3229915890740901734L);
        assertThat(RandomStream.of(-7, 0).nextLong()).isEqualTo(-5227772954799236442L);
        assertThat(RandomStream.of(1, 2).nextDouble()).isEqualTo(0.5532779649174379);
        final RandomStream random = RandomStream.of(1, 2);
        final double[] z = new double[2000];
        Arrays.setAll(z, i -> random.nextNormal());
        final int[] places = {0, 1, 2, 3, 39, 68, 80, 218, 391, 1793};
        final double[] expected = {
            -1.8266892556901673, 0.061290059280390136, -0.2347598895263357, -0.4765883770037421,
            // between the layers
            0.43972082662851447, 2.916347392272276, -0.006959623218936686, 0.045416691324066776,
            // in the tail
            -3.807548184809341, -4.162966868481264
        };
        for (int i = 0; i < places.length; i++) {
            assertThat(z[places[i]]).isCloseTo(expected[i], within(1e-13));
        }
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, -1, Double.NaN})
    void aShapeThatIsNotAboveZeroIsRefused(double shape) {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> RandomStream.of(1, 1).nextGamma(shape))
                .withMessageContaining("shape = " + shape);
    }
}
