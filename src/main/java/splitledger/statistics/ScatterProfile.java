package splitledger.statistics;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.util.FastMath;

/**
 * Restricted likelihood of one ratio r = s1^2/s0^2 with the common factor and the mean's
 * coefficients taken out: {@code l(r) = -1/2 [(n-p) ln(RSS/(n-p)) + sum ln v + ln |X' V^-1 X|]}, v
 * = share (1 + r mu^2), for r infinite share mu^2. The means mu are given.
 */
final class ScatterProfile {
    /** Smallest mean response that counts, relative to the largest. */
    private static final double LEAST = 1e-3;

    /** At the ends of the grid one part of the variance is so much smaller everywhere. */
    private static final double NEGLIGIBLE = 1e-4;

    private static final double WIDEST_STEP = 0.5;

    private final MeanLaw law;
    private final double[] x;
    private final double[] y;
    private final double[] shares;
    private final double[] means;
    private final double lowest;
    private final double highest;
    private final boolean farFromZero;

    ScatterProfile(MeanLaw law, double[] x, double[] y, double[] shares, double[] means) {
        this.law = law;
        this.x = x;
        this.y = y;
        this.shares = shares;
        this.means = means;
        double most = 0;
        double least = Double.POSITIVE_INFINITY;
        for (double m : means) {
            most = Math.max(most, Math.abs(m));
            least = Math.min(least, Math.abs(m));
        }
        this.farFromZero = least > LEAST * most;
        final double floor = Math.max(least, LEAST * most);
        this.lowest = FastMath.log(NEGLIGIBLE / (most * most));
        this.highest = FastMath.log(1 / (NEGLIGIBLE * floor * floor));
    }

    /** A ratio with its fit and its likelihood. */
    record Point(double ratio, double[] relative, WeightedFit fit, double likelihood) {
        /** s0^2 and s1^2 with the best common factor. */
        ScatterLaw law() {
            final double factor = fit.residualSquares() / fit.degreesOfFreedom();
            return Double.isInfinite(ratio)
                    ? new ScatterLaw(0, factor)
                    : new ScatterLaw(factor, factor * ratio);
        }

        /** Variance of an observation at a mean response, relative to the common factor. */
        double relative(double mean) {
            return Double.isInfinite(ratio) ? mean * mean : 1 + ratio * mean * mean;
        }
    }

    /** y - fitted. */
    double residual(WeightedFit fit, int i) {
        return y[i] - fit.at(x[i]);
    }

    double[] means() {
        return means;
    }

    double[] shares() {
        return shares;
    }

    /** Whether every level's response is far enough from 0 for a purely proportional scatter. */
    boolean farFromZero() {
        return farFromZero;
    }

    /** ln r below which the proportional part is nowhere seen. */
    double lowest() {
        return lowest;
    }

    /** ln r above which the constant part is nowhere seen. */
    double highest() {
        return highest;
    }

    Point at(double ratio) {
        final double[] v = new double[x.length];
        double logs = 0;
        for (int i = 0; i < v.length; i++) {
            final double m2 = means[i] * means[i];
            v[i] = shares[i] * (Double.isInfinite(ratio) ? m2 : 1 + ratio * m2);
            logs += FastMath.log(v[i]);
        }
        final WeightedFit fit = WeightedFit.of(law, x, y, v);
        final double nu = fit.degreesOfFreedom();
        final double likelihood =
                -0.5
                        * (nu * FastMath.log(fit.residualSquares() / nu)
                                + logs
                                + fit.logDeterminant());
        return new Point(ratio, v, fit, likelihood);
    }

    /** Points at equal steps of ln r, close enough for sums in place of integrals. */
    List<Point> grid() {
        final double step = Math.min(WIDEST_STEP, 2 / Math.sqrt(x.length - law.parameters()));
        final int steps = (int) Math.ceil((highest - lowest) / step);
        final List<Point> points = new ArrayList<>(steps + 1);
        for (int i = 0; i <= steps; i++) {
            points.add(at(FastMath.exp(lowest + (highest - lowest) * i / steps)));
        }
        return points;
    }

    /**
     * Square root of the expected information on ln r when the common factor is unknown, up to a
     * constant: the reference prior of ln r (H. Jeffreys' rule for the profile). It falls to 0
     * where one part is nowhere seen.
     */
    double prior(Point point) {
        final WeightedFit fit = point.fit();
        final double[] d = new double[x.length];
        double sum = 0;
        double squares = 0;
        for (int i = 0; i < d.length; i++) {
            d[i] = 1 - shares[i] / point.relative()[i];
            final double h = fit.hat(i, i);
            sum += (1 - h) * d[i];
            squares += (1 - 2 * h) * d[i] * d[i];
        }
        squares += Information.product(fit, d, d);
        return Math.sqrt(Math.max(0, squares - sum * sum / fit.degreesOfFreedom()));
    }
}
