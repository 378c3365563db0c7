package splitledger.statistics;

/**
 * An estimated variance, of one random term or a sum of several, with its interval.
 *
 * @param variance {@code >= 0}
 * @param raw before negative estimates were set to 0; equal to {@code variance} under restricted
 *     likelihood, where no estimate is negative
 * @param standardUncertainty of the variance, {@code >= 0}
 * @param degreesOfFreedom 2 variance^2 / standardUncertainty^2 (Satterthwaite); those of the term's
 *     own mean square where the variance is 0
 * @param lower end of the interval of the variance, {@code >= 0}
 * @param upper end of the interval of the variance, at least {@code variance}
 */
public record ScatterComponent(
        double variance,
        double raw,
        double standardUncertainty,
        double degreesOfFreedom,
        double lower,
        double upper) {

    /** Standard deviation. */
    public double sd() {
        return Math.sqrt(variance);
    }

    /** Lower end of the interval of the standard deviation. */
    public double sdLower() {
        return Math.sqrt(lower);
    }

    /** Upper end of the interval of the standard deviation. */
    public double sdUpper() {
        return Math.sqrt(upper);
    }

    /**
     * Standard uncertainty of the standard deviation, u(s^2) / (2 s); of the order of the upper end
     * where s is 0, for there the first order says nothing.
     */
    public double sdUncertainty() {
        return variance > 0 ? standardUncertainty / (2 * sd()) : sdUpper() / 2;
    }

    /** This variance as a share of a sum that holds it; 0 if the sum is 0. */
    public double shareOf(ScatterComponent sum) {
        return sum.variance > 0 ? variance / sum.variance : 0;
    }

    /** Variance and degrees of freedom alone. */
    public VarianceEstimate estimate() {
        return new VarianceEstimate(variance, degreesOfFreedom);
    }
}
