package splitledger.study;

import java.util.Optional;
import splitledger.propagation.Uncertain;
import splitledger.statistics.Outcome.NotComputed;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.Quantiles;
import splitledger.statistics.ScatterComponent;
import splitledger.statistics.VarianceEstimate;

/** Makes answers of the usual laws. */
public final class Answers {
    private Answers() {}

    /** A value with a t interval from its pools. */
    public static Answer student(Uncertain x, double coverage) {
        final double df = x.degreesOfFreedom();
        final double half = Quantiles.coverageFactor(coverage, df) * x.standardUncertainty();
        return new Answer.Estimate(
                x.value(),
                x.unit(),
                x.standardUncertainty(),
                df,
                x.value() - half,
                x.value() + half,
                coverage,
                Answer.Law.STUDENT,
                Optional.of(x));
    }

    /** A value with a t interval. */
    public static Answer student(double value, String unit, double u, double df, double coverage) {
        final double half = Quantiles.coverageFactor(coverage, df) * u;
        return new Answer.Estimate(
                value,
                unit,
                u,
                df,
                value - half,
                value + half,
                coverage,
                Answer.Law.STUDENT,
                Optional.empty());
    }

    /**
     * A value with a t interval whose uncertainty and degrees of freedom are those of its fit.
     *
     * @param x the value with its causes, which give the same uncertainty
     */
    public static Answer student(double value, double u, double df, double coverage, Uncertain x) {
        final double half = Quantiles.coverageFactor(coverage, df) * u;
        return new Answer.Estimate(
                value,
                x.unit(),
                u,
                df,
                value - half,
                value + half,
                coverage,
                Answer.Law.STUDENT,
                Optional.of(x));
    }

    /** A standard deviation times a factor taken as known, with its chi-square interval. */
    public static Answer sd(VarianceEstimate v, double factor, String unit, double coverage) {
        return new Answer.Estimate(
                factor * v.sd(),
                unit,
                factor * v.sdUncertainty(),
                v.degreesOfFreedom(),
                factor * v.sdLower(coverage),
                factor * v.sdUpper(coverage),
                coverage,
                Answer.Law.CHI_SQUARE,
                Optional.empty());
    }

    /**
     * A standard deviation, with the interval that was found for it, times a factor taken as known.
     */
    public static Answer spread(ScatterComponent v, double factor, String unit, double coverage) {
        return spread(
                factor * v.sd(),
                unit,
                factor * v.sdUncertainty(),
                v.degreesOfFreedom(),
                factor * v.sdLower(),
                factor * v.sdUpper(),
                coverage);
    }

    /** A standard deviation, or what is proportional to one, with the two ends of its interval. */
    public static Answer spread(
            double value,
            String unit,
            double u,
            double df,
            double lower,
            double upper,
            double coverage) {
        if (Double.isInfinite(upper)) {
            return not(
                    unit,
                    Reason.UNBOUNDED_INTERVAL,
                    "nothing in the data bounds it from above; at least " + Trail.digits(lower));
        }
        return new Answer.Estimate(
                value, unit, u, df, lower, upper, coverage, Answer.Law.SPREAD, Optional.empty());
    }

    /** A value given with the two ends of its interval. */
    public static Answer ends(Uncertain x, double lower, double upper, double coverage) {
        return new Answer.Estimate(
                x.value(),
                x.unit(),
                x.standardUncertainty(),
                x.degreesOfFreedom(),
                lower,
                upper,
                coverage,
                Answer.Law.ENDS,
                Optional.of(x));
    }

    /** Nothing, and why. */
    public static Answer not(String unit, Reason reason, String detail) {
        return new Answer.NotEstimable(unit, reason.code(), detail);
    }

    /** Nothing, for the reason of an outcome. */
    public static Answer not(String unit, NotComputed<?> outcome) {
        return not(unit, outcome.reason(), outcome.detail());
    }
}
