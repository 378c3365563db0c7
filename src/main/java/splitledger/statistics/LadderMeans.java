package splitledger.statistics;

import java.util.Arrays;
import java.util.OptionalDouble;

/**
 * Members of a ladder freed of what each injection has in common (volume, split, gain): the two-way
 * additive model y(injection, member) = injection + member + noise, by least squares. What is left
 * of an injection is fitted by a line over the boiling point: discrimination that differs from
 * injection to injection.
 */
public final class LadderMeans {
    private static final int STEPS = 500;
    private static final double SETTLED = 1e-14;
    private static final double HUNDRED = 100;

    private final double[] means;
    private final int injections;
    private final double noiseSquares;
    private final double noiseDf;
    private final double slopeVariance;

    private LadderMeans(
            double[] means,
            int injections,
            double noiseSquares,
            double noiseDf,
            double slopeVariance) {
        this.means = means;
        this.injections = injections;
        this.noiseSquares = noiseSquares;
        this.noiseDf = noiseDf;
        this.slopeVariance = slopeVariance;
    }

    /**
     * Works them out.
     *
     * @param boilingPoints degC, one a member
     * @param y log responses by injection and member; NaN where a member was not measured; every
     *     member has at least one
     */
    public static LadderMeans of(double[] boilingPoints, double[][] y) {
        final int members = boilingPoints.length;
        final double[] shared = new double[y.length];
        final double[] means = new double[members];
        double moved = Double.POSITIVE_INFINITY;
        for (int step = 0; step < STEPS && moved > SETTLED; step++) {
            moved = 0;
            for (int i = 0; i < members; i++) {
                final double before = means[i];
                means[i] = meanOfMember(y, shared, i);
                moved = Math.max(moved, Math.abs(means[i] - before));
            }
            for (int j = 0; j < y.length; j++) {
                shared[j] = meanOfInjection(y[j], means);
            }
            final double level = Arrays.stream(shared).sum() / shared.length;
            for (int j = 0; j < y.length; j++) {
                shared[j] -= level;
            }
        }
        return scatter(boilingPoints, y, shared, means);
    }

    private static double meanOfMember(double[][] y, double[] shared, int member) {
        double sum = 0;
        int n = 0;
        for (int j = 0; j < y.length; j++) {
            if (!Double.isNaN(y[j][member])) {
                sum += y[j][member] - shared[j];
                n++;
            }
        }
        if (n == 0) {
            throw new IllegalArgumentException("member " + member + " was measured nowhere");
        }
        return sum / n;
    }

    private static double meanOfInjection(double[] y, double[] means) {
        double sum = 0;
        int n = 0;
        for (int i = 0; i < y.length; i++) {
            if (!Double.isNaN(y[i])) {
                sum += y[i] - means[i];
                n++;
            }
        }
        return n == 0 ? 0 : sum / n;
    }

    private static LadderMeans scatter(double[] b, double[][] y, double[] shared, double[] means) {
        double slopes = 0;
        double squares = 0;
        int values = 0;
        int used = 0;
        for (int j = 0; j < y.length; j++) {
            double n = 0;
            double centre = 0;
            for (int i = 0; i < b.length; i++) {
                if (!Double.isNaN(y[j][i])) {
                    n++;
                    centre += b[i];
                }
            }
            centre /= n;
            double sxx = 0;
            double sxy = 0;
            double syy = 0;
            for (int i = 0; i < b.length; i++) {
                if (!Double.isNaN(y[j][i])) {
                    final double r = y[j][i] - shared[j] - means[i];
                    final double dx = (b[i] - centre) / HUNDRED;
                    sxx += dx * dx;
                    sxy += dx * r;
                    syy += r * r;
                }
            }
            if (n > 0) {
                used++;
                values += (int) n;
                squares += sxx > 0 ? syy - sxy * sxy / sxx : syy;
                slopes += sxx > 0 ? (sxy / sxx) * (sxy / sxx) : 0;
            }
        }
        final double df = values - (double) used - b.length + 1 - (used - 1);
        return new LadderMeans(
                means, used, squares, df, used > 1 ? slopes / (used - 1) : Double.NaN);
    }

    /** Log response of each member, injections put level. */
    public double[] means() {
        return means.clone();
    }

    /** Injections with at least one member. */
    public int injections() {
        return injections;
    }

    /**
     * Variance, between injections, of the slope over the boiling point per 100 degC; with {@link
     * #injections()} - 1 degrees of freedom; the noise of the single peaks is in it. Empty with one
     * injection.
     */
    public OptionalDouble slopeVariance() {
        return Double.isNaN(slopeVariance)
                ? OptionalDouble.empty()
                : OptionalDouble.of(slopeVariance);
    }

    /** Standard deviation of a single peak beside injection and slope; empty if none is left. */
    public OptionalDouble noiseSd() {
        return noiseDf > 0
                ? OptionalDouble.of(Math.sqrt(noiseSquares / noiseDf))
                : OptionalDouble.empty();
    }
}
