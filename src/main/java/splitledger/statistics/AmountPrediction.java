package splitledger.statistics;

/**
 * The amount that belongs to a mean response.
 *
 * @param amount in the x-unit
 * @param standardUncertainty to first order, in the x-unit
 * @param lineUncertainty the fitted mean's part of it
 * @param responseUncertainty the response's part of it
 * @param degreesOfFreedom such that t with these gives {@code factor}; infinite for a normal factor
 * @param factor coverage factor k of the interval
 * @param lower lower end of the set of amounts that the response does not contradict
 * @param upper its upper end
 */
public record AmountPrediction(
        double amount,
        double standardUncertainty,
        double lineUncertainty,
        double responseUncertainty,
        double degreesOfFreedom,
        double factor,
        double lower,
        double upper) {}
