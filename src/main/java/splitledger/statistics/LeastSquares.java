package splitledger.statistics;

import java.util.List;
import java.util.stream.IntStream;
import splitledger.statistics.Outcome.Reason;

/**
 * General linear least squares in 31 digits: orthonormal columns by modified Gram and Schmidt,
 * twice over, on pairs of doubles. For sets whose columns are nearly dependent (high powers); the
 * result is that of the given doubles to nearly full precision.
 *
 * @param coefficients one a column
 * @param standardUncertainties of the coefficients
 * @param residualSd root of residual sum of squares / (n - p)
 * @param residualSquares sum of squared residuals
 * @param degreesOfFreedom n - p
 */
public record LeastSquares(
        List<Double> coefficients,
        List<Double> standardUncertainties,
        double residualSd,
        double residualSquares,
        double degreesOfFreedom) {
    /** Below this share of its length a column is taken to depend on the ones before it. */
    private static final double DEPENDENT = 1e-25;

    /** Keeps the lists. */
    public LeastSquares {
        coefficients = List.copyOf(coefficients);
        standardUncertainties = List.copyOf(standardUncertainties);
    }

    /**
     * Fits y = b0 + b1 x + ... by powers formed in 31 digits.
     *
     * @param degree highest power, {@code >= 1}
     * @return the fit; {@code TOO_FEW_POINTS} below degree + 2, {@code NO_SPREAD_IN_X} if the
     *     powers depend on one another
     */
    public static Outcome<LeastSquares> polynomial(double[] x, double[] y, int degree) {
        final DoubleDouble[][] columns = new DoubleDouble[degree + 1][x.length];
        for (int i = 0; i < x.length; i++) {
            columns[0][i] = DoubleDouble.of(1);
            for (int k = 1; k <= degree; k++) {
                columns[k][i] = columns[k - 1][i].times(DoubleDouble.of(x[i]));
            }
        }
        return fit(columns, y);
    }

    /**
     * Fits y to columns.
     *
     * @param columns each as long as y; not modified
     * @return as for powers
     */
    public static Outcome<LeastSquares> of(double[][] columns, double[] y) {
        final DoubleDouble[][] q = new DoubleDouble[columns.length][];
        for (int k = 0; k < q.length; k++) {
            final double[] column = columns[k];
            q[k] =
                    IntStream.range(0, y.length)
                            .mapToObj(i -> DoubleDouble.of(column[i]))
                            .toArray(DoubleDouble[]::new);
        }
        return fit(q, y);
    }

    private static Outcome<LeastSquares> fit(DoubleDouble[][] q, double[] y) {
        final int p = q.length;
        final int n = y.length;
        if (n <= p) {
            return Outcome.not(Reason.TOO_FEW_POINTS, "needs " + (p + 1) + " points, found " + n);
        }
        final DoubleDouble[][] r = new DoubleDouble[p][p];
        for (int k = 0; k < p; k++) {
            final double length = dot(q[k], q[k]).root().value();
            for (int l = 0; l < k; l++) {
                r[l][k] = remove(q[l], q[k]).plus(DoubleDouble.ZERO);
            }
            for (int l = 0; l < k; l++) {
                r[l][k] = r[l][k].plus(remove(q[l], q[k]));
            }
            r[k][k] = dot(q[k], q[k]).root();
            if (!(r[k][k].value() > DEPENDENT * length)) {
                return Outcome.not(
                        Reason.NO_SPREAD_IN_X, "column " + k + " depends on the ones before it");
            }
            for (int i = 0; i < n; i++) {
                q[k][i] = q[k][i].over(r[k][k]);
            }
        }
        final DoubleDouble[] rest = new DoubleDouble[n];
        for (int i = 0; i < n; i++) {
            rest[i] = DoubleDouble.of(y[i]);
        }
        final DoubleDouble[] d = new DoubleDouble[p];
        for (int k = 0; k < p; k++) {
            d[k] = remove(q[k], rest);
        }
        for (int k = 0; k < p; k++) {
            d[k] = d[k].plus(remove(q[k], rest));
        }
        return Outcome.of(solved(r, d, dot(rest, rest), n - p));
    }

    private static LeastSquares solved(
            DoubleDouble[][] r, DoubleDouble[] d, DoubleDouble squares, int freedom) {
        final int p = d.length;
        final DoubleDouble[][] inverse = inverse(r);
        final double variance = squares.value() / freedom;
        final Double[] b = new Double[p];
        final Double[] u = new Double[p];
        for (int k = 0; k < p; k++) {
            DoubleDouble sum = DoubleDouble.ZERO;
            DoubleDouble unscaled = DoubleDouble.ZERO;
            for (int l = k; l < p; l++) {
                sum = sum.plus(inverse[k][l].times(d[l]));
                unscaled = unscaled.plus(inverse[k][l].times(inverse[k][l]));
            }
            b[k] = sum.value();
            u[k] = Math.sqrt(variance * unscaled.value());
        }
        return new LeastSquares(
                List.of(b), List.of(u), Math.sqrt(variance), squares.value(), freedom);
    }

    private static DoubleDouble[][] inverse(DoubleDouble[][] r) {
        final int p = r.length;
        final DoubleDouble[][] inverse = new DoubleDouble[p][p];
        for (int k = p - 1; k >= 0; k--) {
            inverse[k][k] = DoubleDouble.of(1).over(r[k][k]);
            for (int l = k + 1; l < p; l++) {
                DoubleDouble sum = DoubleDouble.ZERO;
                for (int m = k + 1; m <= l; m++) {
                    sum = sum.minus(r[k][m].times(inverse[m][l]));
                }
                inverse[k][l] = sum.over(r[k][k]);
            }
        }
        return inverse;
    }

    private static DoubleDouble remove(DoubleDouble[] a, DoubleDouble[] b) {
        final DoubleDouble along = dot(a, b);
        for (int i = 0; i < a.length; i++) {
            b[i] = b[i].minus(along.times(a[i]));
        }
        return along;
    }

    private static DoubleDouble dot(DoubleDouble[] a, DoubleDouble[] b) {
        DoubleDouble sum = DoubleDouble.ZERO;
        for (int i = 0; i < a.length; i++) {
            sum = sum.plus(a[i].times(b[i]));
        }
        return sum;
    }
}
