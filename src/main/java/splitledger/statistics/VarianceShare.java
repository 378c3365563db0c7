package splitledger.statistics;

import java.util.function.DoublePredicate;

/**
 * What part of a sum of variances one term is: w_t v_t / sum of w_j v_j, with the estimates by
 * moments.
 *
 * <p>Interval: those p for which the interval of w_t v_t - p sum of w_j v_j, by the modified large
 * sample method ({@link MeanSquareIntervals}), holds 0, cut to 0 and 1; exact with two mean
 * squares. Standard uncertainty to first order.
 *
 * @param value between 0 and 1
 * @param standardUncertainty {@code >= 0}
 * @param lower end of the interval
 * @param upper end of the interval
 */
public record VarianceShare(double value, double standardUncertainty, double lower, double upper) {
    private static final int HALVINGS = 40;

    /**
     * The share of a term.
     *
     * @param moments estimates
     * @param term from 0 on; the residual comes after the last term
     * @param weights of the components in the sum, none negative, the residual's last and above 0
     * @param coverage of the interval
     */
    public static VarianceShare of(
            ScatterMoments moments, int term, double[] weights, double coverage) {
        double sum = 0;
        for (int j = 0; j < weights.length; j++) {
            sum += weights[j] * moments.variance(j);
        }
        final double value = weights[term] * moments.variance(term) / sum;
        final double[] slope = less(weights, term, value);
        for (int j = 0; j < slope.length; j++) {
            slope[j] /= sum;
        }
        final MeanSquareIntervals method = moments.intervals(coverage);
        final double[] squares = moments.meanSquares();
        final double lower =
                turn(p -> method.lower(moments.factors(less(weights, term, p)), squares) > 0);
        final double upper =
                turn(p -> method.upper(moments.factors(less(weights, term, p)), squares) >= 0);
        return new VarianceShare(
                value,
                Math.sqrt(Math.max(0, moments.spread(slope))),
                Math.min(value, lower),
                Math.max(value, upper));
    }

    /** Weights of the term less p times the sum. */
    private static double[] less(double[] weights, int term, double p) {
        final double[] less = new double[weights.length];
        for (int j = 0; j < less.length; j++) {
            less[j] = (j == term ? weights[j] : 0) - p * weights[j];
        }
        return less;
    }

    /** Up to where between 0 and 1 something holds that holds from below. */
    private static double turn(DoublePredicate holds) {
        if (!holds.test(0)) {
            return 0;
        }
        if (holds.test(1)) {
            return 1;
        }
        double low = 0;
        double high = 1;
        for (int i = 0; i < HALVINGS; i++) {
            final double mid = (low + high) / 2;
            if (holds.test(mid)) {
                low = mid;
            } else {
                high = mid;
            }
        }
        return high;
    }
}
