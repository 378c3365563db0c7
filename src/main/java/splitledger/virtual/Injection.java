package splitledger.virtual;

import java.time.LocalDateTime;

/**
 * One planned injection.
 *
 * @param label as in both tables
 * @param order from 1
 * @param experiment series
 * @param number which injection of its flask, from 1; with {@code flask} the name of its random
 *     streams
 * @param split ratio set, total to column
 * @param setUp name of the setting of the ratio: injections of one set-up share its error
 * @param temperature of the inlet, degC
 * @param instrument its label; empty if there is but one
 * @param onColumn whether it went onto the column cold
 * @param fate what became of it
 */
public record Injection(
        String label,
        int order,
        LocalDateTime acquired,
        String experiment,
        Flask flask,
        int number,
        double split,
        String setUp,
        double temperature,
        String day,
        String analyst,
        String occasion,
        String instrument,
        boolean onColumn,
        Fate fate) {

    /**
     * What became of an injection.
     *
     * @param missing whether there is no chromatogram
     * @param stoppedAt peaks that boil above this were not waited for, degC; infinite if the run
     *     was not stopped
     */
    public record Fate(boolean missing, double stoppedAt) {
        /** Nothing went wrong. */
        static final Fate WELL = new Fate(false, Double.POSITIVE_INFINITY);

        /** Whether the run was stopped before its end. */
        public boolean stopped() {
            return stoppedAt < Double.POSITIVE_INFINITY;
        }
    }
}
