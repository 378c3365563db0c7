package splitledger.statistics;

import java.util.Arrays;
import org.apache.commons.math3.stat.correlation.SpearmansCorrelation;
import org.apache.commons.math3.stat.ranking.NaturalRanking;

/**
 * Do residuals hang together in run order? Two statistics with their probabilities by random
 * permutations, which hold for any law of the residuals: Spearman's rank correlation with the order
 * (a trend) and von Neumann's ratio of the mean squared successive difference to the mean square
 * about the mean (neighbours alike: below about 2; J. von Neumann, Ann. Math. Stat. 12 (1941) 367,
 * from memory).
 *
 * @param correlation Spearman's rho, -1 to 1
 * @param trendP two-sided
 * @param ratio von Neumann's ratio
 * @param neighbourP of a ratio as small or smaller
 * @param permutations how many were drawn
 */
public record RunOrder(
        double correlation, double trendP, double ratio, double neighbourP, int permutations) {
    private static final int FEWEST = 5;

    /**
     * Tests residuals in the order of the run.
     *
     * @param residuals standardised, first run first
     * @param permutations to draw; p = (1 + number as extreme)/(1 + permutations)
     * @return the tests; {@code TOO_FEW_POINTS} below 5, {@code NO_SCATTER} if all are equal
     */
    public static Outcome<RunOrder> of(double[] residuals, RandomStream stream, int permutations) {
        final int n = residuals.length;
        if (n < FEWEST) {
            return Outcome.not(
                    Outcome.Reason.TOO_FEW_POINTS,
                    "run order needs " + FEWEST + " points, found " + n);
        }
        final double mean = Arrays.stream(residuals).sum() / n;
        final double[] values = Arrays.stream(residuals).map(r -> r - mean).toArray();
        double squares = 0;
        for (double v : values) {
            squares += v * v;
        }
        if (!(squares > 0)) {
            return Outcome.not(Outcome.Reason.NO_SCATTER, "all residuals are equal");
        }
        final double[] order = new double[n];
        Arrays.setAll(order, i -> i);
        final double rho = new SpearmansCorrelation().correlation(order, values);
        final double[] ranks = new NaturalRanking().rank(values);
        final double product = Math.abs(product(ranks));
        final double differences = differences(values);
        int trend = 0;
        int alike = 0;
        for (int k = 0; k < permutations; k++) {
            for (int i = n - 1; i > 0; i--) {
                final int j = stream.nextInt(i + 1);
                swap(values, i, j);
                swap(ranks, i, j);
            }
            if (Math.abs(product(ranks)) >= product * (1 - 1e-12)) {
                trend++;
            }
            if (differences(values) <= differences * (1 + 1e-12)) {
                alike++;
            }
        }
        return Outcome.of(
                new RunOrder(
                        rho,
                        (1.0 + trend) / (1.0 + permutations),
                        differences / (n - 1) / (squares / n),
                        (1.0 + alike) / (1.0 + permutations),
                        permutations));
    }

    /** Sum of (place - mean place)(rank - mean rank). */
    private static double product(double[] ranks) {
        final double middle = (ranks.length - 1) / 2.0;
        double sum = 0;
        for (int i = 0; i < ranks.length; i++) {
            sum += (i - middle) * (ranks[i] - middle - 1);
        }
        return sum;
    }

    private static double differences(double[] values) {
        double sum = 0;
        for (int i = 1; i < values.length; i++) {
            final double d = values[i] - values[i - 1];
            sum += d * d;
        }
        return sum;
    }

    private static void swap(double[] values, int i, int j) {
        final double kept = values[i];
        values[i] = values[j];
        values[j] = kept;
    }
}
