package splitledger.statistics;

import splitledger.statistics.Outcome.Reason;

/**
 * All x that a response y0 does not contradict, for a line: {@code (y0 - a - b x)^2 <= k^2 [share
 * (s0^2 + s1^2 (a + b x)^2) + V_a + 2 x C_ab + x^2 V_b]}. The scatter is that at x itself and still
 * quadratic in x, so the ends are roots of a quadratic (E. C. Fieller, J. R. Stat. Soc. B 16 (1954)
 * 175, from memory). Written about x0 = (y0 - a)/b, where the left side is (b u)^2, so that nothing
 * cancels.
 *
 * @param lower smaller root
 * @param upper larger root
 */
record FiellerSet(double lower, double upper) {

    /**
     * The set of a line.
     *
     * @param lineVariance variance of the line at x0
     * @param slopeCovariance covariance of the line at x0 with the slope
     * @return the set; {@code UNBOUNDED_INTERVAL} if it is no interval
     */
    static Outcome<FiellerSet> of(
            double x0,
            double response,
            double slope,
            double lineVariance,
            double slopeCovariance,
            double slopeVariance,
            ScatterLaw law,
            double share,
            double factor) {
        final double k2 = factor * factor;
        final double part = share * law.proportional();
        final double quadratic = slope * slope * (1 - k2 * part) - k2 * slopeVariance;
        if (!(quadratic > 0)) {
            final double g = 1 - quadratic / (slope * slope);
            return Outcome.not(
                    Reason.UNBOUNDED_INTERVAL,
                    "slope and response scatter too much (g = " + (float) g + ", must be below 1)");
        }
        final double half = k2 * (slopeCovariance + part * response * slope);
        final double constant = k2 * (share * law.variance(response) + lineVariance);
        final double root = Math.sqrt(half * half + quadratic * constant);
        // the root of larger size first, the other from the product, which is -constant/quadratic
        final double large = half >= 0 ? half + root : half - root;
        final double one = large / quadratic;
        final double other = large == 0 ? 0 : -constant / large;
        return Outcome.of(new FiellerSet(x0 + Math.min(one, other), x0 + Math.max(one, other)));
    }
}
