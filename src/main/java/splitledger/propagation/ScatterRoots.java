package splitledger.propagation;

import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.statistics.InversePrediction.Beside;
import splitledger.statistics.MeanLaw;
import splitledger.statistics.ScatterFit;

/**
 * The independent roots of a {@link ScatterLine}: those of its coefficients, and what errors of the
 * calibrants' amounts add to them. All that the scatter decides is in one pool.
 */
final class ScatterRoots {
    private final String id;
    private final ScatterFit fit;
    private final CurveParts amounts;
    private final String amountUnit;
    private final String responseUnit;

    ScatterRoots(
            String id, ScatterFit fit, CurveParts amounts, String amountUnit, String responseUnit) {
        this.id = id;
        this.fit = fit;
        this.amounts = amounts;
        this.amountUnit = amountUnit;
        this.responseUnit = responseUnit;
    }

    /** Coefficient k, in the order of the mean's formula, with nu degrees of freedom. */
    Uncertain coefficient(int k, double nu) {
        final SortedMap<Root, Double> parts = new TreeMap<>(amounts.coefficients().get(k));
        final double[] own = parts(k);
        for (int r = 0; r < own.length; r++) {
            parts.put(lineRoot(r, nu), own[r]);
        }
        return Uncertain.of(fit.coefficient(k), unit(k), parts);
    }

    private String unit(int k) {
        final int power = fit.mean() == MeanLaw.THROUGH_ORIGIN ? 1 : k;
        if (power == 0 || "1".equals(amountUnit)) {
            return responseUnit;
        }
        return responseUnit + "/(" + amountUnit + ")" + (power == 1 ? "" : "^2");
    }

    /**
     * Parts of coefficient k in independent roots: the last coefficient has the first alone, the
     * one before it two, ... (Cholesky factor of the covariance in reverse order).
     */
    private double[] parts(int k) {
        final int p = fit.mean().parameters();
        final double[][] lower = new double[p][p];
        for (int i = 0; i < p; i++) {
            for (int j = 0; j <= i; j++) {
                double sum = fit.covariance(p - 1 - i, p - 1 - j);
                for (int m = 0; m < j; m++) {
                    sum -= lower[i][m] * lower[j][m];
                }
                lower[i][j] = i == j ? Math.sqrt(Math.max(0, sum)) : sum / lower[j][j];
            }
        }
        if (fit.mean() == MeanLaw.LINE) {
            // the level at the mean amount, without the difference of two large numbers
            lower[1][1] = Math.sqrt(fit.meanVariance(-fit.covariance(0, 1) / fit.covariance(1, 1)));
        }
        return lower[p - 1 - k];
    }

    /** What errors of the amounts add to the variances of intercept and slope. */
    Beside beside() {
        final List<Uncertain> errors = ofAmounts();
        final boolean origin = fit.mean() == MeanLaw.THROUGH_ORIGIN;
        final Uncertain a = origin ? Uncertain.exact(0, "1") : errors.get(0);
        final Uncertain b = errors.get(origin ? 0 : 1);
        return new Beside(a.variance(), a.covariance(b), b.variance());
    }

    List<Uncertain> ofAmounts() {
        return amounts.coefficients().stream().map(m -> Uncertain.of(0, "1", m)).toList();
    }

    private Root lineRoot(int r, double nu) {
        final int fromTop = fit.mean().parameters() - 1 - r;
        final String name =
                fit.mean() == MeanLaw.THROUGH_ORIGIN || fromTop == 1
                        ? "line-slope"
                        : fromTop == 0 ? "line-level" : "line-curve";
        return root(name, nu, Effect.PREPARATION, ActsOn.CALIBRANT);
    }

    Root root(String name, double nu, Effect effect, ActsOn actsOn) {
        final Pool pool = new Pool(id, nu, "scatter of calibrant preparations about the line");
        return Root.normal(id + "/" + name, pool, effect, actsOn, pool.origin());
    }
}
