package splitledger.statistics;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.statistics.Outcome.Reason;

/**
 * What the points say against a fit: lack of fit, curvature, leverage, influence, residuals in run
 * order, amounts calculated back. Weights are those of the fit. Formulas: Draper and Smith, Applied
 * Regression Analysis, 3rd ed. (from memory), chapters 2 and 8.
 */
public final class FitChecks {
    private final ScatterFit fit;
    private final double[] x;
    private final double[] y;
    private final double[] variances;

    private FitChecks(ScatterFit fit, double[] x, double[] y, double[] shares) {
        this.fit = fit;
        this.x = x.clone();
        this.y = y.clone();
        this.variances = new double[x.length];
        for (int i = 0; i < x.length; i++) {
            variances[i] = shares[i] * fit.law().variance(fit.at(x[i]));
        }
    }

    /**
     * Of a fit and its own points.
     *
     * @param shares variance of each point relative to the law
     */
    public static FitChecks of(ScatterFit fit, double[] x, double[] y, double[] shares) {
        return new FitChecks(fit, x, y, shares);
    }

    /**
     * F = [weighted squares of level means about the curve / (k - p)] / [weighted squares within
     * levels / (n - k)]; pure error are preparations within a level, never injections.
     *
     * @return the test; {@code TOO_FEW_LEVELS}, {@code ONE_PREPARATION_A_LEVEL} or {@code
     *     NO_SCATTER}
     */
    public Outcome<LackOfFit> lackOfFit() {
        final SortedMap<Double, List<Integer>> levels = new TreeMap<>();
        for (int i = 0; i < x.length; i++) {
            levels.computeIfAbsent(x[i], level -> new ArrayList<>()).add(i);
        }
        final int k = levels.size();
        final int p = fit.mean().parameters();
        if (k <= p) {
            return Outcome.not(
                    Reason.TOO_FEW_LEVELS, "lack of fit needs " + (p + 1) + " levels, found " + k);
        }
        if (k == x.length) {
            return Outcome.not(
                    Reason.ONE_PREPARATION_A_LEVEL,
                    "one preparation a level: injections cannot test linearity; make 2 or more at some levels");
        }
        double within = 0;
        double about = 0;
        for (Map.Entry<Double, List<Integer>> level : levels.entrySet()) {
            double weights = 0;
            double mean = 0;
            for (int i : level.getValue()) {
                weights += 1 / variances[i];
                mean += y[i] / variances[i];
            }
            mean /= weights;
            final double off = mean - fit.at(level.getKey());
            about += weights * off * off;
            for (int i : level.getValue()) {
                within += (y[i] - mean) * (y[i] - mean) / variances[i];
            }
        }
        if (!(within > 0)) {
            return Outcome.not(Reason.NO_SCATTER, "the preparations of every level agree exactly");
        }
        final double numerator = (double) k - p;
        final double denominator = (double) x.length - k;
        final double f = about / numerator / (within / denominator);
        return Outcome.of(
                new LackOfFit(
                        f, numerator, denominator, Quantiles.fTail(f, numerator, denominator)));
    }

    /**
     * Does a square term help the line? F(1, n - 3) of the gain in weighted squares (J. Mandel, The
     * Statistical Analysis of Experimental Data, 1964, from memory).
     *
     * @return F and p; {@code NOT_DEFINED} if the fit is no line, {@code TOO_FEW_POINTS} below 4,
     *     {@code TOO_FEW_LEVELS} below 3
     */
    public Outcome<LackOfFit> curvature() {
        if (fit.mean() != MeanLaw.LINE) {
            return Outcome.not(Reason.NOT_DEFINED, "curvature is tested against a line");
        }
        if (x.length < 4) {
            return Outcome.not(Reason.TOO_FEW_POINTS, "needs 4 points, found " + x.length);
        }
        final long levels = java.util.Arrays.stream(x).distinct().count();
        if (levels < 3) {
            return Outcome.not(Reason.TOO_FEW_LEVELS, "needs 3 levels, found " + levels);
        }
        final double line = WeightedFit.of(MeanLaw.LINE, x, y, variances).residualSquares();
        final WeightedFit curve = WeightedFit.of(MeanLaw.QUADRATIC, x, y, variances);
        final double nu = curve.degreesOfFreedom();
        final double f = Math.max(0, line - curve.residualSquares()) / curve.residualSquares() * nu;
        return Outcome.of(new LackOfFit(f, 1, nu, Quantiles.fTail(f, 1, nu)));
    }

    /** Leverage of each point; they sum to the number of coefficients. */
    public double[] leverages() {
        final WeightedFit weighted = WeightedFit.of(fit.mean(), x, y, variances);
        final double[] h = new double[x.length];
        for (int i = 0; i < h.length; i++) {
            h[i] = weighted.hat(i, i);
        }
        return h;
    }

    /** Residual of each point over its standard deviation (that of the law). */
    public double[] standardisedResiduals() {
        final double[] r = new double[x.length];
        for (int i = 0; i < r.length; i++) {
            r[i] = (y[i] - fit.at(x[i])) / Math.sqrt(variances[i]);
        }
        return r;
    }

    /**
     * Influence of each point, {@code e^2 h / (p s^2 (1 - h)^2)} with weighted residuals e and s^2
     * their mean square (R. D. Cook, Technometrics 19 (1977) 15, from memory).
     */
    public double[] influences() {
        final WeightedFit weighted = WeightedFit.of(fit.mean(), x, y, variances);
        final double s2 = weighted.residualSquares() / weighted.degreesOfFreedom();
        final double[] d = new double[x.length];
        for (int i = 0; i < d.length; i++) {
            final double h = weighted.hat(i, i);
            final double e = y[i] - weighted.at(x[i]);
            d[i] = e * e / variances[i] / s2 * h / (fit.mean().parameters() * (1 - h) * (1 - h));
        }
        return d;
    }

    /**
     * Amount found from each level's mean response, less its own amount, over that amount; levels
     * of amount 0 or out of the curve's reach are left out.
     */
    public SortedMap<Double, Double> backCalculated() {
        final SortedMap<Double, Moments> levels = new TreeMap<>();
        for (int i = 0; i < x.length; i++) {
            levels.merge(x[i], Moments.of(y[i]), Moments::with);
        }
        final SortedMap<Double, Double> deviations = new TreeMap<>();
        levels.forEach(
                (level, responses) -> {
                    final double found = fit.amountOf(responses.mean());
                    if (level != 0 && !Double.isNaN(found)) {
                        deviations.put(level, (found - level) / level);
                    }
                });
        return deviations;
    }
}
