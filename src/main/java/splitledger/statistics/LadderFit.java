package splitledger.statistics;

import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.SingularValueDecomposition;
import org.apache.commons.math3.util.FastMath;

/**
 * One curve fitted to the members of a ladder by least squares. Every difference of two values of
 * the curve is, to first order, a weighted sum of the members' log responses; the weights carry the
 * covariance on.
 */
public final class LadderFit {
    private static final double HUNDRED = 100;
    private static final double SAME = 1e-9;

    /** Below this variance of log responses a fit is as good as exact. */
    private static final double NOTHING = 1e-20;

    private final LadderCurve curve;
    private final double centre;
    private final double level;
    private final double change;
    private final double[] shape;
    private final double squares;
    private final int members;
    private final double[][] inverse;

    /**
     * A fit.
     *
     * @param centre of the boiling points, degC
     * @param level a
     * @param change c; 0 for the constant
     * @param shape onset (degC), or midpoint and width (degC); empty for constant and line
     */
    LadderFit(
            LadderCurve curve,
            double centre,
            double level,
            double change,
            double[] shape,
            double[] boilingPoints,
            double squares) {
        this.curve = curve;
        this.centre = centre;
        this.level = level;
        this.change = change;
        this.shape = shape.clone();
        this.squares = squares;
        members = boilingPoints.length;
        final double[][] rows = new double[members][];
        for (int i = 0; i < members; i++) {
            rows[i] = gradient(boilingPoints[i]);
        }
        inverse =
                new SingularValueDecomposition(new Array2DRowRealMatrix(rows, false))
                        .getSolver()
                        .getInverse()
                        .getData();
    }

    /** Its shape. */
    public LadderCurve curve() {
        return curve;
    }

    /** Number of members. */
    public int members() {
        return members;
    }

    /** Sum of squared residuals of log responses. */
    public double squares() {
        return squares;
    }

    /** Degrees of freedom, members less parameters. */
    public double degreesOfFreedom() {
        return (double) members - curve.parameters();
    }

    /** Variance of a member about the curve: mass, response factor and what noise is left. */
    public double variance() {
        return squares / degreesOfFreedom();
    }

    /**
     * Akaike's criterion corrected for small samples, members as n: n ln(S/n) + 2 k + 2 k (k +
     * 1)/(n - k - 1), k the parameters and the variance (Hurvich and Tsai, Biometrika 76 (1989)
     * 297, from memory).
     */
    public double criterion() {
        final double k = curve.parameters() + 1.0;
        return members * FastMath.log(Math.max(squares / members, NOTHING))
                + 2 * k
                + 2 * k * (k + 1) / (members - k - 1);
    }

    /** The curve at a boiling point, log response. */
    public double value(double boilingPoint) {
        return level + change * basis(curve, centre, shape, boilingPoint);
    }

    /** Change of log response per 100 degC (line, and hinge beyond its onset). */
    public double changePer100() {
        return change;
    }

    /** Onset, or midpoint and width, degC; empty for constant and line. */
    public double[] shape() {
        return shape.clone();
    }

    /** Weights of the members' log responses in value(b) - value(reference). */
    public double[] weights(double boilingPoint, double reference) {
        final double[] g = gradient(boilingPoint);
        final double[] r = gradient(reference);
        final double[] weights = new double[members];
        for (int k = 0; k < g.length; k++) {
            for (int i = 0; i < members; i++) {
                weights[i] += (g[k] - r[k]) * inverse[k][i];
            }
        }
        return weights;
    }

    /** What the coefficient c multiplies. */
    static double basis(LadderCurve curve, double centre, double[] shape, double b) {
        return switch (curve) {
            case CONSTANT -> 0;
            case LINE -> (b - centre) / HUNDRED;
            case HINGE -> Math.max(0, b - shape[0]) / HUNDRED;
            case LOGISTIC -> 1 / (1 + FastMath.exp(-(b - shape[0]) / shape[1]));
        };
    }

    /** Derivatives by level, change and shape, as far as the curve has them. */
    private double[] gradient(double b) {
        final double[] g = new double[curve.parameters()];
        g[0] = 1;
        if (g.length > 1) {
            g[1] = basis(curve, centre, shape, b);
        }
        if (curve == LadderCurve.HINGE) {
            g[2] = b > shape[0] + SAME ? -change / HUNDRED : 0;
        } else if (curve == LadderCurve.LOGISTIC) {
            final double rise = g[1] * (1 - g[1]);
            g[2] = -change * rise / shape[1];
            g[3] = -change * rise * (b - shape[0]) / (shape[1] * shape[1]);
        }
        return g;
    }
}
