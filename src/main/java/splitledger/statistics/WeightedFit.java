package splitledger.statistics;

import org.apache.commons.math3.util.FastMath;

/**
 * Least squares with given variances up to a common factor: orthonormal columns q of the weighted
 * terms by Gram and Schmidt, twice ("twice is enough": Giraud, Langou and Rozloznik, Comput. Math.
 * Appl. 50 (2005) 1069, from memory).
 */
final class WeightedFit {
    private final MeanLaw law;
    private final double[][] columns;
    private final double[][] inverse;
    private final double[] coefficients;
    private final double residualSquares;
    private final double logDeterminant;
    private final int points;

    private WeightedFit(
            MeanLaw law,
            double[][] columns,
            double[][] inverse,
            double[] coefficients,
            double residualSquares,
            double logDeterminant) {
        this.law = law;
        this.columns = columns;
        this.inverse = inverse;
        this.coefficients = coefficients;
        this.residualSquares = residualSquares;
        this.logDeterminant = logDeterminant;
        this.points = columns[0].length;
    }

    /** Fits; {@code variances} all above 0. A column that others explain ends as NaN. */
    static WeightedFit of(MeanLaw law, double[] x, double[] y, double[] variances) {
        final int n = x.length;
        final int p = law.parameters();
        final double[][] q = new double[p][n];
        final double[] rest = new double[n];
        for (int i = 0; i < n; i++) {
            final double root = 1 / Math.sqrt(variances[i]);
            for (int k = 0; k < p; k++) {
                q[k][i] = law.term(k, x[i]) * root;
            }
            rest[i] = y[i] * root;
        }
        final double[][] r = new double[p][p];
        double logs = 0;
        for (int k = 0; k < p; k++) {
            for (int pass = 0; pass < 2; pass++) {
                for (int l = 0; l < k; l++) {
                    r[l][k] += remove(q[l], q[k]);
                }
            }
            r[k][k] = Math.sqrt(dot(q[k], q[k]));
            for (int i = 0; i < n; i++) {
                q[k][i] /= r[k][k];
            }
            logs += 2 * FastMath.log(r[k][k]);
        }
        final double[] d = new double[p];
        for (int pass = 0; pass < 2; pass++) {
            for (int k = 0; k < p; k++) {
                d[k] += remove(q[k], rest);
            }
        }
        final double[][] inverse = invert(r);
        final double[] beta = new double[p];
        for (int k = 0; k < p; k++) {
            for (int l = k; l < p; l++) {
                beta[k] += inverse[k][l] * d[l];
            }
        }
        return new WeightedFit(law, q, inverse, beta, dot(rest, rest), logs);
    }

    /** Takes out of b what points along the unit vector a; returns how much. */
    private static double remove(double[] a, double[] b) {
        final double along = dot(a, b);
        for (int i = 0; i < a.length; i++) {
            b[i] -= along * a[i];
        }
        return along;
    }

    private static double dot(double[] a, double[] b) {
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            sum += a[i] * b[i];
        }
        return sum;
    }

    private static double[][] invert(double[][] r) {
        final int p = r.length;
        final double[][] inverse = new double[p][p];
        for (int k = p - 1; k >= 0; k--) {
            inverse[k][k] = 1 / r[k][k];
            for (int l = k + 1; l < p; l++) {
                double sum = 0;
                for (int m = k + 1; m <= l; m++) {
                    sum += r[k][m] * inverse[m][l];
                }
                inverse[k][l] = -sum / r[k][k];
            }
        }
        return inverse;
    }

    MeanLaw law() {
        return law;
    }

    /** The coefficients; the array itself. */
    double[] coefficients() {
        return coefficients;
    }

    /** Sum of squared residuals, each divided by its variance. */
    double residualSquares() {
        return residualSquares;
    }

    /** ln |X' V^-1 X|. */
    double logDeterminant() {
        return logDeterminant;
    }

    /** n - p. */
    double degreesOfFreedom() {
        return (double) points - law.parameters();
    }

    double at(double x) {
        return law.at(coefficients, x);
    }

    /** Element of (X' V^-1 X)^-1. */
    double covariance(int k, int l) {
        double sum = 0;
        for (int m = Math.max(k, l); m < inverse.length; m++) {
            sum += inverse[k][m] * inverse[l][m];
        }
        return sum;
    }

    /**
     * The combination c of coefficients in terms of the orthonormal columns: its variance is the
     * sum of squares, its covariance with the fitted value of point i the product with column i.
     */
    double[] rotated(double[] combination) {
        final double[] turned = new double[inverse.length];
        for (int m = 0; m < turned.length; m++) {
            for (int k = 0; k <= m; k++) {
                turned[m] += inverse[k][m] * combination[k];
            }
        }
        return turned;
    }

    /** Variance of a combination of coefficients, c' (X' V^-1 X)^-1 c. */
    double variance(double[] combination) {
        final double[] turned = rotated(combination);
        return dot(turned, turned);
    }

    /** q_i' q_j; the leverage for i = j. */
    double hat(int i, int j) {
        double sum = 0;
        for (double[] column : columns) {
            sum += column[i] * column[j];
        }
        return sum;
    }

    /** q_k' diag(a) q_l for columns k and l. */
    double between(int k, double[] a, int l) {
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            sum += columns[k][i] * a[i] * columns[l][i];
        }
        return sum;
    }

    /** turned' q_i. */
    double along(double[] turned, int i) {
        double sum = 0;
        for (int k = 0; k < turned.length; k++) {
            sum += turned[k] * columns[k][i];
        }
        return sum;
    }
}
