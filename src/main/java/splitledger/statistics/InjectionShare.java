package splitledger.statistics;

/**
 * Variance of a mean of m injections of one preparation, relative to the usual mean of m0: {@code 1
 * + lambda (1/m - 1/m0)}, lambda = variance of one injection / variance of the usual mean, the same
 * at every level (both follow one law of scatter). Lambda is the pooled scatter of injections
 * within preparations, each in units of the fitted law; at most m0, where nothing is left for the
 * preparation.
 *
 * @param lambda see above, from 0 to m0
 * @param usual m0
 * @param degreesOfFreedom of lambda's numerator; 0 if every preparation was injected once
 */
public record InjectionShare(double lambda, double usual, double degreesOfFreedom) {

    /**
     * From the injections of the calibrants.
     *
     * @param law fitted to the usual means
     * @param means mean response fitted for each preparation
     * @param squares sum of squares of each preparation's injections about their mean
     * @param counts injections of each preparation
     * @param usual m0
     */
    public static InjectionShare of(
            ScatterLaw law, double[] means, double[] squares, int[] counts, double usual) {
        double sum = 0;
        double freedom = 0;
        for (int i = 0; i < means.length; i++) {
            sum += squares[i] / law.variance(means[i]);
            freedom += counts[i] - 1.0;
        }
        return new InjectionShare(freedom > 0 ? Math.min(usual, sum / freedom) : 0, usual, freedom);
    }

    /** Share of a mean of m injections. */
    public double of(double m) {
        return 1 + lambda * (1 / m - 1 / usual);
    }

    /** Shares of all preparations. */
    double[] of(int[] counts) {
        final double[] shares = new double[counts.length];
        for (int i = 0; i < shares.length; i++) {
            shares[i] = of(counts[i]);
        }
        return shares;
    }
}
