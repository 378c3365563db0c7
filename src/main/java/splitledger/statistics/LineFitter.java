package splitledger.statistics;

import splitledger.statistics.Outcome.Reason;

/**
 * Weighted least squares for a line y = a + b x. Slope {@code b = Sxy / Sxx} from weighted sums
 * about the weighted means (two passes: one-pass sums lose digits when the mean is large against
 * the spread); weights 1/x^power. Immutable.
 */
public final class LineFitter {
    /** Where the formulas stand. */
    public static final Source SOURCE =
            new Source(
                    "Draper and Smith, Applied Regression Analysis, 3rd ed. (from memory)",
                    "chapters 1 and 9");

    private static final int FEWEST = 3;

    private final Weighting weighting;

    private LineFitter(Weighting weighting) {
        this.weighting = weighting;
    }

    /** Unweighted. */
    public static LineFitter withDefaults() {
        return new LineFitter(Weighting.NONE);
    }

    /** With other weights. */
    public LineFitter withWeighting(Weighting other) {
        return new LineFitter(other);
    }

    /**
     * Fits.
     *
     * @param x abscissas, finite; not modified
     * @param y ordinates, finite, same length
     * @return the fit; or {@code TOO_FEW_POINTS} below 3, {@code NO_SPREAD_IN_X} if all x are
     *     equal, {@code ZERO_AMOUNT} for weights 1/x or 1/x^2 with an x that is not above 0
     * @throws IllegalArgumentException if lengths differ or a value is not finite
     */
    public Outcome<LineFit> fit(double[] x, double[] y) {
        check(x, y);
        if (x.length < FEWEST) {
            return Outcome.not(
                    Reason.TOO_FEW_POINTS,
                    "a line with its scatter needs 3 points, found " + x.length);
        }
        double sumW = 0;
        double xMean = 0;
        double yMean = 0;
        for (int i = 0; i < x.length; i++) {
            if (weighting != Weighting.NONE && !(x[i] > 0)) {
                return Outcome.not(
                        Reason.ZERO_AMOUNT,
                        "weights "
                                + weighting.code()
                                + " have no value at amount "
                                + x[i]
                                + "; leave that level out or fit without weights");
            }
            final double w = 1 / weighting.variance(x[i]);
            sumW += w;
            xMean += w * x[i];
            yMean += w * y[i];
        }
        xMean /= sumW;
        yMean /= sumW;
        double sxx = 0;
        double sxy = 0;
        double syy = 0;
        for (int i = 0; i < x.length; i++) {
            final double w = 1 / weighting.variance(x[i]);
            final double dx = x[i] - xMean;
            final double dy = y[i] - yMean;
            sxx += w * dx * dx;
            sxy += w * dx * dy;
            syy += w * dy * dy;
        }
        if (!(sxx > 0)) {
            return Outcome.not(Reason.NO_SPREAD_IN_X, "all amounts are equal (" + x[0] + ")");
        }
        final double slope = sxy / sxx;
        double residual = 0;
        for (int i = 0; i < x.length; i++) {
            final double r = y[i] - yMean - slope * (x[i] - xMean);
            residual += r * r / weighting.variance(x[i]);
        }
        final double s = Math.sqrt(residual / (x.length - 2));
        return Outcome.of(
                new LineFit(weighting, x.length, xMean, yMean, sumW, sxx, slope, s, residual, syy));
    }

    private static void check(double[] x, double[] y) {
        if (x.length != y.length) {
            throw new IllegalArgumentException("x has " + x.length + " values, y " + y.length);
        }
        for (int i = 0; i < x.length; i++) {
            if (!(Math.abs(x[i]) < Double.POSITIVE_INFINITY)
                    || !(Math.abs(y[i]) < Double.POSITIVE_INFINITY)) {
                throw new IllegalArgumentException(
                        "point " + i + " = (" + x[i] + ", " + y[i] + "), must be finite");
            }
        }
    }
}
