package splitledger.statistics;

import java.util.List;

/**
 * An orthonormal basis of the group means: first the overall mean, then what each term adds to the
 * terms before it, then the rest (Gram-Schmidt, twice for the digits). In it the covariance of the
 * group means is a sum over terms, variance times {@link #share}.
 */
final class ScatterBasis {
    private static final double NOTHING_NEW = 1e-9;

    /** Rows are the vectors of the basis. */
    final double[][] vectors;

    /** To which term a vector belongs; -1 the mean; number of terms: the residual. */
    final int[] owner;

    private final List<ScatterFactor> terms;
    private final ScatterGroups groups;
    private int filled;

    ScatterBasis(List<ScatterFactor> terms, ScatterGroups groups) {
        this.terms = terms;
        this.groups = groups;
        vectors = new double[groups.count()][];
        owner = new int[groups.count()];
        final double[] ones = new double[groups.count()];
        for (int g = 0; g < ones.length; g++) {
            ones[g] = groups.root(g);
        }
        add(ones, -1);
        for (int j = 0; j < terms.size(); j++) {
            if (j != groups.finest) {
                for (double[] column : columns(j)) {
                    add(column, j);
                }
            }
        }
        final int rest = groups.finest >= 0 ? groups.finest : terms.size();
        for (int g = 0; g < ones.length && filled < vectors.length; g++) {
            final double[] unit = new double[ones.length];
            unit[g] = 1;
            add(unit, rest);
        }
        if (filled < vectors.length) {
            throw new IllegalStateException("the basis has " + filled + " vectors only");
        }
    }

    private double[][] columns(int term) {
        final ScatterFactor factor = terms.get(term);
        final double[][] columns = new double[factor.levels()][groups.count()];
        for (int g = 0; g < groups.count(); g++) {
            columns[factor.code(groups.example[g])][g] = groups.root(g);
        }
        return columns;
    }

    private void add(double[] column, int term) {
        if (filled == vectors.length) {
            return;
        }
        final double before = Math.sqrt(Matrices.dot(column, column));
        for (int pass = 0; pass < 2; pass++) {
            for (int k = 0; k < filled; k++) {
                Matrices.addTo(column, -Matrices.dot(vectors[k], column), vectors[k]);
            }
        }
        final double after = Math.sqrt(Matrices.dot(column, column));
        if (after > NOTHING_NEW * before) {
            for (int g = 0; g < column.length; g++) {
                column[g] /= after;
            }
            vectors[filled] = column;
            owner[filled] = term;
            filled++;
        }
    }

    /** Covariance in this basis for a variance of 1 of a term; the residual's is the identity. */
    double[][] share(int term) {
        final int d = vectors.length;
        final double[][] share = new double[d][d];
        if (term == groups.finest) {
            for (int a = 0; a < d; a++) {
                for (int b = 0; b <= a; b++) {
                    double sum = 0;
                    for (int g = 0; g < d; g++) {
                        sum += vectors[a][g] * vectors[b][g] * groups.size[g];
                    }
                    share[a][b] = sum;
                    share[b][a] = sum;
                }
            }
            return share;
        }
        final ScatterFactor factor = terms.get(term);
        final double[][] loads = new double[d][factor.levels()];
        for (int a = 0; a < d; a++) {
            for (int g = 0; g < d; g++) {
                loads[a][factor.code(groups.example[g])] += vectors[a][g] * groups.root(g);
            }
        }
        for (int a = 0; a < d; a++) {
            for (int b = 0; b <= a; b++) {
                share[a][b] = Matrices.dot(loads[a], loads[b]);
                share[b][a] = share[a][b];
            }
        }
        return share;
    }

    /** A vector of group values in this basis. */
    double[] turned(double[] values) {
        final double[] turned = new double[values.length];
        for (int a = 0; a < turned.length; a++) {
            turned[a] = Matrices.dot(vectors[a], values);
        }
        return turned;
    }
}
