package splitledger.statistics;

/**
 * Where a formula or a value comes from; printed beside every result in the report.
 *
 * @param work title with edition or year
 * @param place clause, chapter, page; empty if the whole work
 */
public record Source(String work, String place) {
    /** Work and place in one line. */
    public String text() {
        return place.isEmpty() ? work : work + ", " + place;
    }
}
