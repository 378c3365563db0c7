package splitledger.statistics;

import org.apache.commons.math3.special.Beta;
import org.apache.commons.math3.special.Gamma;
import org.apache.commons.math3.util.FastMath;

/**
 * Noncentral t: (Z + delta) / sqrt(chi-square/nu). Distribution function by the series of R. V.
 * Lenth (Appl. Stat. 38 (1989) 185, from memory), every term from logarithms so that large delta do
 * not underflow.
 */
public final class NoncentralT {
    private static final double CLOSE = 1e-15;
    private static final double REACH = 12;
    private static final double EPSILON = 1e-15;

    private NoncentralT() {}

    /**
     * P(T at most t).
     *
     * @param degreesOfFreedom {@code > 0}, whole or not; infinite: normal
     * @param delta shift, finite
     */
    public static double cumulative(double t, double degreesOfFreedom, double delta) {
        if (Double.isInfinite(degreesOfFreedom)) {
            return Quantiles.tTail(delta - t, Double.POSITIVE_INFINITY);
        }
        if (t < 0) {
            return 1 - cumulative(-t, degreesOfFreedom, -delta);
        }
        final double below = Quantiles.tTail(delta, Double.POSITIVE_INFINITY);
        final double x = t * t / (degreesOfFreedom + t * t);
        if (x == 0) {
            return below;
        }
        final double lambda = delta * delta / 2;
        if (lambda == 0) {
            return below + 0.5 * Beta.regularizedBeta(x, 0.5, degreesOfFreedom / 2);
        }
        final double logLambda = FastMath.log(lambda);
        final double most = lambda + REACH * Math.sqrt(lambda + 4) + 40;
        double sum = 0;
        for (int j = (int) Math.max(0, lambda - REACH * Math.sqrt(lambda + 4)); j <= most; j++) {
            final double p = FastMath.exp(-lambda + j * logLambda - Gamma.logGamma(j + 1.0));
            final double q =
                    FastMath.exp(-lambda + (j + 0.5) * logLambda - Gamma.logGamma(j + 1.5));
            final double even = Beta.regularizedBeta(x, j + 0.5, degreesOfFreedom / 2);
            final double odd = Beta.regularizedBeta(x, j + 1.0, degreesOfFreedom / 2);
            final double term = 0.5 * (p * even + Math.copySign(q, delta) * odd);
            sum += term;
            if (j > lambda && Math.abs(p * even) + Math.abs(q * odd) < EPSILON * Math.abs(sum)) {
                break;
            }
        }
        return Math.max(0, Math.min(1, below + sum));
    }

    /**
     * The shift delta for which T stays at or below t with probability beta.
     *
     * @param beta between 0 and 1, ends excluded
     */
    public static double shift(double t, double degreesOfFreedom, double beta) {
        final double z = Quantiles.normal(1 - beta);
        final double low = t - 2 * Math.abs(t) - Math.abs(z) - 1;
        final double high = t + 2 * Math.abs(t) + Math.abs(z) + 1;
        return BracketedRoot.of(
                delta -> cumulative(t, degreesOfFreedom, delta) - beta,
                low,
                high,
                CLOSE * (Math.abs(low) + Math.abs(high)));
    }
}
