package splitledger.statistics;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;

/**
 * Scatter of injections within preparations, and of preparations within groups (days, analysts, ...
 * taken as fixed), by the method of moments, balanced or not:
 *
 * <p>MS_i = sum (y - mean of preparation)^2 / (N - P); MS_p = sum m_p (mean of preparation - mean
 * of group)^2 / (P - G); E MS_p = var_i + n0 var_p with n0 = (N - sum over groups of sum m_p^2 /
 * m_group) / (P - G) (Searle, Casella and McCulloch, Variance Components, 1992, chapter 3, from
 * memory).
 *
 * @param injections N
 * @param preparations P
 * @param groups G
 * @param mean mean of all group means
 * @param injectionMs MS_i, if a preparation was injected twice
 * @param preparationMs MS_p, if a group has two preparations
 * @param size n0, the effective number of injections a preparation
 */
public record NestedScatter(
        int injections,
        int preparations,
        int groups,
        double mean,
        OptionalDouble injectionMs,
        OptionalDouble preparationMs,
        double size) {

    /**
     * Takes the scatter apart.
     *
     * @param y responses
     * @param group label of each response's group
     * @param preparation label of each response's preparation, unique within its group
     */
    public static NestedScatter of(double[] y, List<String> group, List<String> preparation) {
        final Map<String, Map<String, List<Double>>> tree = new LinkedHashMap<>();
        for (int i = 0; i < y.length; i++) {
            tree.computeIfAbsent(group.get(i), g -> new LinkedHashMap<>())
                    .computeIfAbsent(preparation.get(i), p -> new ArrayList<>())
                    .add(y[i]);
        }
        int preparations = 0;
        double within = 0;
        double between = 0;
        double lost = 0;
        double sumOfMeans = 0;
        for (Map<String, List<Double>> members : tree.values()) {
            final List<Moments> means = new ArrayList<>();
            // differences from one response of the group are exact or nearly so; means of the
            // responses themselves would lose the digits that a large common part takes up
            final double base = members.values().iterator().next().get(0);
            for (List<Double> values : members.values()) {
                means.add(Moments.ofAll(values.stream().mapToDouble(v -> v - base).toArray()));
            }
            preparations += means.size();
            final int count = means.stream().mapToInt(Moments::count).sum();
            final double centre = means.get(0).mean();
            double offset = 0;
            for (Moments m : means) {
                offset += m.count() * (m.mean() - centre);
            }
            final double groupMean = centre + offset / count;
            for (Moments m : means) {
                within += m.squares();
                final double d = m.mean() - groupMean;
                between += m.count() * d * d;
                lost += (double) m.count() * m.count() / count;
            }
            sumOfMeans += base + groupMean;
        }
        final int withinDf = y.length - preparations;
        final int betweenDf = preparations - tree.size();
        return new NestedScatter(
                y.length,
                preparations,
                tree.size(),
                sumOfMeans / tree.size(),
                withinDf > 0 ? OptionalDouble.of(within / withinDf) : OptionalDouble.empty(),
                betweenDf > 0 ? OptionalDouble.of(between / betweenDf) : OptionalDouble.empty(),
                betweenDf > 0 ? (y.length - lost) / betweenDf : 1);
    }

    /** N - P. */
    public int injectionDf() {
        return injections - preparations;
    }

    /** P - G. */
    public int preparationDf() {
        return preparations - groups;
    }

    /**
     * Variance of independent results that average {@code m} injections of one preparation, with
     * its degrees of freedom: var_p + var_i/m = MS_p/n0 + MS_i (1/m - 1/n0), Satterthwaite. With m
     * = n0 (balanced) it is MS_p/n0 with exactly P - G. A negative moment estimate of var_p (MS_p
     * below MS_i) is taken as 0 when m is not n0, so that m injections never seem better than
     * MS_i/m.
     *
     * @param m injections a result averages, {@code > 0}
     * @return variance and degrees of freedom; empty without two preparations in a group, or if m
     *     differs from n0 and no preparation was injected twice
     */
    public java.util.Optional<VarianceEstimate> resultVariance(double m) {
        if (preparationMs.isEmpty()) {
            return java.util.Optional.empty();
        }
        final double share = preparationMs.getAsDouble() / size;
        final double rest = 1 / m - 1 / size;
        if (Math.abs(rest) < 1e-12) {
            return java.util.Optional.of(new VarianceEstimate(share, preparationDf()));
        }
        if (injectionMs.isEmpty()) {
            return java.util.Optional.empty();
        }
        final double floor = injectionMs.getAsDouble() / m;
        final double sum = share + rest * injectionMs.getAsDouble();
        if (sum < floor) {
            return java.util.Optional.of(new VarianceEstimate(floor, injectionDf()));
        }
        final double a = share * share / preparationDf();
        final double b =
                rest * rest * injectionMs.getAsDouble() * injectionMs.getAsDouble() / injectionDf();
        return java.util.Optional.of(
                new VarianceEstimate(sum, sum > 0 ? sum * sum / (a + b) : preparationDf()));
    }
}
