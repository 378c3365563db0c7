package splitledger.statistics;

/**
 * A limit in amount units: a factor times an estimated standard deviation over the slope.
 *
 * @param value the limit, {@code >= 0}
 * @param degreesOfFreedom of the standard deviation in it
 * @param spread the limit's own scatter taken as that of a standard deviation with so many degrees
 *     of freedom: {@code 1/(2 nu') = 1/(2 nu) + (u(b)/b)^2}
 */
public record Limit(double value, double degreesOfFreedom, double spread) {

    /** Another value with the same scatter. */
    Limit times(double factor) {
        return new Limit(value * factor, degreesOfFreedom, spread);
    }

    /** Lower end of the chi-square interval. */
    public double lower(double coverage) {
        return new VarianceEstimate(value * value, spread).sdLower(coverage);
    }

    /** Upper end of the chi-square interval. */
    public double upper(double coverage) {
        return new VarianceEstimate(value * value, spread).sdUpper(coverage);
    }

    /** Standard uncertainty, value / sqrt(2 nu'). */
    public double standardUncertainty() {
        return new VarianceEstimate(value * value, spread).sdUncertainty();
    }
}
