package splitledger.report;

import gg.jte.html.OwaspHtmlTemplateOutput;
import gg.jte.output.StringOutput;
import java.nio.charset.StandardCharsets;
import java.util.List;
import splitledger.report.templates.JtetableGenerated;

/**
 * A page with one table, for what is no report of a study. Every text is escaped; the page asks for
 * nothing from outside and runs nothing.
 *
 * @param title heading of the page
 * @param lead paragraphs above the table
 * @param caption of the table
 * @param header one heading a column
 * @param rows as many cells each as the header
 */
public record PlainTable(
        String title, List<String> lead, String caption, List<String> header, List<Row> rows) {
    public PlainTable {
        lead = List.copyOf(lead);
        header = List.copyOf(header);
        rows = List.copyOf(rows);
        for (Row row : rows) {
            if (row.cells().size() != header.size() || row.cells().isEmpty()) {
                throw new IllegalArgumentException(
                        "row has " + row.cells().size() + " cells, the header " + header.size());
            }
        }
    }

    /**
     * One row; its first cell names it.
     *
     * @param marked whether it needs attention
     */
    public record Row(List<String> cells, boolean marked) {
        public Row {
            cells = List.copyOf(cells);
        }
    }

    /** The page. */
    public byte[] html() {
        final StringOutput out = new StringOutput();
        JtetableGenerated.render(new OwaspHtmlTemplateOutput(out), null, this);
        return out.toString().getBytes(StandardCharsets.UTF_8);
    }
}
