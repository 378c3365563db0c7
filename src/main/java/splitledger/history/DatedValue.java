package splitledger.history;

/**
 * One finding of one study with its time: what a table of many studies holds in a row.
 *
 * @param instrument id as the protocol states it
 * @param time of the study, ISO 8601; see {@link StudyTime}
 * @param dossier where it was found
 * @param characteristic id
 * @param compound empty for all together
 * @param condition {@code name=value} joined by {@code ;}
 * @param quantity its name
 * @param method how it was found
 * @param unit of value, uncertainty and interval
 * @param value NaN if there is none
 * @param standardUncertainty NaN if there is none
 * @param degreesOfFreedom NaN if there are none, may be infinite
 * @param lower end of its interval; NaN if there is none
 * @param upper end of its interval; NaN if there is none
 * @param reason why there is no value; empty if there is one
 */
public record DatedValue(
        String instrument,
        String time,
        String dossier,
        String characteristic,
        String compound,
        String condition,
        String quantity,
        String method,
        String unit,
        double value,
        double standardUncertainty,
        double degreesOfFreedom,
        double lower,
        double upper,
        String reason) {

    /** Whether it has a value. */
    boolean isGiven() {
        return Double.isFinite(value);
    }

    /** Its time in days since 1970. */
    double days() {
        return StudyTime.days(time).orElse(Double.NaN);
    }
}
