package splitledger.history;

import java.util.List;

/**
 * A value with what its chart says of it. Numbers that do not exist are NaN.
 *
 * @param value the finding
 * @param stretch which stretch of time between limits set anew, from 1
 * @param base whether it helped to set the limits
 * @param centre of its stretch, in the unit of the value, as are the limits
 * @param lower limit
 * @param upper limit
 * @param range moving range, on the chart's scale
 * @param rangeUpper its upper limit
 * @param z deviation from the centre in standard deviations
 * @param average moving average, in the unit of the value; for standard deviations of the deviates
 * @param averageLower its lower limit
 * @param averageUpper its upper limit
 * @param signals what it shows
 */
record ChartPoint(
        DatedValue value,
        int stretch,
        boolean base,
        double centre,
        double lower,
        double upper,
        double range,
        double rangeUpper,
        double z,
        double average,
        double averageLower,
        double averageUpper,
        List<Signal> signals) {
    ChartPoint {
        signals = List.copyOf(signals);
    }

    /** Whether it asks for action. */
    boolean acts() {
        return signals.stream().anyMatch(Signal::act);
    }

    /** Whether it has limits. */
    boolean hasLimits() {
        return Double.isFinite(upper);
    }
}
