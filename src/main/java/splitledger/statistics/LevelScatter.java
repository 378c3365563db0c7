package splitledger.statistics;

import java.util.List;
import java.util.Optional;

/**
 * How scatter grows with the level: constant (s0), proportional (s1 x), or both, s^2 = s0^2 + (s1
 * x)^2, by the likelihood of the variances found at several levels (each a multiple of chi-square).
 *
 * <p>A law of one component is refused if the likelihood ratio against both components has p below
 * 0.05; under it the second component lies at the edge of what is possible, so p is half the tail
 * of chi-square with one degree of freedom (Self and Liang, J. Am. Stat. Assoc. 82 (1987) 605). Of
 * two laws that stand, the likelier one is chosen; if neither stands, both components.
 *
 * @param law the choice
 * @param constant s0 of the chosen law, 0 for proportional scatter
 * @param proportional s1 of the chosen law, 0 for constant scatter
 * @param constantP p of constant scatter, against both components
 * @param proportionalP p of proportional scatter, against both components
 * @param logLikelihoods of the three laws, up to a common constant, in the order of {@link Law}
 */
public record LevelScatter(
        Law law,
        double constant,
        double proportional,
        double constantP,
        double proportionalP,
        List<Double> logLikelihoods) {

    /** The laws. */
    public enum Law {
        CONSTANT,
        PROPORTIONAL,
        TWO_COMPONENTS
    }

    private static final double REFUSED = 0.05;

    /**
     * Chooses a law.
     *
     * @param levels amounts or mean responses, all above 0
     * @param variances found at the levels, none negative
     * @param degreesOfFreedom of each variance, above 0
     * @return the choice, {@code TOO_FEW_LEVELS} below 2 different levels, {@code NO_SCATTER} if a
     *     law would be without scatter, {@code NO_FINITE_VALUE} if the fit does not end
     */
    public static Outcome<LevelScatter> of(
            double[] levels, double[] variances, double[] degreesOfFreedom) {
        final int n = levels.length;
        Checks.sameLength("variances", n, variances.length);
        Checks.sameLength("degreesOfFreedom", n, degreesOfFreedom.length);
        Checks.allFinite("variances", variances);
        double df = 0;
        double flat = 0;
        double steep = 0;
        double top = 0;
        double bottom = Double.POSITIVE_INFINITY;
        for (int i = 0; i < n; i++) {
            Checks.positive("levels[" + i + "]", levels[i]);
            Checks.positive("degreesOfFreedom[" + i + "]", degreesOfFreedom[i]);
            df += degreesOfFreedom[i];
            flat += degreesOfFreedom[i] * variances[i];
            steep += degreesOfFreedom[i] * variances[i] / (levels[i] * levels[i]);
            top = Math.max(top, levels[i]);
            bottom = Math.min(bottom, levels[i]);
        }
        if (!(top > bottom)) {
            return Outcome.not(
                    Outcome.Reason.TOO_FEW_LEVELS, "one level does not show how scatter grows");
        }
        if (!(flat > 0)) {
            return Outcome.not(
                    Outcome.Reason.NO_SCATTER, "the values of every level agree exactly");
        }
        // levels in units of the highest, variances in units of the pooled one
        final double scale = flat / df;
        final double[][] shares = new double[n][];
        final double[] squares = new double[n];
        for (int i = 0; i < n; i++) {
            final double x = levels[i] / top;
            shares[i] = new double[] {1, x * x};
            squares[i] = degreesOfFreedom[i] * variances[i] / scale;
        }
        final ScatterLikelihood likelihood =
                ScatterLikelihood.of(degreesOfFreedom.clone(), shares, squares);
        final double[] alone = {0, steep / df * top * top / scale};
        return choice(likelihood, alone, scale, top);
    }

    private static Outcome<LevelScatter> choice(
            ScatterLikelihood likelihood, double[] proportional, double scale, double top) {
        final double[] constant = {1, 0};
        final double flat = likelihood.value(constant);
        final double steep = likelihood.value(proportional);
        final Optional<double[]> fitted =
                new NonNegativeMinimum(likelihood, 1e-20)
                        .from(
                                new double[] {0.5, proportional[1] / 2},
                                new boolean[2],
                                new double[0]);
        if (fitted.isEmpty()) {
            return Outcome.not(
                    Outcome.Reason.NO_FINITE_VALUE,
                    "the likelihood was not maximised in 300 steps");
        }
        final double both = Math.min(likelihood.value(fitted.get()), Math.min(flat, steep));
        final double flatP = edgeP(flat - both);
        final double steepP = edgeP(steep - both);
        Law law = Law.TWO_COMPONENTS;
        double[] chosen = fitted.get();
        if (flatP >= REFUSED && (flat <= steep || steepP < REFUSED)) {
            law = Law.CONSTANT;
            chosen = constant;
        } else if (steepP >= REFUSED) {
            law = Law.PROPORTIONAL;
            chosen = proportional;
        }
        return Outcome.of(
                new LevelScatter(
                        law,
                        Math.sqrt(chosen[0] * scale),
                        Math.sqrt(chosen[1] * scale) / top,
                        flatP,
                        steepP,
                        List.of(-flat / 2, -steep / 2, -both / 2)));
    }

    /** Half the tail of chi-square with one degree of freedom; 1 where the ratio is 0. */
    private static double edgeP(double ratio) {
        return ratio <= 0 ? 1 : Quantiles.tTail(Math.sqrt(ratio), Double.POSITIVE_INFINITY);
    }

    /** Standard deviation of the chosen law at a level. */
    public double sd(double level) {
        final double grown = proportional * level;
        return Math.sqrt(constant * constant + grown * grown);
    }
}
