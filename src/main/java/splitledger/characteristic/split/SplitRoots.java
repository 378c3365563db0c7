package splitledger.characteristic.split;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.QRDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import splitledger.base.Numbers;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.statistics.GeneralLeastSquares;
import splitledger.statistics.Outcome.Computed;
import splitledger.statistics.RatioFit;

/**
 * Gives what the split experiment finds its causes. Errors of a set-up are shared by the compounds
 * as far as their residuals go together: with the residuals R, one column a compound, and R = Q U,
 * column c of U divided by the root of the degrees of freedom holds the sensitivities of compound c
 * to independent causes, the same causes for all compounds, since U' U = R' R. Every set-up has its
 * own. All causes whose size rests on the same number of set-ups are one pool, so that each value
 * keeps the degrees of freedom of its fit.
 */
final class SplitRoots {
    private static final String SOURCE = "set-ups of the split experiment";

    private final SplitSetUps setUps;
    private final Map<List<String>, double[]> directions = new LinkedHashMap<>();

    /**
     * Causes of a split experiment.
     *
     * @param groups compounds whose mean something is said about; one alone or several
     */
    SplitRoots(SplitSetUps setUps, List<List<String>> groups) {
        this.setUps = setUps;
        final int rows = setUps.setUps().size();
        if (rows == 0 || groups.isEmpty()) {
            return;
        }
        final RealMatrix residuals = new Array2DRowRealMatrix(rows, groups.size());
        for (int g = 0; g < groups.size(); g++) {
            final double[] weights = setUps.mean(groups.get(g));
            final RatioFit fit = setUps.fit(weights);
            if (fit.line() instanceof Computed<GeneralLeastSquares> line) {
                final double[] rest = fit.residuals(line.value());
                final List<Integer> used = setUps.used(weights);
                for (int i = 0; i < rest.length; i++) {
                    residuals.setEntry(used.get(i), g, rest[i]);
                }
            }
        }
        final RealMatrix upper = new QRDecomposition(residuals).getR();
        final int most = Math.min(rows, groups.size());
        for (int g = 0; g < groups.size(); g++) {
            final double[] column = new double[most];
            double squares = 0;
            for (int k = 0; k < most; k++) {
                column[k] = upper.getEntry(k, g);
                squares += column[k] * column[k];
            }
            final double length = Math.sqrt(squares);
            for (int k = 0; k < most; k++) {
                column[k] = length > 0 ? column[k] / length : k == 0 ? 1 : 0;
            }
            directions.put(List.copyOf(groups.get(g)), column);
        }
    }

    /**
     * A value that is linear in the logarithms of the set-ups.
     *
     * @param value in {@code "1"}
     * @param of one of the groups of compounds
     * @param scale residual variance of the set-ups
     * @param freedom its degrees of freedom
     * @param parts what each set-up in use adds, as {@link RatioFit#lineParts} gives it
     * @return with the standard uncertainty {@code sqrt(scale * sum of squared parts)}
     */
    Uncertain of(double value, List<String> of, double scale, double freedom, double... parts) {
        final double[] direction = directions.get(of);
        if (direction == null) {
            throw new IllegalArgumentException("of = " + of + ", must be one of the groups");
        }
        final Pool pool =
                new Pool(
                        SplitLinearity.ID + "/set-ups/" + Numbers.text(freedom),
                        freedom,
                        "scatter of the set-ups about the line");
        final List<Integer> used = setUps.used(setUps.mean(of));
        final double sd = Math.sqrt(scale);
        final SortedMap<Root, Double> all = new TreeMap<>();
        for (int i = 0; i < parts.length; i++) {
            for (int k = 0; k < direction.length; k++) {
                if (direction[k] != 0) {
                    all.put(root(used.get(i), k, pool), sd * parts[i] * direction[k]);
                }
            }
        }
        return Uncertain.of(value, "1", all);
    }

    private static Root root(int setUp, int direction, Pool pool) {
        return Root.normal(
                SplitLinearity.ID + "/set-up/" + (setUp + 1) + "/" + (direction + 1),
                pool,
                Effect.SPLIT,
                ActsOn.BOTH,
                SOURCE);
    }

    /** Every compound alone, and those that are taken together. */
    static List<List<String>> groups(List<String> compounds, List<String> together) {
        final List<List<String>> groups = new ArrayList<>();
        compounds.forEach(c -> groups.add(List.of(c)));
        if (together.size() > 1) {
            groups.add(together);
        }
        return groups;
    }
}
