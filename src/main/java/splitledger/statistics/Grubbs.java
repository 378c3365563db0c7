package splitledger.statistics;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;

/**
 * Grubbs' tests for one outlier, and for two on the same side, in normal values (Grubbs,
 * Technometrics 11 (1969) 1; ISO 5725-2:1994, 7.3.4). Flags only: nothing is removed.
 */
public final class Grubbs {
    /** Where the tests come from. */
    public static final Source SOURCE = new Source("ISO 5725-2:1994", "7.3.4");

    private static final int LEAST_FOR_PAIR = 4;

    private Grubbs() {}

    /**
     * One suspected value or pair.
     *
     * @param rows places in the array, the more extreme one first
     * @param statistic G = |x - mean|/s for one; SS without the pair / SS for two, small if suspect
     * @param p probability of such a value somewhere in normal data
     */
    public record Suspect(List<Integer> rows, double statistic, double p) {}

    /**
     * The value farthest from the mean. p is n times the two-sided tail of t(n-2) at t^2 = n (n-2)
     * G^2 / ((n-1)^2 - n G^2), at most 1: exact where it is small, never too small.
     *
     * @param x at least 3 values
     * @return the suspect, {@code TOO_FEW_POINTS} below 3, {@code NO_SCATTER} if all are equal
     */
    public static Outcome<Suspect> single(double... x) {
        Checks.allFinite("x", x);
        if (x.length < 3) {
            return tooFew(x.length, 3);
        }
        final Moments m = Moments.ofAll(x);
        if (!(m.squares() > 0)) {
            return Outcome.not(Outcome.Reason.NO_SCATTER, "all values are equal");
        }
        int far = 0;
        for (int i = 1; i < x.length; i++) {
            far = Math.abs(x[i] - m.mean()) > Math.abs(x[far] - m.mean()) ? i : far;
        }
        final double g = Math.abs(x[far] - m.mean()) / m.sd();
        return Outcome.of(new Suspect(List.of(far), g, singleP(g, x.length)));
    }

    private static double singleP(double g, int n) {
        final double rest = (n - 1.0) * (n - 1.0) - n * g * g;
        if (!(rest > 0)) {
            return 0;
        }
        final double t = g * Math.sqrt(n * (n - 2.0) / rest);
        return Math.min(1, n * Quantiles.tTwoSidedTail(t, n - 2));
    }

    /**
     * What G of the most extreme value must exceed, (n-1)/sqrt(n) sqrt(t^2/(n-2+t^2)) with t(1 -
     * risk/(2n), n-2).
     *
     * @param risk of a false alarm, both sides together
     */
    public static double critical(int n, double risk) {
        final double t = Quantiles.t(1 - risk / (2 * n), n - 2);
        return (n - 1) / Math.sqrt(n) * Math.sqrt(t * t / (n - 2 + t * t));
    }

    /**
     * The two largest or the two smallest values, whichever pair is the more suspect. p is twice
     * the exact probability on one side ({@link GrubbsPair}), at most 1.
     *
     * @param x at least 4 values
     * @return the pair, {@code TOO_FEW_POINTS} below 4, {@code NO_SCATTER} if all are equal
     */
    public static Outcome<Suspect> pair(double... x) {
        Checks.allFinite("x", x);
        final int n = x.length;
        if (n < LEAST_FOR_PAIR) {
            return tooFew(n, LEAST_FOR_PAIR);
        }
        final List<Integer> order = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            order.add(i);
        }
        order.sort((a, b) -> Double.compare(x[a], x[b]));
        final Moments all = Moments.ofAll(x);
        if (!(all.squares() > 0)) {
            return Outcome.not(Outcome.Reason.NO_SCATTER, "all values are equal");
        }
        final double low = without(x, order.subList(2, n)) / all.squares();
        final double high = without(x, order.subList(0, n - 2)) / all.squares();
        final List<Integer> rows =
                new ArrayList<>(low < high ? order.subList(0, 2) : order.subList(n - 2, n));
        if (low >= high) {
            Collections.reverse(rows);
        }
        final double ratio = Math.min(low, high);
        return Outcome.of(
                new Suspect(
                        List.copyOf(rows),
                        ratio,
                        Math.min(1, 2 * GrubbsPair.probability(ratio, n))));
    }

    private static double without(double[] x, List<Integer> rest) {
        return Moments.ofAll(rest.stream().mapToDouble(i -> x[i]).toArray()).squares();
    }

    /**
     * What the ratio of sums of squares must fall below.
     *
     * @param risk of a false alarm, both sides together
     */
    public static double pairCritical(int n, double risk) {
        double low = 0;
        double high = 1;
        while (high - low > 1e-9 * high) {
            final double mid = (low + high) / 2;
            if (2 * GrubbsPair.probability(mid, n) > risk) {
                high = mid;
            } else {
                low = mid;
            }
        }
        return high;
    }

    private static Outcome<Suspect> tooFew(int found, int needed) {
        return Outcome.not(
                Outcome.Reason.TOO_FEW_POINTS, found + " values, " + needed + " are needed");
    }

    /**
     * Generalised extreme studentised deviates (Rosner, Technometrics 25 (1983) 165): up to {@code
     * most} outliers, without masking of one by another.
     *
     * @param x at least 3 more values than {@code most}
     * @param most how many outliers are looked for
     * @param risk of a false alarm if there is none
     * @return steps in order, or {@code TOO_FEW_POINTS}, or {@code NO_SCATTER}
     */
    public static Outcome<Deviates> deviates(double[] x, int most, double risk) {
        Checks.allFinite("x", x);
        if (x.length < most + 3) {
            return Outcome.not(
                    Outcome.Reason.TOO_FEW_POINTS,
                    x.length + " values, " + (most + 3) + " are needed for " + most);
        }
        final List<Integer> left = new ArrayList<>();
        for (int i = 0; i < x.length; i++) {
            left.add(i);
        }
        final List<Step> steps = new ArrayList<>();
        int outliers = 0;
        for (int i = 1; i <= most; i++) {
            final double[] rest = left.stream().mapToDouble(k -> x[k]).toArray();
            final Moments m = Moments.ofAll(rest);
            if (!(m.squares() > 0)) {
                break;
            }
            int far = 0;
            for (int k = 1; k < rest.length; k++) {
                far = Math.abs(rest[k] - m.mean()) > Math.abs(rest[far] - m.mean()) ? k : far;
            }
            final double r = Math.abs(rest[far] - m.mean()) / m.sd();
            steps.add(new Step(left.remove(far), r, critical(rest.length, risk)));
            outliers = r > steps.get(i - 1).critical() ? i : outliers;
        }
        if (steps.isEmpty()) {
            return Outcome.not(Outcome.Reason.NO_SCATTER, "all values are equal");
        }
        return Outcome.of(new Deviates(List.copyOf(steps), outliers));
    }

    /**
     * A step of the generalised test.
     *
     * @param row place in the array
     * @param deviate from the mean of the values left, in their standard deviations
     * @param critical what it must exceed, Grubbs' critical value for the number of values left
     */
    public record Step(int row, double deviate, double critical) {}

    /**
     * Result of the generalised test.
     *
     * @param steps in order
     * @param outliers how many of the first steps are outliers
     */
    public record Deviates(List<Step> steps, int outliers) {
        /** Places of the outliers. */
        public int[] rows() {
            return Arrays.copyOf(steps.stream().mapToInt(Step::row).toArray(), outliers);
        }
    }
}
