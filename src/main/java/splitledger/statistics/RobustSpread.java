package splitledger.statistics;

import java.util.Arrays;
import org.apache.commons.math3.util.FastMath;

/**
 * Mean and standard deviation that a few outliers move little.
 *
 * @param mean robust mean
 * @param sd robust standard deviation
 * @param pulledIn how many values lay outside mean +- 1.5 sd and counted as lying on its ends
 */
public record RobustSpread(double mean, double sd, int pulledIn) {
    /** Where the algorithm comes from. */
    public static final Source SOURCE =
            new Source("ISO 5725-5:1998 and ISO 13528:2015", "algorithm A");

    private static final double WIDTH = 1.5;
    private static final double MAD = 1.482602218505602;
    private static final int STEPS = 1000;
    private static final double CONVERGED = 1e-14;

    /**
     * Algorithm A: from median and scaled median deviation, values beyond mean +- 1.5 sd are pulled
     * to that limit, and mean and sd are taken again, until they stay. The factor that makes the sd
     * right for normal values is used in full, 1/sqrt(q + w^2 (1 - q) - 2 w phi(w)) with w = 1.5
     * and q = P(|z| &lt; w); it is 1.1335, and the standard prints 1.134. (It is Huber's second
     * proposal.)
     *
     * @param x at least 3 values
     * @return the result, {@code TOO_FEW_POINTS}, or {@code NO_SCATTER} if more than half the
     *     values are equal
     */
    public static Outcome<RobustSpread> of(double... x) {
        Checks.allFinite("x", x);
        if (x.length < 3) {
            return Outcome.not(Outcome.Reason.TOO_FEW_POINTS, x.length + " values, 3 are needed");
        }
        double mean = median(x);
        final double centre = mean;
        double sd = MAD * median(Arrays.stream(x).map(v -> Math.abs(v - centre)).toArray());
        if (!(sd > 0)) {
            return Outcome.not(Outcome.Reason.NO_SCATTER, "more than half of the values are equal");
        }
        for (int i = 0; i < STEPS; i++) {
            final double low = mean - WIDTH * sd;
            final double high = mean + WIDTH * sd;
            final Moments m =
                    Moments.ofAll(
                            Arrays.stream(x).map(v -> Math.min(high, Math.max(low, v))).toArray());
            final double change = Math.abs(m.mean() - mean) + Math.abs(factor() * m.sd() - sd);
            mean = m.mean();
            sd = factor() * m.sd();
            if (change <= CONVERGED * (Math.abs(mean) + sd)) {
                break;
            }
        }
        final double from = mean;
        final double limit = WIDTH * sd;
        final long outside = Arrays.stream(x).filter(v -> Math.abs(v - from) > limit).count();
        return Outcome.of(new RobustSpread(mean, sd, (int) outside));
    }

    private static double factor() {
        final double inside = 1 - Quantiles.tTwoSidedTail(WIDTH, Double.POSITIVE_INFINITY);
        final double density = FastMath.exp(-WIDTH * WIDTH / 2) / Math.sqrt(2 * FastMath.PI);
        return 1 / Math.sqrt(inside + WIDTH * WIDTH * (1 - inside) - 2 * WIDTH * density);
    }

    private static double median(double[] x) {
        final double[] sorted = x.clone();
        Arrays.sort(sorted);
        final int n = sorted.length;
        return n % 2 == 1 ? sorted[n / 2] : (sorted[n / 2 - 1] + sorted[n / 2]) / 2;
    }
}
