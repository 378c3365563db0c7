package splitledger.statistics;

import java.util.Arrays;
import org.apache.commons.math3.util.FastMath;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.ScatterLaw.Form;
import splitledger.statistics.ScatterProfile.Point;

/**
 * Mean and scatter of calibration responses together: coefficients by weighted least squares,
 * (s0^2, s1^2) by restricted maximum likelihood (REML) with the means taken from the last fit,
 * until both stay (Davidian and Carroll, J. Am. Stat. Assoc. 82 (1987) 1079, from memory). Either
 * part may end at 0: the likelihood is searched over a grid of all ratios first and compared with
 * both ends. Immutable.
 *
 * <p>Observations are means of preparations; {@code share} is the variance of each relative to the
 * law (1 for the usual number of injections, see {@link InjectionShare}). Injections of one
 * preparation must not be given as observations.
 *
 * <p>Why the parts are estimated and not chosen by a test first: see {@link ScatterFit}.
 */
public final class ScatterFitter {
    /** Where the method stands. */
    public static final Source SOURCE =
            new Source(
                    "Davidian and Carroll, J. Am. Stat. Assoc. 82 (1987) 1079 (from memory)",
                    "restricted likelihood with iterated weights");

    private static final int ROUNDS = 60;
    private static final double CONVERGED = 1e-12;
    private static final double BRACKET = 0.6;
    private static final double GOLDEN = 0.6180339887498949;
    private static final double CLOSE = 1e-3;
    private static final double TIE = 1e-7;
    private static final int FEWEST_FREE = 3;

    private final MeanLaw mean;
    private final Form form;

    private ScatterFitter(MeanLaw mean, Form form) {
        this.mean = mean;
        this.form = form;
    }

    /** A line, both parts of the scatter. */
    public static ScatterFitter withDefaults() {
        return new ScatterFitter(MeanLaw.LINE, Form.BOTH);
    }

    /** With another mean. */
    public ScatterFitter withMean(MeanLaw other) {
        return new ScatterFitter(other, form);
    }

    /** With only the parts of this form; both may still end at 0. */
    public ScatterFitter withForm(Form other) {
        return new ScatterFitter(mean, other);
    }

    /**
     * Fits.
     *
     * @param x amounts
     * @param y mean responses of preparations, same length
     * @param shares variance of each relative to the law, above 0
     * @return the fit; or {@code TOO_FEW_POINTS} (constant scatter: p + 1 points; else p + 3),
     *     {@code TOO_FEW_LEVELS} (p levels; both parts: 3), {@code NO_SCATTER}, {@code
     *     MEAN_NEAR_ZERO} if scatter proportional to a response of about 0 is asked for
     * @throws IllegalArgumentException if lengths differ or a value is not finite
     */
    public Outcome<ScatterFit> fit(double[] x, double[] y, double[] shares) {
        check(x, y, shares);
        final int p = mean.parameters();
        final int needed = form == Form.CONSTANT ? p + 1 : p + FEWEST_FREE;
        if (x.length < needed) {
            return Outcome.not(
                    Reason.TOO_FEW_POINTS,
                    "needs " + needed + " preparations for its scatter, found " + x.length);
        }
        final long levels = Arrays.stream(x).distinct().count();
        final int levelsNeeded = form == Form.CONSTANT ? p : Math.max(p, FEWEST_FREE);
        if (levels < levelsNeeded) {
            return Outcome.not(
                    Reason.TOO_FEW_LEVELS, "needs " + levelsNeeded + " levels, found " + levels);
        }
        final Point start = new ScatterProfile(mean, x, y, shares, y).at(1 / middle(y));
        if (!scatters(start, y)) {
            return Outcome.not(Reason.NO_SCATTER, "the points lie exactly on the curve");
        }
        double[] means = fitted(start, x);
        ScatterProfile profile = new ScatterProfile(mean, x, y, shares, means);
        if (form == Form.PROPORTIONAL && !profile.farFromZero()) {
            return Outcome.not(
                    Reason.MEAN_NEAR_ZERO,
                    "scatter proportional to the response has no value at a response of about 0");
        }
        Point best = widely(profile);
        for (int round = 0; round < ROUNDS; round++) {
            final double[] next = fitted(best, x);
            final double change = change(means, next);
            means = next;
            profile = new ScatterProfile(mean, x, y, shares, means);
            final double before = best.ratio();
            best = nearby(profile, best, round);
            if (change < CONVERGED && same(before, best.ratio())) {
                break;
            }
        }
        return Outcome.of(new ScatterFit(profile, best, x, y));
    }

    private static boolean same(double one, double other) {
        return one == other || Math.abs(one - other) < CONVERGED * Math.abs(one);
    }

    /** The fit with every share 1. */
    public Outcome<ScatterFit> fit(double[] x, double[] y) {
        final double[] ones = new double[x.length];
        Arrays.fill(ones, 1);
        return fit(x, y, ones);
    }

    /** Square of the middle one of the absolute responses, to begin with. */
    private static double middle(double[] y) {
        final double[] sizes = Arrays.stream(y).map(Math::abs).sorted().toArray();
        final double m = sizes[sizes.length / 2];
        return m > 0 ? m * m : 1;
    }

    private static boolean scatters(Point start, double[] y) {
        double sum = 0;
        for (int i = 0; i < y.length; i++) {
            sum += y[i] * y[i] / start.relative()[i];
        }
        return start.fit().residualSquares() > 1e-26 * sum;
    }

    private static double[] fitted(Point point, double[] x) {
        return Arrays.stream(x).map(point.fit()::at).toArray();
    }

    private static double change(double[] before, double[] after) {
        double largest = 0;
        double most = 0;
        for (int i = 0; i < before.length; i++) {
            largest = Math.max(largest, Math.abs(after[i] - before[i]));
            most = Math.max(most, Math.abs(after[i]));
        }
        return largest / most;
    }

    /** The best of the grid and its ends. */
    private Point widely(ScatterProfile profile) {
        if (form == Form.CONSTANT) {
            return profile.at(0);
        }
        if (form == Form.PROPORTIONAL) {
            return profile.at(Double.POSITIVE_INFINITY);
        }
        Point best = profile.at(0);
        for (Point point : profile.grid()) {
            if (point.likelihood() > best.likelihood()) {
                best = point;
            }
        }
        return ends(profile, best);
    }

    /** Near the last one: golden section at first, then scoring steps. */
    private Point nearby(ScatterProfile profile, Point last, int round) {
        if (form != Form.BOTH) {
            return profile.at(last.ratio());
        }
        double centre = FastMath.log(last.ratio());
        centre = Math.min(profile.highest(), Math.max(profile.lowest(), centre));
        final Point begun =
                round < 2 || last.ratio() == 0 || Double.isInfinite(last.ratio())
                        ? golden(profile, centre)
                        : profile.at(last.ratio());
        return ends(profile, Scoring.step(profile, begun));
    }

    private static Point golden(ScatterProfile profile, double centre) {
        double low = Math.max(profile.lowest(), centre - BRACKET);
        double high = Math.min(profile.highest(), centre + BRACKET);
        double left = high - GOLDEN * (high - low);
        double right = low + GOLDEN * (high - low);
        Point a = profile.at(FastMath.exp(left));
        Point b = profile.at(FastMath.exp(right));
        while (high - low > CLOSE) {
            if (a.likelihood() > b.likelihood()) {
                high = right;
                right = left;
                b = a;
                left = high - GOLDEN * (high - low);
                a = profile.at(FastMath.exp(left));
            } else {
                low = left;
                left = right;
                a = b;
                right = low + GOLDEN * (high - low);
                b = profile.at(FastMath.exp(right));
            }
        }
        return a.likelihood() > b.likelihood() ? a : b;
    }

    /** An end of the scale, if it is as good: the simpler law wins a tie. */
    private static Point ends(ScatterProfile profile, Point inner) {
        Point best = inner;
        if (profile.farFromZero()) {
            final Point proportional = profile.at(Double.POSITIVE_INFINITY);
            if (proportional.likelihood() >= best.likelihood() - TIE) {
                best = proportional;
            }
        }
        final Point constant = profile.at(0);
        return constant.likelihood() >= best.likelihood() - TIE ? constant : best;
    }

    private static void check(double[] x, double[] y, double[] shares) {
        if (x.length != y.length || x.length != shares.length) {
            throw new IllegalArgumentException(
                    "x has " + x.length + " values, y " + y.length + ", shares " + shares.length);
        }
        for (int i = 0; i < x.length; i++) {
            if (!(Math.abs(x[i]) < Double.POSITIVE_INFINITY)
                    || !(Math.abs(y[i]) < Double.POSITIVE_INFINITY)
                    || !(shares[i] > 0 && shares[i] < Double.POSITIVE_INFINITY)) {
                throw new IllegalArgumentException(
                        "point "
                                + i
                                + " = ("
                                + x[i]
                                + ", "
                                + y[i]
                                + "), share "
                                + shares[i]
                                + ", must be finite, the share above 0");
            }
        }
    }
}
