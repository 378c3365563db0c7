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
        String occasion) {}
