package splitledger.report;

import gg.jte.html.OwaspHtmlTemplateOutput;
import gg.jte.output.StringOutput;
import java.nio.charset.StandardCharsets;
import java.util.List;
import splitledger.report.templates.JteextractGenerated;
import splitledger.report.templates.JtereportGenerated;
import splitledger.study.Evaluation;

/**
 * The page for people: one file that asks for nothing from outside. Its own script sorts tables and
 * names points; nothing that it says needs the script.
 */
final class HtmlReport {
    private HtmlReport() {}

    /** The page of an evaluation, whose figures are drawn as SVG in their order. */
    static Told page(Evaluation evaluation, List<byte[]> drawn, String programVersion) {
        final List<String> figures =
                drawn.stream().map(b -> new String(b, StandardCharsets.UTF_8)).toList();
        final PageBuilder builder = new PageBuilder(evaluation, figures, programVersion);
        final HandbookPart handbook = builder.withHandbook();
        return new Told(builder.page(), handbook);
    }

    /** A page with the ideas of the handbook that it refers to. */
    record Told(Page page, HandbookPart handbook) {}

    /** The whole report. */
    static byte[] bytes(Told told) {
        final StringOutput out = new StringOutput();
        JtereportGenerated.render(
                new OwaspHtmlTemplateOutput(out),
                null,
                told.page(),
                told.handbook().ideas(),
                Wording.Resources.text("report.css"),
                Wording.Resources.text("report.js"));
        return out.toString().getBytes(StandardCharsets.UTF_8);
    }

    /** One page for the customer: results, what U means, what limits their use. */
    static byte[] extract(Evaluation evaluation, Page page, PaperStamp stamp) {
        final StringOutput out = new StringOutput();
        JteextractGenerated.render(
                new OwaspHtmlTemplateOutput(out),
                null,
                page,
                CustomerExtract.of(evaluation, page),
                stamp,
                Wording.Resources.text("report.css"));
        return out.toString().getBytes(StandardCharsets.UTF_8);
    }
}
