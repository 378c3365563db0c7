package splitledger.qualification;

/**
 * One number that is known from elsewhere.
 *
 * @param id unique
 * @param study that gives it; {@code tables} for a function of the mathematics alone
 * @param source where the expected value comes from, or {@code worked by hand}
 * @param characteristic of the finding
 * @param compound of the finding; {@code *} for the one the study has
 * @param condition of the finding, as results.csv writes it
 * @param quantity of the finding
 * @param method of the finding; empty for the one there is
 * @param cell which number of the finding: {@code value}, {@code squared} (its square), {@code
 *     standard_uncertainty}, {@code relative_uncertainty}, {@code degrees_of_freedom}, {@code
 *     lower}, {@code upper}; or {@code reason}, the word that says why there is none
 * @param expected as it was published
 * @param tolerance how far the computed number may be away: half a unit of the last published digit
 *     unless the source says why more
 */
public record ReferenceCase(
        String id,
        String study,
        String source,
        String characteristic,
        String compound,
        String condition,
        String quantity,
        String method,
        String cell,
        String expected,
        double tolerance) {

    /** What is computed, in words for people. */
    public String what() {
        final String where = condition.isEmpty() ? "" : " (" + condition.replace(";", ", ") + ")";
        return quantity + where + (cell.equals("value") ? "" : ", " + cell.replace('_', ' '));
    }
}
