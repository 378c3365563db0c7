package splitledger.intake;

import java.util.List;

/**
 * A table as it lies in its file: headings and cells as text, nothing decided yet.
 *
 * @param file name relative to the protocol
 * @param headings stripped of blanks at their ends
 * @param rows in the order of the file
 * @param cut whether the file holds more rows than were taken
 */
public record Sheet(String file, List<String> headings, List<Row> rows, boolean cut) {
    public Sheet {
        headings = List.copyOf(headings);
        rows = List.copyOf(rows);
    }

    /**
     * One row.
     *
     * @param line in the file, the header being line 1
     * @param cells stripped of blanks at their ends, as many as there are headings
     */
    public record Row(int line, List<String> cells) {
        public Row {
            cells = List.copyOf(cells);
        }
    }
}
