package splitledger.statistics;

import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.SingularValueDecomposition;
import org.apache.commons.math3.util.FastMath;

/**
 * A cubic through a ladder, by least squares: never chosen, it only shows how far a curve without a
 * shape of its own would differ, and how well a ladder can tell at all.
 */
public final class LadderCubic {
    /** Fewest members. */
    public static final int MEMBERS = 8;

    private static final int TERMS = 4;
    private static final double HUNDRED = 100;
    private static final double NOTHING = 1e-20;

    private final double centre;
    private final double[][] inverse;
    private final double[] coefficients = new double[TERMS];
    private final double squares;

    /** Fits; at least {@link #MEMBERS} members. */
    public LadderCubic(double[] boilingPoints, double[] means) {
        if (means.length < MEMBERS) {
            throw new IllegalArgumentException("members = " + means.length + ", must be >= 8");
        }
        centre = Moments.ofAll(boilingPoints).mean();
        final double[][] rows = new double[means.length][];
        for (int i = 0; i < means.length; i++) {
            rows[i] = powers(boilingPoints[i]);
        }
        inverse =
                new SingularValueDecomposition(new Array2DRowRealMatrix(rows, false))
                        .getSolver()
                        .getInverse()
                        .getData();
        for (int k = 0; k < TERMS; k++) {
            for (int i = 0; i < means.length; i++) {
                coefficients[k] += inverse[k][i] * means[i];
            }
        }
        double sum = 0;
        for (int i = 0; i < means.length; i++) {
            final double r = means[i] - value(boilingPoints[i]);
            sum += r * r;
        }
        squares = sum;
    }

    private double[] powers(double b) {
        final double z = (b - centre) / HUNDRED;
        return new double[] {1, z, z * z, z * z * z};
    }

    /** The cubic at a boiling point, log response. */
    public double value(double boilingPoint) {
        final double[] p = powers(boilingPoint);
        double sum = 0;
        for (int k = 0; k < TERMS; k++) {
            sum += p[k] * coefficients[k];
        }
        return sum;
    }

    /** Variance of value(b) - value(reference). */
    public double variance(double boilingPoint, double reference) {
        final double[] p = powers(boilingPoint);
        final double[] r = powers(reference);
        final int n = inverse[0].length;
        double sum = 0;
        for (int i = 0; i < n; i++) {
            double weight = 0;
            for (int k = 0; k < TERMS; k++) {
                weight += (p[k] - r[k]) * inverse[k][i];
            }
            sum += weight * weight;
        }
        return sum * squares / (n - TERMS);
    }

    /** Corrected Akaike criterion, as {@link LadderFit#criterion()}. */
    public double criterion() {
        final double n = inverse[0].length;
        final double k = TERMS + 1.0;
        return n * FastMath.log(Math.max(squares / n, NOTHING))
                + 2 * k
                + 2 * k * (k + 1) / (n - k - 1);
    }
}
