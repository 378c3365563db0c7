package splitledger.statistics;

import java.util.Arrays;
import java.util.List;
import splitledger.statistics.Outcome.Reason;

/**
 * Weighted least squares of values that are known unevenly well and scatter about the model by more
 * than their own uncertainty lets expect: variance of value i is {@code u_i^2 + b^2}, the variance
 * b^2 between settings being that at which the weighted sum of squares is its expectation, n - p
 * (R. C. Paule and J. Mandel, J. Res. Natl. Bur. Stand. 87 (1982) 377, from memory); 0 if it is
 * smaller than that already. The covariance of the coefficients is scaled by that sum over n - p,
 * and they follow t with n - p degrees of freedom (G. Knapp and J. Hartung, Stat. Med. 22 (2003)
 * 2693, from memory): the residuals say how far the settings scatter, the weights only how they
 * differ.
 *
 * @param fit with the variances u_i^2 + b^2 as weights
 * @param between b, in the unit of the values
 * @param solution coefficients by value: row k holds the weights of all values in coefficient k
 */
public record UnevenLine(GeneralLeastSquares fit, double between, List<List<Double>> solution) {
    private static final double CLOSE = 1e-14;
    private static final int DOUBLINGS = 200;

    /** Keeps the lists. */
    public UnevenLine {
        solution = solution.stream().map(List::copyOf).toList();
    }

    /**
     * Fits.
     *
     * @param rows of the model, one a value; not modified
     * @param y values
     * @param variances u_i^2, each {@code >= 0}, not all 0
     * @return the fit; {@code TOO_FEW_POINTS} without degrees of freedom, {@code NO_SPREAD_IN_X} if
     *     columns depend on one another, {@code NO_SCATTER} if neither values nor residuals scatter
     */
    public static Outcome<UnevenLine> fit(double[][] rows, double[] y, double[] variances) {
        Checks.sameLength("rows", y.length, rows.length);
        Checks.sameLength("variances", y.length, variances.length);
        Checks.allFinite("y", y);
        Checks.allFinite("variances", variances);
        final int free = y.length - rows[0].length;
        if (free < 1) {
            return Outcome.not(
                    Reason.TOO_FEW_POINTS,
                    y.length + " values for " + rows[0].length + " coefficients");
        }
        final double top = Arrays.stream(variances).max().orElse(0);
        if (!(top > 0)) {
            return Outcome.not(Reason.NO_SCATTER, "no value has an uncertainty of its own");
        }
        // a value known exactly would take all the weight
        final double[] own = Arrays.stream(variances).map(v -> Math.max(v, CLOSE * top)).toArray();
        final Outcome<GeneralLeastSquares> first = GeneralLeastSquares.independent(rows, y, own);
        if (first instanceof Outcome.NotComputed<GeneralLeastSquares> not) {
            return Outcome.not(not.reason(), not.detail());
        }
        double between = 0;
        if (excess(rows, y, own, 0) > 0) {
            double high = top;
            for (int i = 0; i < DOUBLINGS && excess(rows, y, own, high) > 0; i++) {
                high *= 2;
            }
            between = BracketedRoot.of(b -> excess(rows, y, own, b), 0, high, CLOSE * high);
        }
        final double[] all = new double[own.length];
        for (int i = 0; i < all.length; i++) {
            all[i] = own[i] + between;
        }
        final double b = Math.sqrt(between);
        return GeneralLeastSquares.independent(rows, y, all)
                .fold(
                        fit -> Outcome.of(new UnevenLine(fit, b, solution(fit, rows, all))),
                        not -> Outcome.not(not.reason(), not.detail()));
    }

    /** Weighted sum of squares less its expectation; falls with the variance between settings. */
    private static double excess(double[][] rows, double[] y, double[] own, double between) {
        final double[] all = Arrays.stream(own).map(v -> v + between).toArray();
        return GeneralLeastSquares.independent(rows, y, all)
                .fold(f -> f.residualSquares() - f.degreesOfFreedom(), not -> -1.0);
    }

    private static List<List<Double>> solution(
            GeneralLeastSquares fit, double[][] rows, double[] variances) {
        final int p = rows[0].length;
        final Double[][] weights = new Double[p][rows.length];
        for (int k = 0; k < p; k++) {
            for (int i = 0; i < rows.length; i++) {
                double sum = 0;
                for (int l = 0; l < p; l++) {
                    sum += fit.unscaled().get(k).get(l) * rows[i][l];
                }
                weights[k][i] = sum / variances[i];
            }
        }
        return Arrays.stream(weights).map(List::of).toList();
    }

    /** A coefficient. */
    public double coefficient(int k) {
        return fit.coefficients().get(k);
    }

    /** Covariance of two coefficients. */
    public double covariance(int k, int l) {
        return fit.unscaled().get(k).get(l) * fit.scale();
    }

    /** Degrees of freedom, n - p. */
    public double degreesOfFreedom() {
        return fit.degreesOfFreedom();
    }

    /** p of a coefficient against 0, two-sided. */
    public double p(int k) {
        final double u = Math.sqrt(covariance(k, k));
        return u > 0 ? Quantiles.tTwoSidedTail(coefficient(k) / u, degreesOfFreedom()) : Double.NaN;
    }
}
