package splitledger.statistics;

/**
 * Does scatter grow with the response? Restricted likelihood ratio of s1 = 0. On the boundary the
 * statistic follows half chi-square(1), half 0 (S. G. Self and K.-Y. Liang, J. Am. Stat. Assoc. 82
 * (1987) 605, from memory); with few points a parametric bootstrap is nearer.
 *
 * @param statistic twice the gain in restricted log-likelihood, {@code >= 0}
 * @param p probability of one at least this large if s1 = 0
 * @param repetitions of the bootstrap; 0 for the half-and-half law
 */
public record ScatterGrowth(double statistic, double p, int repetitions) {

    /** By the half-and-half law. */
    public static ScatterGrowth byBoundaryLaw(ScatterFit fit) {
        final double statistic = Math.max(0, 2 * (fit.likelihood() - fit.constantLikelihood()));
        final double p =
                statistic > 0 ? Quantiles.tTail(Math.sqrt(statistic), Double.POSITIVE_INFINITY) : 1;
        return new ScatterGrowth(statistic, p, 0);
    }

    /**
     * By simulated responses with the same scatter everywhere. The statistic is the largest gain on
     * the grid of ratios with the means of the unweighted fit, for the data and for every
     * repetition alike; p = (1 + number as large) / (1 + repetitions).
     *
     * @param mean what is fitted
     * @param x amounts
     * @param y responses
     * @param shares variance of each relative to the law
     * @param stream random numbers
     * @param repetitions at least 1
     */
    public static ScatterGrowth byBootstrap(
            MeanLaw mean,
            double[] x,
            double[] y,
            double[] shares,
            RandomStream stream,
            int repetitions) {
        final WeightedFit fit = WeightedFit.of(mean, x, y, shares);
        final double statistic = gain(fit, x, y, shares);
        final double sd = Math.sqrt(fit.residualSquares() / fit.degreesOfFreedom());
        int asLarge = 0;
        final double[] drawn = new double[x.length];
        for (int k = 0; k < repetitions; k++) {
            for (int i = 0; i < drawn.length; i++) {
                drawn[i] = fit.at(x[i]) + sd * Math.sqrt(shares[i]) * stream.nextNormal();
            }
            if (gain(WeightedFit.of(mean, x, drawn, shares), x, drawn, shares) >= statistic) {
                asLarge++;
            }
        }
        return new ScatterGrowth(statistic, (1.0 + asLarge) / (1.0 + repetitions), repetitions);
    }

    private static double gain(WeightedFit fit, double[] x, double[] y, double[] shares) {
        final double[] means = new double[x.length];
        for (int i = 0; i < means.length; i++) {
            means[i] = fit.at(x[i]);
        }
        final ScatterProfile profile = new ScatterProfile(fit.law(), x, y, shares, means);
        final double constant = profile.at(0).likelihood();
        double best = constant;
        for (ScatterProfile.Point point : profile.grid()) {
            best = Math.max(best, point.likelihood());
        }
        return 2 * (best - constant);
    }
}
