package splitledger.report;

import gg.jte.html.OwaspHtmlTemplateOutput;
import gg.jte.output.StringOutput;
import java.io.IOException;
import java.util.List;
import java.util.Optional;
import splitledger.report.Page.Fact;
import splitledger.report.templates.JtepaperrecordGenerated;

/**
 * A record to be signed that is no report of a study: facts, a statement that is filled in by hand,
 * tables. On every sheet stand title, program version, a digest and the page's number of all.
 *
 * @param title of the record
 * @param facts what was tried and where
 * @param lead what came out and what it means, a paragraph each
 * @param statement what the competent person fills in by hand, a line each
 * @param heading of the tables
 * @param widths of the columns of every table, in percent
 * @param tables each with a heading of its own
 * @param digestOf what the stamp's digest is of
 */
public record PaperRecord(
        String title,
        List<Fact> facts,
        List<String> lead,
        List<String> statement,
        String heading,
        List<Integer> widths,
        List<PlainTable> tables,
        String digestOf) {
    public PaperRecord {
        facts = List.copyOf(facts);
        lead = List.copyOf(lead);
        statement = List.copyOf(statement);
        widths = List.copyOf(widths);
        tables = List.copyOf(tables);
        for (PlainTable table : tables) {
            if (table.header().size() != widths.size()) {
                throw new IllegalArgumentException(
                        "table "
                                + table.title()
                                + " has "
                                + table.header().size()
                                + " columns, "
                                + widths.size()
                                + " widths are given");
            }
        }
    }

    /**
     * The record as PDF. The same record and stamp give the same bytes.
     *
     * @throws IOException if it cannot be made
     */
    public byte[] pdf(PaperStamp stamp) throws IOException {
        final StringOutput out = new StringOutput();
        JtepaperrecordGenerated.render(
                new OwaspHtmlTemplateOutput(out),
                null,
                this,
                stamp,
                Wording.Resources.text("paper.css"));
        return PaperSheets.of(
                out.toString(),
                Optional.empty(),
                new PaperSheets.About(title, "", digestOf + " " + stamp.digest()),
                stamp);
    }
}
