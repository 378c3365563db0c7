package splitledger.statistics;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.util.FastMath;
import splitledger.statistics.Outcome.Reason;

/**
 * Fits every curve that a ladder has members enough for. The two linear coefficients are found in
 * closed form at each shape; the shape by a grid and then by ever smaller steps, so that the result
 * does not depend on a starting value.
 */
public final class LadderFitter {
    private static final int GRID = 48;
    private static final int WIDTHS = 16;
    private static final int HALVINGS = 40;
    private static final double NARROWEST = 8;

    private final double[] boilingPoints;
    private final double[] y;
    private final double centre;
    private final double low;
    private final double high;

    private LadderFitter(double[] boilingPoints, double[] y) {
        this.boilingPoints = boilingPoints;
        this.y = y;
        centre = Moments.ofAll(boilingPoints).mean();
        low = Arrays.stream(boilingPoints).min().orElse(0);
        high = Arrays.stream(boilingPoints).max().orElse(0);
    }

    /**
     * Fits.
     *
     * @param boilingPoints degC, one a member
     * @param means log responses, same length
     * @return the curves in order of {@link LadderCurve}; {@code TOO_FEW_POINTS} below 6 members,
     *     {@code NO_SPREAD_IN_X} if all boil alike
     */
    public static Outcome<List<LadderFit>> fit(double[] boilingPoints, double[] means) {
        final int n = boilingPoints.length;
        if (n < LadderCurve.LINE.members()) {
            return Outcome.not(
                    Reason.TOO_FEW_POINTS,
                    "a curve over the boiling point needs "
                            + LadderCurve.LINE.members()
                            + " members of the ladder, found "
                            + n);
        }
        final LadderFitter fitter = new LadderFitter(boilingPoints.clone(), means.clone());
        if (!(fitter.high > fitter.low)) {
            return Outcome.not(
                    Reason.NO_SPREAD_IN_X, "all members boil at " + fitter.low + " degC");
        }
        final List<LadderFit> fits = new ArrayList<>();
        fits.add(fitter.made(LadderCurve.CONSTANT, new double[0]));
        fits.add(fitter.made(LadderCurve.LINE, new double[0]));
        if (n >= LadderCurve.HINGE.members()) {
            fits.add(fitter.hinge());
        }
        if (n >= LadderCurve.LOGISTIC.members()) {
            fits.add(fitter.logistic());
        }
        return Outcome.of(List.copyOf(fits));
    }

    /** The one of the smallest corrected Akaike criterion; of equal ones the simplest. */
    public static LadderFit chosen(List<LadderFit> fits) {
        LadderFit best = fits.get(0);
        for (LadderFit fit : fits) {
            if (fit.criterion() < best.criterion()) {
                best = fit;
            }
        }
        return best;
    }

    /**
     * Onsets of a hinge that the data allow, by the profile of the sum of squares with an F
     * cut-off: S(onset) &lt;= S (1 + F/(n - 3)).
     *
     * @return lower and upper end, degC; an end of the range of onsets means no end was found
     */
    public static double[] onsets(
            double[] boilingPoints, double[] means, LadderFit hinge, double coverage) {
        final LadderFitter fitter = new LadderFitter(boilingPoints.clone(), means.clone());
        final double t = Quantiles.coverageFactor(coverage, hinge.degreesOfFreedom());
        final double limit = hinge.squares() * (1 + t * t / hinge.degreesOfFreedom());
        final double onset = hinge.shape()[0];
        return new double[] {
            fitter.crossing(onset, fitter.firstOnset(), limit),
            fitter.crossing(onset, fitter.lastOnset(), limit)
        };
    }

    /** The range in which an onset is looked for, degC. */
    public static double[] range(double[] boilingPoints) {
        final LadderFitter fitter = new LadderFitter(boilingPoints.clone(), boilingPoints.clone());
        return new double[] {fitter.firstOnset(), fitter.lastOnset()};
    }

    private double crossing(double inside, double end, double limit) {
        double in = inside;
        double out = inside;
        for (int k = 1; k <= 4 * GRID; k++) {
            out = inside + (end - inside) * k / (4.0 * GRID);
            if (squares(LadderCurve.HINGE, new double[] {out}) > limit) {
                break;
            }
            in = out;
        }
        if (in == out) {
            return end;
        }
        for (int k = 0; k < HALVINGS; k++) {
            final double middle = (in + out) / 2;
            if (squares(LadderCurve.HINGE, new double[] {middle}) > limit) {
                out = middle;
            } else {
                in = middle;
            }
        }
        return in;
    }

    private LadderFit hinge() {
        final double first = firstOnset();
        final double last = lastOnset();
        final double[] best = {first};
        double least = Double.POSITIVE_INFINITY;
        for (int k = 0; k <= GRID; k++) {
            final double onset = first + (last - first) * k / GRID;
            final double s = squares(LadderCurve.HINGE, new double[] {onset});
            if (s < least) {
                least = s;
                best[0] = onset;
            }
        }
        search(
                LadderCurve.HINGE,
                best,
                new double[] {(last - first) / GRID},
                new double[] {first},
                new double[] {last});
        return made(LadderCurve.HINGE, best);
    }

    /** Second lowest boiling point. */
    private double firstOnset() {
        final double[] sorted = boilingPoints.clone();
        Arrays.sort(sorted);
        return sorted[1];
    }

    /** So that three members lie beyond. */
    private double lastOnset() {
        final double[] sorted = boilingPoints.clone();
        Arrays.sort(sorted);
        return sorted[sorted.length - LadderCurve.BEYOND_ONSET - 1];
    }

    private LadderFit logistic() {
        final double span = high - low;
        // the logarithm of the width is searched, so that steps fit narrow and wide ones alike
        final double[] from = {low, FastMath.log(NARROWEST)};
        final double[] to = {high + span / 4, FastMath.log(span / 2)};
        final double[] best = from.clone();
        double least = Double.POSITIVE_INFINITY;
        for (int k = 0; k <= GRID; k++) {
            for (int w = 0; w <= WIDTHS; w++) {
                final double[] at = {
                    from[0] + (to[0] - from[0]) * k / GRID, from[1] + (to[1] - from[1]) * w / WIDTHS
                };
                final double s = squares(LadderCurve.LOGISTIC, shape(at));
                if (s < least) {
                    least = s;
                    best[0] = at[0];
                    best[1] = at[1];
                }
            }
        }
        search(
                LadderCurve.LOGISTIC,
                best,
                new double[] {(to[0] - from[0]) / GRID, (to[1] - from[1]) / WIDTHS},
                from,
                to);
        return made(LadderCurve.LOGISTIC, shape(best));
    }

    private static double[] shape(double[] searched) {
        return new double[] {searched[0], FastMath.exp(searched[1])};
    }

    /** Steps in all directions, each halved where none helps. */
    private void search(LadderCurve curve, double[] at, double[] step, double[] from, double[] to) {
        double least = squares(curve, curve == LadderCurve.LOGISTIC ? shape(at) : at);
        for (int halving = 0; halving < HALVINGS; ) {
            final double[] better = at.clone();
            double found = least;
            for (int direction = 0; direction < (at.length == 1 ? 2 : 8); direction++) {
                final double[] next = at.clone();
                final int[] way = WAYS[direction];
                for (int i = 0; i < at.length; i++) {
                    next[i] = Math.max(from[i], Math.min(to[i], at[i] + way[i] * step[i]));
                }
                final double s = squares(curve, curve == LadderCurve.LOGISTIC ? shape(next) : next);
                if (s < found) {
                    found = s;
                    System.arraycopy(next, 0, better, 0, next.length);
                }
            }
            if (found < least) {
                least = found;
                System.arraycopy(better, 0, at, 0, at.length);
            } else {
                halving++;
                for (int i = 0; i < step.length; i++) {
                    step[i] /= 2;
                }
            }
        }
    }

    private static final int[][] WAYS = {
        {1, 0}, {-1, 0}, {0, 1}, {0, -1}, {1, 1}, {1, -1}, {-1, 1}, {-1, -1}
    };

    private double squares(LadderCurve curve, double[] shape) {
        return linear(curve, shape)[2];
    }

    private LadderFit made(LadderCurve curve, double[] shape) {
        final double[] found = linear(curve, shape);
        return new LadderFit(curve, centre, found[0], found[1], shape, boilingPoints, found[2]);
    }

    /** Level, change and sum of squares at a shape. */
    private double[] linear(LadderCurve curve, double[] shape) {
        final int n = y.length;
        double xMean = 0;
        double yMean = 0;
        final double[] x = new double[n];
        for (int i = 0; i < n; i++) {
            x[i] = LadderFit.basis(curve, centre, shape, boilingPoints[i]);
            xMean += x[i] / n;
            yMean += y[i] / n;
        }
        double sxx = 0;
        double sxy = 0;
        for (int i = 0; i < n; i++) {
            sxx += (x[i] - xMean) * (x[i] - xMean);
            sxy += (x[i] - xMean) * (y[i] - yMean);
        }
        final double change = sxx > 0 ? sxy / sxx : 0;
        double squares = 0;
        for (int i = 0; i < n; i++) {
            final double r = y[i] - yMean - change * (x[i] - xMean);
            squares += r * r;
        }
        return new double[] {yMean - change * xMean, change, squares};
    }
}
