package splitledger.statistics;

/**
 * How often a decision "present above a limit" is wrong under a fitted line and law of scatter:
 * false positive at amount 0, false negative at a claimed amount.
 *
 * @param falsePositive at amount 0
 * @param falseNegative at the claimed amount
 */
public record ErrorRates(Rate falsePositive, Rate falseNegative) {

    /**
     * A probability with what is known of it.
     *
     * @param value expected rate
     * @param standardUncertainty of simulation and of the fitted law together
     * @param lower lower end at the wanted coverage, for the uncertainty of the law
     * @param upper its upper end
     */
    public record Rate(double value, double standardUncertainty, double lower, double upper) {}
}
