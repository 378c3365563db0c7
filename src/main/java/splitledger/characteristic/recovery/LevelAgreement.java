package splitledger.characteristic.recovery;

import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import splitledger.characteristic.Digits;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.statistics.EqualMeans;
import splitledger.statistics.Outcome;

/** Whether the recoveries of several levels agree, given what they share. */
final class LevelAgreement {
    private LevelAgreement() {}

    /** The test of equal means, with the covariance of the levels by their shared roots. */
    static Outcome<EqualMeans> of(List<Uncertain> means) {
        return EqualMeans.of(means.stream().mapToDouble(Uncertain::value).toArray(), parts(means));
    }

    /** The covariance matrix of some values, one part a pool. */
    private static List<EqualMeans.Part> parts(List<Uncertain> values) {
        final SortedMap<Pool, double[][]> byPool = new TreeMap<>();
        final SortedSet<Root> roots = new TreeSet<>();
        values.forEach(v -> roots.addAll(v.roots()));
        final int n = values.size();
        for (Root root : roots) {
            final double[][] sum = byPool.computeIfAbsent(root.pool(), p -> new double[n][n]);
            for (int i = 0; i < n; i++) {
                for (int j = 0; j < n; j++) {
                    sum[i][j] += values.get(i).part(root) * values.get(j).part(root);
                }
            }
        }
        final List<EqualMeans.Part> parts = new ArrayList<>();
        byPool.forEach((pool, sum) -> parts.add(new EqualMeans.Part(sum, pool.degreesOfFreedom())));
        return parts;
    }

    /** The test in words. */
    static String words(EqualMeans test) {
        return "F = "
                + Digits.three(test.statistic())
                + " with "
                + Digits.three(test.numerator())
                + " and "
                + Digits.three(test.denominator())
                + " degrees of freedom, p = "
                + Digits.two(test.p());
    }
}
