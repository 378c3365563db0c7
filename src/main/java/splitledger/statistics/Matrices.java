package splitledger.statistics;

import org.apache.commons.math3.util.FastMath;

/** The little linear algebra that the fits here need; matrices are arrays of rows. */
final class Matrices {
    private Matrices() {}

    static double dot(double[] a, double[] b) {
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            sum += a[i] * b[i];
        }
        return sum;
    }

    /** a := a + factor b. */
    static void addTo(double[] a, double factor, double[] b) {
        for (int i = 0; i < a.length; i++) {
            a[i] += factor * b[i];
        }
    }

    static double[] times(double[][] a, double[] x) {
        final double[] y = new double[a.length];
        for (int i = 0; i < y.length; i++) {
            y[i] = dot(a[i], x);
        }
        return y;
    }

    /**
     * Lower Cholesky factor of a symmetric matrix, in place (the upper half is left as it is).
     *
     * @return logarithm of the determinant, or NaN if the matrix is not positive definite
     */
    static double cholesky(double[][] a) {
        double log = 0;
        final double[] column = new double[a.length];
        for (int k = 0; k < a.length; k++) {
            final double pivot = a[k][k];
            if (!(pivot > 0)) {
                return Double.NaN;
            }
            final double root = Math.sqrt(pivot);
            a[k][k] = root;
            log += FastMath.log(pivot);
            for (int i = k + 1; i < a.length; i++) {
                a[i][k] /= root;
                column[i] = a[i][k];
            }
            // along the rows, which the processor takes several numbers at a time
            for (int i = k + 1; i < a.length; i++) {
                final double[] row = a[i];
                final double factor = row[k];
                for (int j = k + 1; j <= i; j++) {
                    row[j] -= factor * column[j];
                }
            }
        }
        return log;
    }

    /** L^-1 x of a lower factor. */
    static double[] forward(double[][] lower, double[] x) {
        final double[] y = x.clone();
        for (int i = 0; i < y.length; i++) {
            for (int k = 0; k < i; k++) {
                y[i] -= lower[i][k] * y[k];
            }
            y[i] /= lower[i][i];
        }
        return y;
    }

    /** (L L')^-1 of a lower factor. */
    static double[][] inverse(double[][] lower) {
        final int n = lower.length;
        final double[][] l = new double[n][n];
        for (int i = 0; i < n; i++) {
            final double[] row = l[i];
            for (int k = 0; k < i; k++) {
                addTo(row, lower[i][k], l[k], k + 1);
            }
            for (int j = 0; j < i; j++) {
                row[j] = -row[j] / lower[i][i];
            }
            row[i] = 1 / lower[i][i];
        }
        final double[][] inverse = new double[n][n];
        for (int k = 0; k < n; k++) {
            for (int i = 0; i <= k; i++) {
                addTo(inverse[i], l[k][i], l[k], i + 1);
            }
        }
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < i; j++) {
                inverse[j][i] = inverse[i][j];
            }
        }
        return inverse;
    }

    /** The first places of a := a + factor b. */
    private static void addTo(double[] a, double factor, double[] b, int places) {
        for (int i = 0; i < places; i++) {
            a[i] += factor * b[i];
        }
    }

    /**
     * Solves a square system by elimination with row exchange.
     *
     * @return the solution, or an empty array if the matrix is singular
     */
    static double[] eliminate(double[][] matrix, double[] right) {
        final int n = right.length;
        final double[][] a = new double[n][];
        final double[] x = right.clone();
        for (int i = 0; i < n; i++) {
            a[i] = matrix[i].clone();
        }
        for (int k = 0; k < n; k++) {
            int pivot = k;
            for (int i = k + 1; i < n; i++) {
                pivot = Math.abs(a[i][k]) > Math.abs(a[pivot][k]) ? i : pivot;
            }
            if (a[pivot][k] == 0) {
                return new double[0];
            }
            final double[] row = a[k];
            a[k] = a[pivot];
            a[pivot] = row;
            final double value = x[k];
            x[k] = x[pivot];
            x[pivot] = value;
            for (int i = k + 1; i < n; i++) {
                final double f = a[i][k] / a[k][k];
                addTo(a[i], -f, a[k]);
                x[i] -= f * x[k];
            }
        }
        for (int i = n - 1; i >= 0; i--) {
            for (int k = i + 1; k < n; k++) {
                x[i] -= a[i][k] * x[k];
            }
            x[i] /= a[i][i];
        }
        return x;
    }
}
