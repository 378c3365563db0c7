package splitledger.statistics;

import java.util.Arrays;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.NonPositiveDefiniteMatrixException;
import org.apache.commons.math3.linear.RealMatrix;
import splitledger.statistics.Outcome.Reason;

/**
 * A straight line through points with known errors in both coordinates, correlated in whatever way.
 * With the residuals e = y - a - b x and their covariance W(b) = Vyy - b (Vxy + Vyx) + b^2 Vxx the
 * sum e' W^-1 e is least where X' W^-1 e = 0 and 1' W^-1 e = 0, X being the adjusted abscissas x +
 * (b Vxx - Vxy) W^-1 e; both equations are solved for a and b again and again. For errors that are
 * independent between points this is the unified solution of York, Evensen, Lopez Martinez and De
 * Basabe Delgado, Am. J. Phys. 72 (2004) 367; in general the fit of ISO/TS 28037:2010, clause 10
 * (from memory). Standard uncertainties are theirs: (D' W^-1 D)^-1 with the columns 1 and X, not
 * scaled by the residuals.
 *
 * @param intercept a
 * @param slope b
 * @param interceptUncertainty u(a)
 * @param slopeUncertainty u(b)
 * @param covariance of a and b
 * @param chiSquare e' W^-1 e
 * @param degreesOfFreedom n - 2
 */
public record ErrorsInVariablesLine(
        double intercept,
        double slope,
        double interceptUncertainty,
        double slopeUncertainty,
        double covariance,
        double chiSquare,
        double degreesOfFreedom) {
    private static final int MOST_ROUNDS = 500;
    private static final double CONVERGED = 1e-15;
    private static final double SETTLED = 1e-9;

    /**
     * Fits points with errors of their own.
     *
     * @param x abscissas
     * @param y ordinates
     * @param ux standard uncertainties of {@code x}, {@code >= 0}
     * @param uy standard uncertainties of {@code y}, {@code >= 0}, not 0 together with {@code ux}
     * @param correlations of the two errors of each point
     * @return as for a full covariance
     */
    public static Outcome<ErrorsInVariablesLine> independent(
            double[] x, double[] y, double[] ux, double[] uy, double[] correlations) {
        final int n = x.length;
        final double[][] vxx = new double[n][n];
        final double[][] vxy = new double[n][n];
        final double[][] vyy = new double[n][n];
        for (int i = 0; i < n; i++) {
            vxx[i][i] = ux[i] * ux[i];
            vyy[i][i] = uy[i] * uy[i];
            vxy[i][i] = correlations[i] * ux[i] * uy[i];
        }
        return fit(x, y, vxx, vxy, vyy);
    }

    /**
     * Fits points whose errors may be shared.
     *
     * @param vxx covariance of the errors of x
     * @param vxy covariance of the errors of x (rows) with those of y (columns)
     * @param vyy covariance of the errors of y
     * @return the line; {@code TOO_FEW_POINTS} below three, {@code NO_SPREAD_IN_X} if all x are
     *     equal, {@code NO_SCATTER} if the errors have no positive definite covariance about the
     *     line, {@code NO_FINITE_VALUE} if the rounds do not settle
     */
    public static Outcome<ErrorsInVariablesLine> fit(
            double[] x, double[] y, double[][] vxx, double[][] vxy, double[][] vyy) {
        final int n = x.length;
        if (n < 3) {
            return Outcome.not(Reason.TOO_FEW_POINTS, "needs 3 points, found " + n);
        }
        if (Arrays.stream(x).allMatch(v -> v == x[0])) {
            return Outcome.not(Reason.NO_SPREAD_IN_X, "all abscissas are " + x[0]);
        }
        final double[] ones = new double[n];
        Arrays.fill(ones, 1);
        double[] line = plain(x, y);
        double change = Double.POSITIVE_INFINITY;
        for (int round = 0; round < MOST_ROUNDS && change > CONVERGED; round++) {
            final RealMatrix inverse = inverse(line[1], vxx, vxy, vyy);
            if (inverse.getRowDimension() == 0) {
                return Outcome.not(
                        Reason.NO_SCATTER,
                        "the errors about the line have no positive definite covariance");
            }
            final double[] adjusted = adjusted(line, x, y, vxx, vxy, inverse);
            final double[] w1 = inverse.operate(ones);
            final double[] wx = inverse.operate(adjusted);
            final double[][] left = {{dot(w1, ones), dot(w1, x)}, {dot(wx, ones), dot(wx, x)}};
            final double determinant = left[0][0] * left[1][1] - left[0][1] * left[1][0];
            final double p = dot(w1, y);
            final double q = dot(wx, y);
            final double[] next = {
                (left[1][1] * p - left[0][1] * q) / determinant,
                (left[0][0] * q - left[1][0] * p) / determinant
            };
            change = Math.abs(next[1] - line[1]) / Math.max(Math.abs(next[1]), Double.MIN_NORMAL);
            line = next;
        }
        if (!(change < SETTLED)) {
            return Outcome.not(
                    Reason.NO_FINITE_VALUE,
                    "the slope does not settle in " + MOST_ROUNDS + " rounds");
        }
        return Outcome.of(result(line, x, y, vxx, vxy, inverse(line[1], vxx, vxy, vyy)));
    }

    /** Without weights: where the rounds start. */
    private static double[] plain(double[] x, double[] y) {
        final double mx = Arrays.stream(x).sum() / x.length;
        final double my = Arrays.stream(y).sum() / y.length;
        double sxx = 0;
        double sxy = 0;
        for (int i = 0; i < x.length; i++) {
            sxx += (x[i] - mx) * (x[i] - mx);
            sxy += (x[i] - mx) * (y[i] - my);
        }
        return new double[] {my - sxy / sxx * mx, sxy / sxx};
    }

    /** W^-1, or a matrix without rows if W is not positive definite. */
    private static RealMatrix inverse(double b, double[][] vxx, double[][] vxy, double[][] vyy) {
        final int n = vxx.length;
        final double[][] w = new double[n][n];
        for (int i = 0; i < n; i++) {
            for (int k = 0; k < n; k++) {
                w[i][k] = vyy[i][k] - b * (vxy[i][k] + vxy[k][i]) + b * b * vxx[i][k];
            }
        }
        try {
            return new CholeskyDecomposition(new Array2DRowRealMatrix(w), 1e-9, 1e-300)
                    .getSolver()
                    .getInverse();
        } catch (NonPositiveDefiniteMatrixException e) {
            return new Array2DRowRealMatrix();
        }
    }

    private static double[] adjusted(
            double[] line,
            double[] x,
            double[] y,
            double[][] vxx,
            double[][] vxy,
            RealMatrix inverse) {
        final double[] weighted = inverse.operate(residuals(line, x, y));
        final double[] adjusted = x.clone();
        for (int i = 0; i < x.length; i++) {
            for (int k = 0; k < x.length; k++) {
                adjusted[i] += (line[1] * vxx[i][k] - vxy[i][k]) * weighted[k];
            }
        }
        return adjusted;
    }

    private static double[] residuals(double[] line, double[] x, double[] y) {
        final double[] e = new double[x.length];
        Arrays.setAll(e, i -> y[i] - line[0] - line[1] * x[i]);
        return e;
    }

    private static ErrorsInVariablesLine result(
            double[] line,
            double[] x,
            double[] y,
            double[][] vxx,
            double[][] vxy,
            RealMatrix inverse) {
        final double[] ones = new double[x.length];
        Arrays.fill(ones, 1);
        final double[] adjusted = adjusted(line, x, y, vxx, vxy, inverse);
        final double[] w1 = inverse.operate(ones);
        final double weights = dot(w1, ones);
        final double mean = dot(w1, adjusted) / weights;
        final double[] centred = Arrays.stream(adjusted).map(v -> v - mean).toArray();
        final double slopeVariance = 1 / dot(inverse.operate(centred), centred);
        final double[] e = residuals(line, x, y);
        return new ErrorsInVariablesLine(
                line[0],
                line[1],
                Math.sqrt(1 / weights + mean * mean * slopeVariance),
                Math.sqrt(slopeVariance),
                -mean * slopeVariance,
                dot(inverse.operate(e), e),
                x.length - 2);
    }

    private static double dot(double[] a, double[] b) {
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            sum += a[i] * b[i];
        }
        return sum;
    }
}
