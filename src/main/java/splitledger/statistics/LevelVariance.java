package splitledger.statistics;

import java.util.List;
import java.util.Optional;

/**
 * Variance of repeated values as a function of their level, {@code s0^2 + (s1 x)^2}, from the
 * variances found at several levels (each a multiple of chi-square). Both components are always in
 * it, neither below 0: none is tested away first. Its degrees of freedom at a level are those of
 * the information that all levels together hold about the variance there, {@code 2 v^2 / var(v)}
 * (F. E. Satterthwaite, Biometrics Bull. 2 (1946) 110, from memory).
 *
 * @param constant s0^2, {@code >= 0}
 * @param proportional s1^2, {@code >= 0}
 * @param information of the two components, by rows; the second row is 0 where all levels are the
 *     same
 */
public record LevelVariance(double constant, double proportional, List<List<Double>> information) {
    private static final double CLOSE = 1e-20;
    private static final double SAME = 1e-9;

    /** Keeps the lists. */
    public LevelVariance {
        information = information.stream().map(List::copyOf).toList();
    }

    /**
     * Fits.
     *
     * @param levels at least one, each above 0
     * @param variances found at the levels, none negative
     * @param degreesOfFreedom of each, {@code >= 0}; at least one above 0
     * @return the law; {@code NO_SCATTER} if nothing scatters, {@code TOO_FEW_INJECTIONS} without
     *     degrees of freedom, {@code NO_FINITE_VALUE} if the search does not end
     */
    public static Outcome<LevelVariance> of(
            double[] levels, double[] variances, double[] degreesOfFreedom) {
        Checks.sameLength("variances", levels.length, variances.length);
        Checks.sameLength("degreesOfFreedom", levels.length, degreesOfFreedom.length);
        Checks.allFinite("variances", variances);
        double df = 0;
        double sum = 0;
        double top = 0;
        double bottom = Double.POSITIVE_INFINITY;
        for (int i = 0; i < levels.length; i++) {
            Checks.positive("levels[" + i + "]", levels[i]);
            df += degreesOfFreedom[i];
            sum += degreesOfFreedom[i] * variances[i];
            if (degreesOfFreedom[i] > 0) {
                top = Math.max(top, levels[i]);
                bottom = Math.min(bottom, levels[i]);
            }
        }
        if (!(df > 0)) {
            return Outcome.not(
                    Outcome.Reason.TOO_FEW_INJECTIONS, "no value is repeated: there is no scatter");
        }
        if (!(sum > 0)) {
            return Outcome.not(
                    Outcome.Reason.NO_SCATTER, "the repeated values agree exactly at every level");
        }
        final double scale = sum / df;
        if (!(top > bottom * (1 + SAME))) {
            final double half = df / (2 * scale * scale);
            return Outcome.of(
                    new LevelVariance(scale, 0, List.of(List.of(half, 0.0), List.of(0.0, 0.0))));
        }
        return both(levels, variances, degreesOfFreedom, scale, top);
    }

    private static Outcome<LevelVariance> both(
            double[] levels, double[] variances, double[] df, double scale, double top) {
        final int n = levels.length;
        final double[][] shares = new double[n][];
        final double[] squares = new double[n];
        for (int i = 0; i < n; i++) {
            final double x = levels[i] / top;
            shares[i] = new double[] {1, x * x};
            squares[i] = df[i] * variances[i] / scale;
        }
        final ScatterLikelihood likelihood = ScatterLikelihood.of(df.clone(), shares, squares);
        final Optional<double[]> fitted =
                new NonNegativeMinimum(likelihood, CLOSE)
                        .from(new double[] {0.5, 0.5}, new boolean[2], new double[0]);
        if (fitted.isEmpty()) {
            return Outcome.not(
                    Outcome.Reason.NO_FINITE_VALUE,
                    "the likelihood was not maximised in 300 steps");
        }
        final double constant = fitted.get()[0] * scale;
        final double proportional = fitted.get()[1] * scale / (top * top);
        final double[][] sums = new double[2][2];
        for (int i = 0; i < n; i++) {
            final double x2 = levels[i] * levels[i];
            final double v = constant + proportional * x2;
            final double w = df[i] / (2 * v * v);
            sums[0][0] += w;
            sums[0][1] += w * x2;
            sums[1][1] += w * x2 * x2;
        }
        return Outcome.of(
                new LevelVariance(
                        constant,
                        proportional,
                        List.of(List.of(sums[0][0], sums[0][1]), List.of(sums[0][1], sums[1][1]))));
    }

    /** Variance of one value at a level. */
    public double variance(double level) {
        return constant + proportional * level * level;
    }

    /** Degrees of freedom of that variance. */
    public double degreesOfFreedom(double level) {
        final double v = variance(level);
        final double a = information.get(0).get(0);
        final double b = information.get(0).get(1);
        final double d = information.get(1).get(1);
        if (d == 0) {
            return 2 * v * v * a;
        }
        final double x2 = level * level;
        final double determinant = a * d - b * b;
        final double spread = (d - 2 * b * x2 + a * x2 * x2) / determinant;
        return 2 * v * v / spread;
    }
}
