package splitledger.statistics;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.NonPositiveDefiniteMatrixException;
import org.apache.commons.math3.linear.QRDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
import splitledger.statistics.Outcome.Reason;

/**
 * Generalised least squares: y = X b + e with cov(e) = s^2 V, V known up to its scale. The system
 * is whitened by the Cholesky factor of V and solved by orthogonal columns (A. C. Aitken, Proc. R.
 * Soc. Edinb. 55 (1935) 42, from memory).
 *
 * @param coefficients b, one a column of X
 * @param unscaled (X' V^-1 X)^-1, by rows; times s^2 it is the covariance of b
 * @param residualSquares (y - X b)' V^-1 (y - X b)
 * @param degreesOfFreedom n - p, {@code >= 0}
 */
public record GeneralLeastSquares(
        List<Double> coefficients,
        List<List<Double>> unscaled,
        double residualSquares,
        double degreesOfFreedom) {
    /** Below this share of its length a column is taken to depend on the ones before it. */
    private static final double DEPENDENT = 1e-10;

    /** Keeps the lists. */
    public GeneralLeastSquares {
        coefficients = List.copyOf(coefficients);
        unscaled = unscaled.stream().map(List::copyOf).toList();
    }

    /**
     * Fits with independent errors.
     *
     * @param rows X by rows; not modified
     * @param y observations
     * @param variances diagonal of V, each above 0
     * @return as for a full V
     */
    public static Outcome<GeneralLeastSquares> independent(
            double[][] rows, double[] y, double[] variances) {
        final double[][] white = new double[rows.length][];
        final double[] z = new double[y.length];
        for (int i = 0; i < y.length; i++) {
            final double w = 1 / Math.sqrt(variances[i]);
            white[i] = Arrays.stream(rows[i]).map(v -> w * v).toArray();
            z[i] = w * y[i];
        }
        return whitened(white, z);
    }

    /**
     * Fits.
     *
     * @param rows X by rows; not modified
     * @param y observations
     * @param covariance V, symmetric and positive definite
     * @return the fit; {@code TOO_FEW_POINTS} with fewer points than columns, {@code
     *     NO_SPREAD_IN_X} if columns depend on one another, {@code NO_SCATTER} if V is not positive
     *     definite
     */
    public static Outcome<GeneralLeastSquares> fit(
            double[][] rows, double[] y, double[][] covariance) {
        final RealMatrix lower;
        try {
            lower =
                    new CholeskyDecomposition(new Array2DRowRealMatrix(covariance), 1e-9, 1e-14)
                            .getL();
        } catch (NonPositiveDefiniteMatrixException e) {
            return Outcome.not(
                    Reason.NO_SCATTER, "the covariance of the errors is not positive definite");
        }
        final int p = rows.length == 0 ? 0 : rows[0].length;
        final double[][] white = new double[y.length][p];
        for (int k = 0; k < p; k++) {
            final int column = k;
            final double[] solved =
                    forward(lower, Arrays.stream(rows).mapToDouble(r -> r[column]).toArray());
            for (int i = 0; i < y.length; i++) {
                white[i][k] = solved[i];
            }
        }
        return whitened(white, forward(lower, y));
    }

    /** Solves L z = v. */
    private static double[] forward(RealMatrix lower, double[] v) {
        final double[] z = v.clone();
        for (int i = 0; i < z.length; i++) {
            for (int k = 0; k < i; k++) {
                z[i] -= lower.getEntry(i, k) * z[k];
            }
            z[i] /= lower.getEntry(i, i);
        }
        return z;
    }

    private static Outcome<GeneralLeastSquares> whitened(double[][] x, double[] z) {
        final int n = z.length;
        final int p = n == 0 ? 0 : x[0].length;
        if (n == 0 || n < p) {
            return Outcome.not(Reason.TOO_FEW_POINTS, "needs " + p + " points, found " + n);
        }
        final QRDecomposition qr = new QRDecomposition(new Array2DRowRealMatrix(x));
        final RealMatrix r = qr.getR();
        for (int k = 0; k < p; k++) {
            double length = 0;
            for (int i = 0; i <= k; i++) {
                length += r.getEntry(i, k) * r.getEntry(i, k);
            }
            if (!(Math.abs(r.getEntry(k, k)) > DEPENDENT * Math.sqrt(length))) {
                return Outcome.not(
                        Reason.NO_SPREAD_IN_X, "column " + k + " depends on the ones before it");
            }
        }
        final RealVector b = qr.getSolver().solve(new ArrayRealVector(z));
        final RealVector rest =
                new ArrayRealVector(z).subtract(new Array2DRowRealMatrix(x).operate(b));
        final RealMatrix root = r.getSubMatrix(0, p - 1, 0, p - 1);
        final double[][] inverse = inverse(root, p);
        final List<List<Double>> unscaled = new ArrayList<>();
        for (int k = 0; k < p; k++) {
            final List<Double> row = new ArrayList<>();
            for (int l = 0; l < p; l++) {
                double sum = 0;
                for (int m = Math.max(k, l); m < p; m++) {
                    sum += inverse[k][m] * inverse[l][m];
                }
                row.add(sum);
            }
            unscaled.add(row);
        }
        return Outcome.of(
                new GeneralLeastSquares(
                        Arrays.stream(b.toArray()).boxed().toList(),
                        unscaled,
                        rest.dotProduct(rest),
                        n - p));
    }

    private static double[][] inverse(RealMatrix r, int p) {
        final double[][] inverse = new double[p][p];
        for (int k = p - 1; k >= 0; k--) {
            inverse[k][k] = 1 / r.getEntry(k, k);
            for (int l = k + 1; l < p; l++) {
                double sum = 0;
                for (int m = k + 1; m <= l; m++) {
                    sum -= r.getEntry(k, m) * inverse[m][l];
                }
                inverse[k][l] = sum / r.getEntry(k, k);
            }
        }
        return inverse;
    }

    /** Residual variance s^2; {@code NaN} without degrees of freedom. */
    public double scale() {
        return degreesOfFreedom > 0 ? residualSquares / degreesOfFreedom : Double.NaN;
    }

    /** Standard uncertainty of c' b with the residual variance of this fit. */
    public double uncertainty(double... c) {
        double sum = 0;
        for (int k = 0; k < c.length; k++) {
            for (int l = 0; l < c.length; l++) {
                sum += c[k] * c[l] * unscaled.get(k).get(l);
            }
        }
        return Math.sqrt(Math.max(0, sum * scale()));
    }
}
