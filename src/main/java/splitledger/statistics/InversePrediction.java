package splitledger.statistics;

import splitledger.statistics.Outcome.Reason;

/**
 * The amount that belongs to a mean response y0, by a fitted line.
 *
 * <p>The interval is the set of x with {@code (y0 - a - b x)^2 <= t^2 [v x^power + V_a + 2 x C_ab +
 * x^2 V_b]}, where v x^power is the variance of the mean response at x itself (Fieller's argument:
 * E. C. Fieller, J. R. Stat. Soc. B 16 (1954) 175, from memory); first order beside it: u^2 = [v
 * x0^power + V_a + 2 x0 C_ab + x0^2 V_b] / b^2.
 *
 * @param amount x0 = (y0 - a) / b, in the x-unit
 * @param standardUncertainty to first order, in the x-unit
 * @param lineUncertainty the line's part of it
 * @param responseUncertainty the response's part of it
 * @param lower lower end of the exact set
 * @param upper its upper end
 */
public record InversePrediction(
        double amount,
        double standardUncertainty,
        double lineUncertainty,
        double responseUncertainty,
        double lower,
        double upper) {

    /**
     * What else makes the line uncertain, beside the scatter of the points about it.
     *
     * @param intercept added to V_a
     * @param covariance added to C_ab
     * @param slope added to V_b
     */
    public record Beside(double intercept, double covariance, double slope) {
        /** Nothing else. */
        public static final Beside NOTHING = new Beside(0, 0, 0);

        /** What it adds to the variance of the line at x. */
        public double variance(double x) {
            return intercept + x * (2 * covariance + x * slope);
        }
    }

    /**
     * Predicts from a line whose points' scatter is all that makes it uncertain.
     *
     * @param line the fitted line
     * @param response mean response y0
     * @param responseVariance v, so that the mean response at x has variance v x^power
     * @param t quantile for the wanted coverage
     * @return as of the other form
     */
    public static Outcome<InversePrediction> of(
            LineFit line, double response, double responseVariance, double t) {
        return of(line, response, responseVariance, t, Beside.NOTHING);
    }

    /**
     * Predicts.
     *
     * @param line the fitted line
     * @param response mean response y0
     * @param responseVariance v, so that the mean response at x has variance v x^power
     * @param t quantile for the wanted coverage
     * @param beside what is added to the line's variances
     * @return the prediction; or {@code UNBOUNDED_INTERVAL} if the set is no interval, {@code
     *     NO_FINITE_VALUE} for a slope of 0
     */
    public static Outcome<InversePrediction> of(
            LineFit line, double response, double responseVariance, double t, Beside beside) {
        final double b = line.slope();
        if (b == 0) {
            return Outcome.not(Reason.NO_FINITE_VALUE, "the slope is 0");
        }
        final double d = response - line.intercept();
        // centred form of (y0 - a) / b
        final double amount = line.xMean() + (response - line.yMean()) / b;
        final int power = line.weighting().power();
        final double t2 = t * t;
        final double va = line.interceptVariance() + beside.intercept();
        final double vb = line.slopeVariance() + beside.slope();
        final double cab = line.covariance() + beside.covariance();
        final double quadratic = b * b - t2 * (vb + (power == 2 ? responseVariance : 0));
        final double half = b * d + t2 * (cab + (power == 1 ? responseVariance / 2 : 0));
        final double constant = d * d - t2 * (va + (power == 0 ? responseVariance : 0));
        if (!(quadratic > 0)) {
            final double g = 1 - quadratic / (b * b);
            return Outcome.not(
                    Reason.UNBOUNDED_INTERVAL,
                    (power == 2
                                    ? "slope and response scatter too much (g = "
                                    : "the slope is not told from 0 well enough (g = ")
                            + (float) g
                            + ", must be below 1)");
        }
        final double root = Math.sqrt(Math.max(0, half * half - quadratic * constant));
        // the larger root first, the other from the product: no cancellation
        final double large = half >= 0 ? half + root : half - root;
        final double one = large / quadratic;
        final double other = large != 0 ? constant / large : one;
        final double lineVariance = line.lineVariance(amount) + beside.variance(amount);
        final double scatter = responseVariance * line.weighting().variance(amount);
        return Outcome.of(
                new InversePrediction(
                        amount,
                        Math.sqrt(lineVariance + scatter) / Math.abs(b),
                        Math.sqrt(lineVariance) / Math.abs(b),
                        Math.sqrt(scatter) / Math.abs(b),
                        Math.min(one, other),
                        Math.max(one, other)));
    }
}
