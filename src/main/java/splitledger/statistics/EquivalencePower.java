package splitledger.statistics;

import java.util.OptionalInt;
import org.apache.commons.math3.special.Gamma;
import org.apache.commons.math3.util.FastMath;

/**
 * Exact power of two one-sided t tests: the probability that the interval of coverage 1 - 2 risk
 * lies between the margins. Given the estimated scatter s = sigma sqrt(chi-square/nu), the estimate
 * is normal, so that the power is the integral over s of Phi((high - difference)/u - t s) -
 * Phi((low - difference)/u + t s), as far as that is above 0. Unlike the sum of two noncentral t it
 * is right when the margins are narrow.
 */
public final class EquivalencePower {
    /** The tests and their power. */
    public static final Source SOURCE =
            new Source(
                    "Schuirmann, J. Pharmacokinet. Biopharm. 15 (1987) 657; Diletti, Hauschke,"
                            + " Steinijans, Int. J. Clin. Pharmacol. 29 (1991) 1, from memory",
                    "two one-sided tests");

    private static final int PANELS = 4000;
    private static final double FAR = 9;

    private EquivalencePower() {}

    /**
     * The power.
     *
     * @param low lower margin
     * @param high upper margin, above {@code low}
     * @param difference the true one
     * @param standardError of the estimated difference, true value, above 0
     * @param degreesOfFreedom of its estimate, above 0, may be infinite
     * @param risk of each test, between 0 and 0.5
     */
    public static double of(
            double low,
            double high,
            double difference,
            double standardError,
            double degreesOfFreedom,
            double risk) {
        if (!(high > low && standardError > 0 && degreesOfFreedom > 0)) {
            throw new IllegalArgumentException(
                    "low = "
                            + low
                            + ", high = "
                            + high
                            + ", standardError = "
                            + standardError
                            + ", degreesOfFreedom = "
                            + degreesOfFreedom
                            + ", must rise and be > 0");
        }
        final double t = Quantiles.t(1 - risk, degreesOfFreedom);
        final double above = (high - difference) / standardError;
        final double below = (low - difference) / standardError;
        if (Double.isInfinite(degreesOfFreedom)) {
            return Math.max(0, normal(above - t) - normal(below + t));
        }
        final double spread = FAR / Math.sqrt(2 * degreesOfFreedom);
        final double from = Math.max(0, 1 - spread);
        final double to = Math.min((above - below) / (2 * t), 1 + Math.max(spread, FAR / 2));
        if (!(to > from)) {
            return 0;
        }
        final double step = (to - from) / PANELS;
        double sum = 0;
        for (int i = 0; i <= PANELS; i++) {
            final double s = from + i * step;
            final double inside = normal(above - t * s) - normal(below + t * s);
            final int weight = i == 0 || i == PANELS ? 1 : i % 2 == 1 ? 4 : 2;
            sum += weight * Math.max(0, inside) * density(s, degreesOfFreedom);
        }
        return Math.min(1, sum * step / 3);
    }

    /**
     * Fewest observations in each of two groups for a power.
     *
     * @param sd of one observation
     * @param power wanted
     * @return empty if {@code most} do not give it
     */
    public static OptionalInt needed(
            double low,
            double high,
            double difference,
            double sd,
            double risk,
            double power,
            int most) {
        for (int n = 2; n <= most; n++) {
            final double u = sd * Math.sqrt(2.0 / n);
            if (of(low, high, difference, u, 2.0 * n - 2, risk) >= power) {
                return OptionalInt.of(n);
            }
        }
        return OptionalInt.empty();
    }

    /** Density of s/sigma. */
    private static double density(double s, double nu) {
        if (s <= 0) {
            return nu == 1 ? Math.sqrt(2 / Math.PI) : 0;
        }
        final double log =
                FastMath.log(2)
                        + nu / 2 * FastMath.log(nu / 2)
                        - Gamma.logGamma(nu / 2)
                        + (nu - 1) * FastMath.log(s)
                        - nu * s * s / 2;
        return FastMath.exp(log);
    }

    private static double normal(double x) {
        return Quantiles.tTail(-x, Double.POSITIVE_INFINITY);
    }
}
