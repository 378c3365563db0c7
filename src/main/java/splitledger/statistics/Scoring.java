package splitledger.statistics;

import org.apache.commons.math3.util.FastMath;
import splitledger.statistics.ScatterProfile.Point;

/**
 * One step of Fisher scoring for ln r on the profile of the restricted likelihood: slope {@code
 * -1/2 [sum (1-h) d - (n-p) sum(d e^2)/sum(e^2)]}, with d the proportional part's share of each
 * variance and e the weighted residuals; information as in {@link ScatterProfile#prior}.
 */
final class Scoring {
    private static final double LONGEST = 0.5;

    private Scoring() {}

    /** The next point; the same one where there is no information or it would be worse. */
    static Point step(ScatterProfile profile, Point point) {
        if (point.ratio() == 0 || Double.isInfinite(point.ratio())) {
            return point;
        }
        final double root = profile.prior(point);
        final double information = root * root / 2;
        if (!(information > 0)) {
            return point;
        }
        final double step = slope(profile, point) / information;
        final double bounded = Math.max(-LONGEST, Math.min(LONGEST, step));
        final Point next = profile.at(point.ratio() * FastMath.exp(bounded));
        // near the top the likelihood is flat to its last digits, but the slope is not
        return next.likelihood() >= point.likelihood() - 1e-9 ? next : point;
    }

    private static double slope(ScatterProfile profile, Point point) {
        final WeightedFit fit = point.fit();
        double trace = 0;
        double weighted = 0;
        double squares = 0;
        for (int i = 0; i < profile.means().length; i++) {
            final double v = point.relative()[i];
            final double d = 1 - profile.shares()[i] / v;
            final double residual = profile.residual(fit, i);
            trace += (1 - fit.hat(i, i)) * d;
            weighted += d * residual * residual / v;
            squares += residual * residual / v;
        }
        return -0.5 * (trace - fit.degreesOfFreedom() * weighted / squares);
    }
}
