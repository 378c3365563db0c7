package splitledger.propagation;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Values whose correlation is stated or comes from data observed together: with the correlation
 * matrix R = L L^T, each value's parts are its standard uncertainty times a row of L on common
 * independent roots (JCGM 101:2008, 6.4.8.4).
 */
public final class CorrelatedRoots {
    /** A pivot this far below 0 is no rounding: the matrix is not positive semidefinite. */
    private static final double ROUNDING = 1e-9;

    private CorrelatedRoots() {}

    /**
     * The lower triangular factor.
     *
     * @param r correlation matrix: symmetric, 1 on the diagonal; not changed
     * @return empty if these correlations cannot hold together (not positive semidefinite)
     */
    public static Optional<double[][]> factor(double[][] r) {
        final int n = r.length;
        final double[][] l = new double[n][n];
        for (int j = 0; j < n; j++) {
            double pivot = r[j][j];
            for (int k = 0; k < j; k++) {
                pivot -= l[j][k] * l[j][k];
            }
            if (!(pivot >= -ROUNDING)) {
                return Optional.empty();
            }
            l[j][j] = pivot > ROUNDING ? Math.sqrt(pivot) : 0;
            for (int i = j + 1; i < n; i++) {
                double sum = r[i][j];
                for (int k = 0; k < j; k++) {
                    sum -= l[i][k] * l[j][k];
                }
                if (l[j][j] > 0) {
                    l[i][j] = sum / l[j][j];
                } else if (Math.abs(sum) > Math.sqrt(ROUNDING)) {
                    return Optional.empty();
                }
            }
        }
        return Optional.of(l);
    }

    /**
     * Values on common roots.
     *
     * @param values each with its standard uncertainty; their own roots are given up
     * @param factor of {@link #factor}, in the order of {@code values}
     * @param roots as many independent roots as values, all of one pool
     */
    public static List<Uncertain> joined(
            List<Uncertain> values, double[][] factor, List<Root> roots) {
        final List<Uncertain> joined = new ArrayList<>();
        for (int i = 0; i < values.size(); i++) {
            final double u = values.get(i).standardUncertainty();
            final SortedMap<Root, Double> parts = new TreeMap<>();
            for (int j = 0; j <= i; j++) {
                parts.put(roots.get(j), u * factor[i][j]);
            }
            joined.add(Uncertain.of(values.get(i).value(), values.get(i).unit(), parts));
        }
        return joined;
    }
}
