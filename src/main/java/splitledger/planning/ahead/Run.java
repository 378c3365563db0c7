package splitledger.planning.ahead;

/**
 * One injection to be made.
 *
 * @param order from 1
 * @param day label
 * @param date ISO 8601
 * @param series what it serves
 * @param preparation solution
 * @param vial of that solution
 * @param number which injection of that solution, from 1
 * @param level label of what was added; empty if nothing is known
 * @param split ratio to be set
 * @param temperature of the inlet, degC
 * @param occasion empty if none
 * @param onColumn whether injected cold onto the column
 * @param note why it stands here; may be empty
 */
public record Run(
        int order,
        String day,
        String date,
        String series,
        String preparation,
        String vial,
        int number,
        String level,
        double split,
        double temperature,
        String occasion,
        boolean onColumn,
        String note) {
    private static final int DIGITS = 4;

    /** Label of the injection in both tables. */
    public String injection() {
        final String digits = Integer.toString(order);
        return "0".repeat(Math.max(0, DIGITS - digits.length())) + digits;
    }
}
