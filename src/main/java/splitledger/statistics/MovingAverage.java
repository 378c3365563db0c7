package splitledger.statistics;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.util.FastMath;

/**
 * The exponentially weighted moving average E(t) = w x(t) + (1 - w) E(t-1), begun at the centre,
 * with the limits that hold at each time: Var E(t) = w^2 sum (1-w)^(2(t-j)) sd(j)^2, which is sd^2
 * w/(2-w) (1 - (1-w)^(2t)) where all values scatter alike. Source: NIST/SEMATECH e-Handbook of
 * Statistical Methods, 6.3.2.4 (limits for long series); Montgomery, Introduction to Statistical
 * Quality Control (exact limits, run lengths). Both from memory.
 */
public final class MovingAverage {
    /** Weight of the newest value. */
    public static final double WEIGHT = 0.2;

    /**
     * How many of its standard deviations a limit lies from the centre: with {@link #WEIGHT}, one
     * false signal in 500 values on average (Lucas and Saccucci, Technometrics 32 (1990) 1, from
     * memory).
     */
    public static final double WIDTH = 2.962;

    private MovingAverage() {}

    /**
     * One time.
     *
     * @param value the average, in the unit of the values
     * @param lower its lower limit
     * @param upper its upper limit
     */
    public record Step(double value, double lower, double upper) {
        /** -1 below the limits, 1 above, 0 within. */
        public int outside() {
            return value > upper ? 1 : value < lower ? -1 : 0;
        }
    }

    /**
     * All times of a series.
     *
     * @param values in order of time, finite
     * @param sd of each value, {@code >= 0}, as many
     * @param centre where it begins, in the same unit
     * @param weight of the newest value, above 0 and at most 1
     * @param width in standard deviations of the average
     * @throws IllegalArgumentException if the arrays differ in length or the weight is no weight
     */
    public static List<Step> of(
            double[] values, double[] sd, double centre, double weight, double width) {
        if (values.length != sd.length) {
            throw new IllegalArgumentException(
                    "sd has " + sd.length + " numbers, must have " + values.length);
        }
        if (!(weight > 0 && weight <= 1)) {
            throw new IllegalArgumentException("weight = " + weight + ", must be in (0, 1]");
        }
        final List<Step> steps = new ArrayList<>();
        double average = centre;
        double variance = 0;
        for (int i = 0; i < values.length; i++) {
            average = weight * values[i] + (1 - weight) * average;
            variance = weight * weight * sd[i] * sd[i] + (1 - weight) * (1 - weight) * variance;
            final double half = width * FastMath.sqrt(variance);
            steps.add(new Step(average, centre - half, centre + half));
        }
        return List.copyOf(steps);
    }
}
