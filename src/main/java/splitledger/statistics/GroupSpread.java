package splitledger.statistics;

import java.util.ArrayList;
import java.util.List;

/**
 * Whether groups of repeated values scatter and lie alike: Cochran's test of the largest variance,
 * and Mandel's h and k (ISO 5725-2:1994, 7.3.1 and 7.3.3). Flags only: nothing is removed.
 */
public final class GroupSpread {
    /** Where the tests come from. */
    public static final Source SOURCE = new Source("ISO 5725-2:1994", "7.3.1 and 7.3.3");

    private GroupSpread() {}

    /**
     * The largest variance.
     *
     * @param group place of the group
     * @param statistic C = largest variance / sum of variances
     * @param p at most this is the probability of such a share in normal groups of equal variance
     */
    public record Largest(int group, double statistic, double p) {}

    /**
     * Cochran's test. p is the number of groups times the tail of F(n-1, (p-1)(n-1)) at (p-1) C/(1
     * - C), at most 1.
     *
     * @param variances of at least 2 groups, none negative
     * @param size values in each group, the same in all (their mean if nearly so), above 1
     * @return the largest, {@code TOO_FEW_LEVELS}, or {@code NO_SCATTER} if all variances are 0
     */
    public static Outcome<Largest> cochran(double[] variances, double size) {
        Checks.allFinite("variances", variances);
        Checks.positive("size - 1", size - 1);
        final int p = variances.length;
        if (p < 2) {
            return Outcome.not(Outcome.Reason.TOO_FEW_LEVELS, p + " groups, 2 are needed");
        }
        double sum = 0;
        int largest = 0;
        for (int i = 0; i < p; i++) {
            sum += variances[i];
            largest = variances[i] > variances[largest] ? i : largest;
        }
        if (!(sum > 0)) {
            return Outcome.not(
                    Outcome.Reason.NO_SCATTER, "the values of every group agree exactly");
        }
        final double c = variances[largest] / sum;
        final double f = (p - 1) * c / (1 - c);
        final double tail = c < 1 ? Quantiles.fTail(f, size - 1, (p - 1) * (size - 1)) : 0;
        return Outcome.of(new Largest(largest, c, Math.min(1, p * tail)));
    }

    /** What C must exceed, 1/(1 + (p-1)/F) with F(1 - risk/p; n-1, (p-1)(n-1)). */
    public static double cochranCritical(int groups, double size, double risk) {
        final double f = FisherQuantiles.of(1 - risk / groups, size - 1, (groups - 1) * (size - 1));
        return 1 / (1 + (groups - 1) / f);
    }

    /**
     * Mandel's statistics of a group.
     *
     * @param h distance of its mean from the mean of means, in standard deviations of the means
     * @param k its standard deviation over the pooled one
     */
    public record Mandel(double h, double k) {}

    /**
     * Mandel's h and k of every group.
     *
     * @param groups at least 3, each of at least 2 values
     * @return one for each group, {@code TOO_FEW_LEVELS}, {@code TOO_FEW_POINTS}, or {@code
     *     NO_SCATTER} if all means or all groups agree exactly
     */
    public static Outcome<List<Mandel>> mandel(List<double[]> groups) {
        if (groups.size() < 3) {
            return Outcome.not(
                    Outcome.Reason.TOO_FEW_LEVELS, groups.size() + " groups, 3 are needed");
        }
        final List<Moments> all = new ArrayList<>();
        double pooled = 0;
        for (double[] group : groups) {
            if (group.length < 2) {
                return Outcome.not(
                        Outcome.Reason.TOO_FEW_POINTS, "a group of one value has no scatter");
            }
            Checks.allFinite("group", group);
            all.add(Moments.ofAll(group));
            pooled += all.get(all.size() - 1).variance() / groups.size();
        }
        final Moments means = Moments.ofAll(all.stream().mapToDouble(Moments::mean).toArray());
        if (!(pooled > 0 && means.squares() > 0)) {
            return Outcome.not(Outcome.Reason.NO_SCATTER, "means or groups agree exactly");
        }
        final double root = Math.sqrt(pooled);
        return Outcome.of(
                all.stream()
                        .map(m -> new Mandel((m.mean() - means.mean()) / means.sd(), m.sd() / root))
                        .toList());
    }

    /** What |h| must exceed, (p-1) t / sqrt(p (t^2 + p - 2)) with t(1 - risk/2, p-2). */
    public static double hCritical(int groups, double risk) {
        final double t = Quantiles.t(1 - risk / 2, groups - 2);
        return (groups - 1) * t / Math.sqrt(groups * (t * t + groups - 2));
    }

    /** What k must exceed, sqrt(p / (1 + (p-1)/F)) with F(1 - risk; n-1, (p-1)(n-1)). */
    public static double kCritical(int groups, double size, double risk) {
        final double f = FisherQuantiles.of(1 - risk, size - 1, (groups - 1) * (size - 1));
        return Math.sqrt(groups / (1 + (groups - 1) / f));
    }
}
