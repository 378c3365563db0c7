package splitledger.statistics;

import java.util.Map;
import java.util.TreeMap;

/**
 * Intervals of linear combinations of independent mean squares by the modified large sample method:
 * with one mean square, or with all but one known, they are exact. Combinations with positive
 * factors: Graybill and Wang, J. Am. Stat. Assoc. 75 (1980) 869; factors of both signs: Ting,
 * Burdick, Graybill, Jeyaratnam and Lu, J. Stat. Comput. Simul. 35 (1990) 135; both as in Burdick
 * and Graybill, Confidence Intervals on Variance Components, 1992, sections 3.2 and 3.3 (from
 * memory). Immutable; made for one set of degrees of freedom, whose quantiles are found once.
 */
public final class MeanSquareIntervals {
    /** Where the formulas come from. */
    public static final Source SOURCE =
            new Source(
                    "Burdick and Graybill, Confidence Intervals on Variance Components, 1992",
                    "sections 3.2 and 3.3");

    private final double[] df;
    private final double tail;

    /** 1 - 1/F(upper; n, inf): how far a mean square lies above what it may mean at least. */
    private final double[] below;

    /** 1/F(lower; n, inf) - 1: how far it lies below what it may mean at most. */
    private final double[] above;

    private final Map<Long, Double> quantiles = new TreeMap<>();

    /** What two mean squares with factors of one sign add, for q before t. */
    private final double[][] together;

    /**
     * For mean squares with these degrees of freedom.
     *
     * @param coverage of the two-sided interval, half of the rest on either side
     * @param degreesOfFreedom of each mean square, all {@code > 0}; not modified
     */
    public MeanSquareIntervals(double coverage, double... degreesOfFreedom) {
        tail = (1 - Checks.between("coverage", coverage, 0, 1)) / 2;
        df = degreesOfFreedom.clone();
        below = new double[df.length];
        above = new double[df.length];
        together = new double[df.length][df.length];
        for (int i = 0; i < df.length; i++) {
            Checks.positive("degreesOfFreedom[" + i + "]", df[i]);
            below[i] = 1 - df[i] / Quantiles.chiSquare(1 - tail, df[i]);
            above[i] = df[i] / Quantiles.chiSquare(tail, df[i]) - 1;
        }
        for (int i = 0; i < df.length; i++) {
            for (int j = 0; j < df.length; j++) {
                if (i < j) {
                    together[i][j] = pair(i, j);
                }
                if (i != j) {
                    quantiles.put(key(i, j, true), FisherQuantiles.of(1 - tail, df[i], df[j]));
                    quantiles.put(key(i, j, false), FisherQuantiles.of(tail, df[i], df[j]));
                }
            }
        }
    }

    private static long key(int i, int j, boolean upper) {
        return ((long) i << 16 | j) << 1 | (upper ? 1 : 0);
    }

    private double quantile(int i, int j, boolean upper) {
        return quantiles.getOrDefault(key(i, j, upper), Double.NaN);
    }

    /** The combination sum factor_i MS_i; may be negative. */
    public static double value(double[] factors, double[] meanSquares) {
        return Matrices.dot(factors, meanSquares);
    }

    /**
     * Lower end for the same combination of the expectations; may be negative.
     *
     * @param factors one a mean square, of either sign
     * @param meanSquares all {@code >= 0}
     */
    public double lower(double[] factors, double[] meanSquares) {
        return value(factors, meanSquares)
                - Math.sqrt(Math.max(0, lowVariance(factors, meanSquares)));
    }

    /**
     * Upper end for the same combination of the expectations; may be negative.
     *
     * @param factors one a mean square, of either sign
     * @param meanSquares all {@code >= 0}
     */
    public double upper(double[] factors, double[] meanSquares) {
        return value(factors, meanSquares)
                + Math.sqrt(Math.max(0, highVariance(factors, meanSquares)));
    }

    private double lowVariance(double[] c, double[] s) {
        double sum = 0;
        boolean mixed = false;
        int positive = 0;
        for (int q = 0; q < df.length; q++) {
            final double term = c[q] * s[q] * (c[q] > 0 ? below[q] : above[q]);
            sum += term * term;
            positive += c[q] > 0 ? 1 : 0;
            mixed |= c[q] < 0;
        }
        if (!mixed) {
            return sum;
        }
        for (int q = 0; q < df.length; q++) {
            for (int r = 0; r < df.length; r++) {
                if (c[q] > 0 && c[r] < 0) {
                    final double f = quantile(q, r, true);
                    final double own = below[q] * f;
                    final double g = ((f - 1) * (f - 1) - own * own - above[r] * above[r]) / f;
                    sum += g * c[q] * -c[r] * s[q] * s[r];
                } else if (c[q] > 0 && c[r] > 0 && q < r) {
                    sum += together[q][r] / (positive - 1) * c[q] * c[r] * s[q] * s[r];
                }
            }
        }
        return sum;
    }

    private double highVariance(double[] c, double[] s) {
        double sum = 0;
        int negative = 0;
        for (int q = 0; q < df.length; q++) {
            final double term = c[q] * s[q] * (c[q] > 0 ? above[q] : below[q]);
            sum += term * term;
            negative += c[q] < 0 ? 1 : 0;
        }
        for (int q = 0; q < df.length; q++) {
            for (int r = 0; r < df.length; r++) {
                if (c[q] > 0 && c[r] < 0) {
                    final double f = quantile(q, r, false);
                    final double own = above[q] * f;
                    final double h = ((1 - f) * (1 - f) - own * own - below[r] * below[r]) / f;
                    sum += h * c[q] * -c[r] * s[q] * s[r];
                } else if (c[q] < 0 && c[r] < 0 && q < r) {
                    sum += together[q][r] / (negative - 1) * c[q] * c[r] * s[q] * s[r];
                }
            }
        }
        return sum;
    }

    private double pair(int q, int t) {
        final double n = df[q] + df[t];
        final double both = 1 - n / Quantiles.chiSquare(1 - tail, n);
        return both * both * n * n / (df[q] * df[t])
                - below[q] * below[q] * df[q] / df[t]
                - below[t] * below[t] * df[t] / df[q];
    }
}
