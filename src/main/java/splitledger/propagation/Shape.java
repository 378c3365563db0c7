package splitledger.propagation;

import org.apache.commons.math3.util.FastMath;
import splitledger.statistics.RandomStream;

/**
 * Distribution of a standardised cause: mean 0, variance 1. A Student t is a normal shape in a pool
 * of finite degrees of freedom.
 */
public sealed interface Shape {

    /** The name in files. */
    String code();

    /** Fills the first {@code n} places with independent draws. */
    void fill(double[] out, int n, RandomStream random);

    /** Ratio of half-width to standard deviation; infinite for shapes without ends. */
    double halfWidthInDeviations();

    /** Gaussian. */
    record Normal() implements Shape {
        @Override
        public String code() {
            return "normal";
        }

        @Override
        public void fill(double[] out, int n, RandomStream random) {
            for (int i = 0; i < n; i++) {
                out[i] = random.nextNormal();
            }
        }

        @Override
        public double halfWidthInDeviations() {
            return Double.POSITIVE_INFINITY;
        }
    }

    /**
     * Every value between two limits alike; half-width a, variance a^2/3 (JCGM 100:2008, 4.3.7).
     */
    record Rectangular() implements Shape {
        private static final double HALF_WIDTH = Math.sqrt(3);

        @Override
        public String code() {
            return "rectangular";
        }

        @Override
        public void fill(double[] out, int n, RandomStream random) {
            for (int i = 0; i < n; i++) {
                out[i] = HALF_WIDTH * (2 * random.nextDouble() - 1);
            }
        }

        @Override
        public double halfWidthInDeviations() {
            return HALF_WIDTH;
        }
    }

    /**
     * Symmetric triangle between two limits; half-width a, variance a^2/6 (JCGM 100:2008, 4.3.9).
     */
    record Triangular() implements Shape {
        private static final double HALF_WIDTH = Math.sqrt(6);

        @Override
        public String code() {
            return "triangular";
        }

        @Override
        public void fill(double[] out, int n, RandomStream random) {
            for (int i = 0; i < n; i++) {
                out[i] = HALF_WIDTH * (random.nextDouble() + random.nextDouble() - 1);
            }
        }

        @Override
        public double halfWidthInDeviations() {
            return HALF_WIDTH;
        }
    }

    /**
     * Symmetric trapezium; half-width a, top half-width {@code beta} a, variance a^2 (1 + beta^2)/6
     * (JCGM 100:2008, 4.3.9).
     *
     * @param beta ratio of top to base, 0 to 1
     */
    record Trapezoidal(double beta) implements Shape {
        public Trapezoidal {
            if (!(beta >= 0 && beta <= 1)) {
                throw new IllegalArgumentException("beta = " + beta + ", must lie between 0 and 1");
            }
        }

        @Override
        public String code() {
            return "trapezoidal";
        }

        @Override
        public void fill(double[] out, int n, RandomStream random) {
            final double a = halfWidthInDeviations();
            for (int i = 0; i < n; i++) {
                final double wide = (1 + beta) / 2 * (2 * random.nextDouble() - 1);
                final double narrow = (1 - beta) / 2 * (2 * random.nextDouble() - 1);
                out[i] = a * (wide + narrow);
            }
        }

        @Override
        public double halfWidthInDeviations() {
            return Math.sqrt(6 / (1 + beta * beta));
        }
    }

    /**
     * U-shaped, as of a cyclic temperature; half-width a, variance a^2/2 (JCGM 101:2008, 6.4.6).
     */
    record Arcsine() implements Shape {
        private static final double HALF_WIDTH = Math.sqrt(2);

        @Override
        public String code() {
            return "arcsine";
        }

        @Override
        public void fill(double[] out, int n, RandomStream random) {
            for (int i = 0; i < n; i++) {
                out[i] = HALF_WIDTH * FastMath.sin(2 * Math.PI * random.nextDouble());
            }
        }

        @Override
        public double halfWidthInDeviations() {
            return HALF_WIDTH;
        }
    }

    /**
     * Lognormal, for a quantity that is positive: the logarithm is normal with variance ln(1 +
     * cv^2), so that mean and standard deviation are those stated (JCGM 101:2008, 6.4.7 for the
     * normal, transformed).
     *
     * @param relative standard deviation over mean of the quantity, {@code > 0}
     */
    record Lognormal(double relative) implements Shape {
        public Lognormal {
            checkRelative(relative);
        }

        @Override
        public String code() {
            return "lognormal";
        }

        @Override
        public void fill(double[] out, int n, RandomStream random) {
            final double variance = FastMath.log1p(relative * relative);
            final double sigma = Math.sqrt(variance);
            for (int i = 0; i < n; i++) {
                out[i] = FastMath.expm1(sigma * random.nextNormal() - variance / 2) / relative;
            }
        }

        @Override
        public double halfWidthInDeviations() {
            return Double.POSITIVE_INFINITY;
        }
    }

    /**
     * Gamma, for a quantity that is positive, as of counts (JCGM 101:2008, 6.4.11): shape parameter
     * 1/cv^2.
     *
     * @param relative standard deviation over mean of the quantity, {@code > 0}
     */
    record Gamma(double relative) implements Shape {
        public Gamma {
            checkRelative(relative);
        }

        @Override
        public String code() {
            return "gamma";
        }

        @Override
        public void fill(double[] out, int n, RandomStream random) {
            final double squared = relative * relative;
            for (int i = 0; i < n; i++) {
                out[i] = (random.nextGamma(1 / squared) * squared - 1) / relative;
            }
        }

        @Override
        public double halfWidthInDeviations() {
            return Double.POSITIVE_INFINITY;
        }
    }

    private static void checkRelative(double relative) {
        if (!(relative > 0 && relative < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException("relative = " + relative + ", must be > 0");
        }
    }
}
