package splitledger.study;

import java.util.Optional;
import java.util.OptionalDouble;
import splitledger.propagation.Uncertain;

/** What is known of one quantity. */
public sealed interface Answer {

    /** The unit; {@code "1"} if dimensionless. */
    String unit();

    /** Status in files: {@code estimable}, {@code bound-only}, {@code not-estimable}. */
    default String status() {
        return this instanceof Bound
                ? "bound-only"
                : this instanceof NotEstimable ? "not-estimable" : "estimable";
    }

    /**
     * A value with all that belongs to it.
     *
     * @param value in {@code unit}
     * @param unit its unit
     * @param standardUncertainty in {@code unit}, {@code >= 0}
     * @param degreesOfFreedom {@code > 0}, may be infinite
     * @param lower lower end of the two-sided interval
     * @param upper its upper end
     * @param coverage coverage probability of the interval
     * @param law which law the interval follows, needed to judge at another risk
     * @param quantity the value with its roots, where another room may use it
     */
    record Estimate(
            double value,
            String unit,
            double standardUncertainty,
            double degreesOfFreedom,
            double lower,
            double upper,
            double coverage,
            Law law,
            Optional<Uncertain> quantity)
            implements Answer {}

    /** Which law an interval follows. */
    enum Law {
        /** Student t about the value. */
        STUDENT,
        /** Chi-square about a standard deviation or what is proportional to one. */
        CHI_SQUARE,
        /**
         * A standard deviation, or what is proportional to one, given by its two ends; for another
         * probability their ratios to the value are stretched like those of chi-square.
         */
        SPREAD,
        /** Given by its two ends alone. */
        ENDS
    }

    /**
     * One side only.
     *
     * @param value the point value it is the bound of, if it means anything
     * @param lower lower bound, if that is the side
     * @param upper upper bound, if that is the side
     * @param coverage probability with which the bound holds
     * @param reason code of why there is no more
     * @param detail in words
     */
    record Bound(
            OptionalDouble value,
            String unit,
            OptionalDouble lower,
            OptionalDouble upper,
            double coverage,
            String reason,
            String detail)
            implements Answer {}

    /** A number without uncertainty of its own: p, F, r-squared. */
    record Statistic(double value, String unit) implements Answer {}

    /**
     * Nothing, and why.
     *
     * @param reason code
     * @param detail in words with the numbers met and needed
     */
    record NotEstimable(String unit, String reason, String detail) implements Answer {}
}
