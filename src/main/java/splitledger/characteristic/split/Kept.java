package splitledger.characteristic.split;

import java.util.Optional;
import org.apache.commons.math3.util.FastMath;
import splitledger.propagation.Uncertain;
import splitledger.statistics.GeneralLeastSquares;
import splitledger.statistics.Outcome.NotComputed;
import splitledger.statistics.Quantiles;
import splitledger.study.Answer;
import splitledger.study.Answers;

/**
 * The response kept at one setting, against the reference.
 *
 * @param told the ratio as the table has it
 * @param log logarithm of response times ratio, less that of the reference
 * @param uncertainty of {@code log}
 * @param degreesOfFreedom of {@code uncertainty}; infinite at the reference, which is exact
 * @param parts {@code log} with its causes; without any where there is none
 * @param not why nothing can be said, if so
 */
record Kept(
        double told,
        double log,
        double uncertainty,
        double degreesOfFreedom,
        Uncertain parts,
        Optional<NotComputed<GeneralLeastSquares>> not) {

    /** In percent of the reference. */
    double percent() {
        return 100 * FastMath.exp(log);
    }

    /** The ends of the interval, in percent. */
    double end(double factor) {
        return 100 * FastMath.exp(log + factor * uncertainty);
    }

    /** As a finding gives it; exact at the reference. */
    Answer answer(double coverage) {
        if (not.isPresent()) {
            return Answers.not("%", not.get());
        }
        if (Double.isInfinite(degreesOfFreedom)) {
            return new Answer.Statistic(percent(), "%");
        }
        return scaled(percent(), 1, "%", coverage);
    }

    /**
     * A value in proportion to e^(sign * log), with the interval of the logarithm.
     *
     * @param value the value, in {@code unit}
     * @param sign 1 or -1
     * @param coverage of the interval
     */
    Answer scaled(double value, int sign, String unit, double coverage) {
        final double t = Quantiles.coverageFactor(coverage, degreesOfFreedom);
        final double up = value * FastMath.exp(t * uncertainty);
        final double down = value * FastMath.exp(-t * uncertainty);
        return new Answer.Estimate(
                value,
                unit,
                Math.abs(sign * value * uncertainty),
                degreesOfFreedom,
                down,
                up,
                coverage,
                Answer.Law.ENDS,
                Optional.of(parts.scaled(sign * value, unit).at(value)));
    }
}
