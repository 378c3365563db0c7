package splitledger.statistics;

import org.apache.commons.math3.distribution.FDistribution;

/** Quantiles of F, polished like those of {@link Quantiles}. */
final class FisherQuantiles {
    private static final int STEPS = 8;
    private static final double CONVERGED = 1e-14;

    private FisherQuantiles() {}

    /**
     * Quantile of F.
     *
     * @param p between 0 and 1, ends excluded
     * @param numerator degrees of freedom, {@code > 0}, not infinite
     * @param denominator degrees of freedom, {@code > 0}, may be infinite
     */
    static double of(double p, double numerator, double denominator) {
        Checks.between("p", p, 0, 1);
        if (Double.isInfinite(denominator)) {
            return Quantiles.chiSquare(p, numerator) / numerator;
        }
        if (p > 0.5) {
            return 1 / of(1 - p, denominator, numerator);
        }
        final FDistribution law = new FDistribution(null, numerator, denominator, 1e-12);
        double x = law.inverseCumulativeProbability(p);
        for (int i = 0; i < STEPS; i++) {
            final double density = law.density(x);
            final double step = (law.cumulativeProbability(x) - p) / density;
            if (!(density > 0) || !Double.isFinite(step) || step >= x) {
                return x;
            }
            x -= step;
            if (!(Math.abs(step) > CONVERGED * x)) {
                return x;
            }
        }
        return x;
    }
}
