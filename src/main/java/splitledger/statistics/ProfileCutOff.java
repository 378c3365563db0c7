package splitledger.statistics;

import java.util.function.ToDoubleFunction;
import org.apache.commons.math3.special.Gamma;
import org.apache.commons.math3.util.FastMath;

/**
 * Likelihood ratios at the ends of intervals that are exact. For a variance estimated with nu
 * degrees of freedom, minus twice the log likelihood ratio is nu (q - 1 - ln q) with q the ratio of
 * estimate and variance; at the ends of the equal-tailed chi-square interval nu q is a chi-square
 * quantile. For a ratio of two variances it is (n + m) ln((n f + m)/(n + m)) - n ln f, and at the
 * ends f is an F quantile.
 *
 * @param lower what the ratio reaches at the lower end of the interval
 * @param upper what it reaches at the upper end
 */
record ProfileCutOff(double lower, double upper) {

    private static final double LEAST = 0.2;

    /** From here on chi-square is normal and the cut-off that of many labels. */
    private static final double MANY = 1e7;

    private static final int STEPS = 50;
    private static final double CONVERGED = 1e-9;

    /** Of a ratio of variances with these degrees of freedom; the second may be infinite. */
    static ProfileCutOff ofRatio(double coverage, double numerator, double denominator) {
        final double tail = (1 - coverage) / 2;
        return new ProfileCutOff(
                ratio(numerator, denominator, FisherQuantiles.of(1 - tail, numerator, denominator)),
                ratio(numerator, denominator, FisherQuantiles.of(tail, numerator, denominator)));
    }

    private static double ratio(double n, double m, double f) {
        if (Double.isInfinite(m)) {
            return n * (f - 1 - FastMath.log(f));
        }
        return (n + m) * FastMath.log((n * f + m) / (n + m)) - n * FastMath.log(f);
    }

    /** Cut-off of a sum at components on its profile, by their own degrees of freedom. */
    record Search(double coverage, boolean up, ToDoubleFunction<double[]> degreesOfFreedom)
            implements ProfileSearch.CutOff {
        @Override
        public double at(double[] components) {
            final double found = degreesOfFreedom.applyAsDouble(components);
            final double nu = found > LEAST ? found : LEAST;
            if (nu > MANY) {
                final double z = Quantiles.normal((1 + coverage) / 2);
                return z * z;
            }
            final double q = quantile((1 - coverage) / 2, nu, up) / nu;
            return nu * (q - 1 - FastMath.log(q));
        }
    }

    /**
     * Chi-square with this probability beyond it, by Newton steps in its logarithm from the cube
     * root approximation (Wilson and Hilferty, Proc. Natl. Acad. Sci. 17 (1931) 684); the logarithm
     * of a tail is a concave function of that of the quantile, so the steps converge.
     */
    static double quantile(double tail, double nu, boolean low) {
        final double spread = Math.sqrt(2 / (9 * nu));
        final double z = (low ? -1 : 1) * Quantiles.normal(1 - tail);
        final double cube = Math.max(0.05, 1 - 2 / (9 * nu) + z * spread);
        double x = nu * cube * cube * cube;
        final double constant = Gamma.logGamma(nu / 2) + nu / 2 * FastMath.log(2);
        for (int i = 0; i < STEPS; i++) {
            final double p =
                    low
                            ? Gamma.regularizedGammaP(nu / 2, x / 2, 1e-13, 100000)
                            : Gamma.regularizedGammaQ(nu / 2, x / 2, 1e-13, 100000);
            final double density = FastMath.exp(nu / 2 * FastMath.log(x) - x / 2 - constant);
            final double step = FastMath.log(p / tail) * p / density;
            x *= FastMath.exp(low ? -step : step);
            if (Math.abs(step) < CONVERGED) {
                break;
            }
        }
        return x;
    }
}
