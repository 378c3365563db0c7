package splitledger.statistics;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.special.Gamma;
import org.apache.commons.math3.util.FastMath;
import splitledger.statistics.ScatterProfile.Point;

/**
 * Intervals averaged over laws of scatter: constant, proportional, and both parts with every ratio
 * r, weighted by their restricted likelihood. Before the data the three laws weigh the same, and
 * within the third ln r has its reference prior. Given r everything follows t with n - p degrees of
 * freedom about that ratio's own fit, so the average is a mixture of such t (integrating out the
 * common factor under 1/s^2 and the coefficients under a flat law leaves the restricted likelihood:
 * D. A. Harville, Biometrika 61 (1974) 383, from memory).
 */
final class ScatterAverage {
    private static final double NEGLIGIBLE = 1e-10;
    private static final double CONVERGED = 1e-10;

    /** Chi-square so many times its degrees of freedom never happens. */
    private static final double HUGE = 1000;

    private static final int ROUNDS = 60;

    private final List<Point> points = new ArrayList<>();
    private final double[] weights;
    private final double freedom;
    private final StudentContent student;

    ScatterAverage(ScatterFit fit) {
        final ScatterProfile profile = fit.profile();
        final double best = fit.likelihood();
        final List<Point> grid = profile.grid();
        final double[] priors = new double[grid.size()];
        double sum = 0;
        for (int i = 0; i < priors.length; i++) {
            priors[i] = profile.prior(grid.get(i));
            sum += priors[i];
        }
        final List<Double> found = new ArrayList<>();
        add(found, profile.at(0), 1, best);
        if (profile.farFromZero()) {
            add(found, profile.at(Double.POSITIVE_INFINITY), 1, best);
        }
        for (int i = 0; i < priors.length; i++) {
            add(found, grid.get(i), priors[i] / sum, best);
        }
        final double all = found.stream().mapToDouble(w -> w).sum();
        weights = found.stream().mapToDouble(w -> w / all).toArray();
        freedom = fit.freedom();
        student = new StudentContent((int) Math.rint(freedom));
    }

    private void add(List<Double> found, Point point, double prior, double best) {
        final double weight = prior * FastMath.exp(point.likelihood() - best);
        if (weight > NEGLIGIBLE) {
            points.add(point);
            found.add(weight);
        }
    }

    /**
     * Half-width h of the interval centre - h to centre + h that holds a combination of
     * coefficients, plus the scatter of a new response, with this probability.
     *
     * @param combination what each coefficient is multiplied by
     * @param share variance of the new response relative to the law; 0 for none
     * @param begin a first guess of h, above 0
     */
    double halfWidth(
            double centre, double[] combination, double share, double coverage, double begin) {
        final int n = points.size();
        final double[] places = new double[n];
        final double[] sds = new double[n];
        for (int i = 0; i < n; i++) {
            final Point p = points.get(i);
            double place = 0;
            for (int k = 0; k < combination.length; k++) {
                place += combination[k] * p.fit().coefficients()[k];
            }
            final double factor = p.fit().residualSquares() / freedom;
            final double variance =
                    p.fit().variance(combination) + (share > 0 ? share * p.relative(place) : 0);
            places[i] = place - centre;
            sds[i] = Math.sqrt(factor * variance);
        }
        double low = 0;
        double high = begin;
        while (high < Double.MAX_VALUE && inside(places, sds, high) < coverage) {
            low = high;
            high *= 2;
        }
        // false position with halving (Illinois): the content is smooth in h
        double atLow = inside(places, sds, low) - coverage;
        double atHigh = inside(places, sds, high) - coverage;
        double h = high;
        for (int round = 0; round < ROUNDS && high - low > CONVERGED * high; round++) {
            final double next = high - atHigh * (high - low) / (atHigh - atLow);
            final boolean stuck = Math.abs(next - h) < CONVERGED * h;
            h = next;
            final double at = inside(places, sds, h) - coverage;
            if (stuck || at == 0) {
                break;
            }
            if (at < 0) {
                low = h;
                atLow = at;
                atHigh /= 2;
            } else {
                high = h;
                atHigh = at;
                atLow /= 2;
            }
        }
        return h;
    }

    /**
     * Variance of a response about a given mean that is not exceeded with this probability: given r
     * it is the estimate times (n - p)/chi-square.
     */
    double varianceQuantile(double mean, double probability) {
        double low = Double.POSITIVE_INFINITY;
        double high = 0;
        final double[] squares = new double[points.size()];
        double nothing = 0;
        for (int i = 0; i < squares.length; i++) {
            final Point p = points.get(i);
            squares[i] = p.fit().residualSquares() * p.relative(mean);
            if (squares[i] > 0) {
                low = Math.min(low, squares[i]);
                high = Math.max(high, squares[i]);
            } else {
                nothing += weights[i];
            }
        }
        if (nothing >= probability) {
            // scatter proportional to a mean of 0 is none at all
            return 0;
        }
        low = FastMath.log(low / Quantiles.chiSquare(1 - probability / 2, freedom));
        high = FastMath.log(high / Quantiles.chiSquare((1 - probability) / 2, freedom));
        final double certain = nothing;
        return FastMath.exp(
                BracketedRoot.of(
                        place -> below(squares, place) + certain - probability,
                        low,
                        high,
                        CONVERGED));
    }

    /** Probability that the variance is below exp(place), of the laws with squares above 0. */
    private double below(double[] squares, double place) {
        double below = 0;
        for (int i = 0; i < squares.length; i++) {
            final double half = squares[i] / FastMath.exp(place) / 2;
            if (half > 0 && half < HUGE + HUGE * freedom) {
                below += weights[i] * Gamma.regularizedGammaQ(freedom / 2, half);
            }
        }
        return below;
    }

    private double inside(double[] places, double[] sds, double h) {
        double sum = 0;
        for (int i = 0; i < places.length; i++) {
            sum +=
                    weights[i]
                            * 0.5
                            * (student.between((h - places[i]) / sds[i])
                                    + student.between((h + places[i]) / sds[i]));
        }
        return sum;
    }
}
