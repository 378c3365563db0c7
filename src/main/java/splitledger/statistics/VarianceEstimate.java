package splitledger.statistics;

/**
 * An estimated variance and its degrees of freedom.
 *
 * @param variance {@code >= 0}
 * @param degreesOfFreedom {@code > 0}
 */
public record VarianceEstimate(double variance, double degreesOfFreedom) {

    /** Standard deviation. */
    public double sd() {
        return Math.sqrt(variance);
    }

    /** Lower end of the equal-tailed chi-square interval of the standard deviation. */
    public double sdLower(double coverage) {
        return Math.sqrt(
                variance
                        * degreesOfFreedom
                        / Quantiles.chiSquare(0.5 + coverage / 2, degreesOfFreedom));
    }

    /** Upper end of the equal-tailed chi-square interval of the standard deviation. */
    public double sdUpper(double coverage) {
        return Math.sqrt(
                variance
                        * degreesOfFreedom
                        / Quantiles.chiSquare(0.5 - coverage / 2, degreesOfFreedom));
    }

    /**
     * Standard uncertainty of the standard deviation, s / sqrt(2 nu), for many degrees of freedom.
     */
    public double sdUncertainty() {
        return sd() / Math.sqrt(2 * degreesOfFreedom);
    }
}
