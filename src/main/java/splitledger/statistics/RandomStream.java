package splitledger.statistics;

import org.apache.commons.math3.util.FastMath;
import org.apache.commons.rng.core.source64.XoShiRo256PlusPlus;

/**
 * One seeded stream of random numbers: the same numbers on every machine and Java version. Uniform
 * bits by xoshiro256++ (Commons RNG core); normals by a ziggurat of 256 layers (Marsaglia and
 * Tsang, J. Stat. Softw. 5 (2000) 8, with the layer index and the mantissa taken from disjoint
 * bits); gamma by Marsaglia and Tsang, ACM Trans. Math. Softw. 26 (2000) 363.
 */
public final class RandomStream {
    private static final double UNIT = 0x1.0p-53;
    private static final long GOLDEN = 0x9e3779b97f4a7c15L;

    private final XoShiRo256PlusPlus bits;

    private RandomStream(long[] seed) {
        bits = new XoShiRo256PlusPlus(seed);
    }

    /**
     * The stream of a seed and an index; streams of different indexes are independent for all
     * purposes here.
     *
     * @param seed any number
     * @param index for example the block's number
     */
    public static RandomStream of(long seed, long index) {
        long state = mix(seed) ^ mix(index * GOLDEN + 1);
        final long[] words = new long[4];
        for (int i = 0; i < words.length; i++) {
            state += GOLDEN;
            words[i] = mix(state);
        }
        return new RandomStream(words);
    }

    /** Uniform on [0, 1). */
    public double nextDouble() {
        return (bits.next() >>> 11) * UNIT;
    }

    /** 64 uniform bits. */
    public long nextLong() {
        return bits.next();
    }

    /** Uniform whole number from 0 to {@code n - 1}; {@code n} small against 2^53. */
    public int nextInt(int n) {
        return (int) (nextDouble() * n);
    }

    /** Standard normal. */
    public double nextNormal() {
        while (true) {
            final long word = bits.next();
            final int layer = (int) (word & 0xff);
            final double u = (word >> 11) * 0x1.0p-52;
            if (Math.abs(u) < Ziggurat.RATIO[layer]) {
                return u * Ziggurat.X[layer];
            }
            if (layer == 0) {
                return tail(u < 0);
            }
            final double x = u * Ziggurat.X[layer];
            final double f =
                    Ziggurat.F[layer] + nextDouble() * (Ziggurat.F[layer + 1] - Ziggurat.F[layer]);
            if (f < FastMath.exp(-0.5 * x * x)) {
                return x;
            }
        }
    }

    /**
     * Chi-square.
     *
     * @param degreesOfFreedom {@code > 0}, whole or not
     */
    public double nextChiSquare(double degreesOfFreedom) {
        return 2 * nextGamma(degreesOfFreedom / 2);
    }

    /**
     * Gamma of scale 1.
     *
     * @param shape {@code > 0}
     */
    public double nextGamma(double shape) {
        if (!(shape > 0)) {
            throw new IllegalArgumentException("shape = " + shape + ", must be > 0");
        }
        if (shape < 1) {
            return nextGamma(shape + 1) * FastMath.pow(1 - nextDouble(), 1 / shape);
        }
        final double d = shape - 1.0 / 3;
        final double c = 1 / (3 * Math.sqrt(d));
        while (true) {
            final double z = nextNormal();
            final double root = 1 + c * z;
            if (root > 0) {
                final double v = root * root * root;
                final double u = 1 - nextDouble();
                final double z2 = z * z;
                if (u < 1 - 0.0331 * z2 * z2
                        || FastMath.log(u) < 0.5 * z2 + d * (1 - v + FastMath.log(v))) {
                    return d * v;
                }
            }
        }
    }

    private double tail(boolean negative) {
        while (true) {
            final double x = FastMath.log(1 - nextDouble()) / Ziggurat.START;
            final double y = FastMath.log(1 - nextDouble());
            if (-2 * y >= x * x) {
                return negative ? x - Ziggurat.START : Ziggurat.START - x;
            }
        }
    }

    /** The finaliser of SplitMix64 (Steele, Lea and Flood, OOPSLA 2014). */
    private static long mix(long z) {
        long x = z;
        x = (x ^ x >>> 30) * 0xbf58476d1ce4e5b9L;
        x = (x ^ x >>> 27) * 0x94d049bb133111ebL;
        return x ^ x >>> 31;
    }

    /**
     * The layers: equal areas under exp(-x^2/2), X falling from the base's width to 0, F =
     * exp(-X^2/2).
     */
    private static final class Ziggurat {
        private static final int LAYERS = 256;

        /** Start of the tail and area of a layer for 256 layers, as in the first reference. */
        private static final double START = 3.654152885361009;

        private static final double AREA = 0.00492867323399;
        private static final double[] X = new double[LAYERS + 1];
        private static final double[] F = new double[LAYERS + 1];
        private static final double[] RATIO = new double[LAYERS];

        static {
            final double f = FastMath.exp(-0.5 * START * START);
            X[0] = AREA / f;
            X[1] = START;
            for (int i = 2; i < LAYERS; i++) {
                X[i] =
                        Math.sqrt(
                                -2
                                        * FastMath.log(
                                                AREA / X[i - 1]
                                                        + FastMath.exp(
                                                                -0.5 * X[i - 1] * X[i - 1])));
            }
            for (int i = 1; i <= LAYERS; i++) {
                F[i] = FastMath.exp(-0.5 * X[i] * X[i]);
            }
            for (int i = 0; i < LAYERS; i++) {
                RATIO[i] = X[i + 1] / X[i];
            }
        }
    }
}
