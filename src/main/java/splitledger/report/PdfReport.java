package splitledger.report;

import com.openhtmltopdf.extend.FSObjectDrawer;
import com.openhtmltopdf.extend.FSObjectDrawerFactory;
import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.pdfboxout.PdfBoxRenderer;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.util.XRLog;
import gg.jte.html.OwaspHtmlTemplateOutput;
import gg.jte.output.StringOutput;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Calendar;
import java.util.GregorianCalendar;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TimeZone;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDDocumentInformation;
import org.w3c.dom.Element;
import splitledger.chart.BundledFonts;
import splitledger.chart.ChartRenderer;
import splitledger.report.templates.JtepaperGenerated;
import splitledger.study.Evaluation;
import splitledger.study.Figure;

/**
 * The page on paper: A4, figures as vectors, an outline of its chapters, title, revision and study
 * digest on every sheet. The same evaluation and stamp give the same bytes: the document's date is
 * fixed and its identifier comes from the study digest.
 */
final class PdfReport {
    /** A drawing is this wide in its own units; less than on the page, so that words stay large. */
    private static final double DRAWN_WIDTH = 580;

    private static final double DRAWN_HEIGHT = 328;
    private static final int HEX = 16;
    private static final int DIGITS_OF_LONG = 15;

    private PdfReport() {}

    /**
     * The document.
     *
     * @throws IOException if it cannot be made
     */
    static byte[] bytes(Evaluation evaluation, PaperStamp stamp) throws IOException {
        BundledFonts.prepare();
        XRLog.setLoggingEnabled(false);
        final Page page = new PageBuilder(evaluation, List.of(), stamp.program()).page();
        final StringOutput out = new StringOutput();
        JtepaperGenerated.render(
                new OwaspHtmlTemplateOutput(out),
                null,
                page,
                stamp,
                Wording.Resources.text("paper.css"));
        final PdfRendererBuilder builder =
                new PdfRendererBuilder()
                        .withW3cDocument(PaperDocument.of(out.toString()), null)
                        .useUriResolver((base, uri) -> null)
                        .useObjectDrawerFactory(new Drawers(evaluation.figures()))
                        .usePdfUaAccessibility(true)
                        .withProducer("splitledger " + stamp.program());
        fonts(builder);
        final ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (PdfBoxRenderer renderer = builder.buildPdfRenderer()) {
            renderer.layout();
            try (PDDocument document = renderer.createPDFKeepOpen()) {
                describe(document, page, stamp);
                document.save(bytes);
            }
        }
        return bytes.toByteArray();
    }

    private static void fonts(PdfRendererBuilder builder) {
        font(builder, "DejaVuSansCondensed.ttf", "Page", 400, FontStyle.NORMAL);
        font(builder, "DejaVuSansCondensed-Bold.ttf", "Page", 700, FontStyle.NORMAL);
        font(builder, "DejaVuSansCondensed-Oblique.ttf", "Page", 400, FontStyle.ITALIC);
        font(builder, "DejaVuSansMono.ttf", "Formula", 400, FontStyle.NORMAL);
        font(builder, "DejaVuSansMono-Bold.ttf", "Formula", 700, FontStyle.NORMAL);
        // what code and preformatted text ask for
        font(builder, "DejaVuSansMono.ttf", "monospace", 400, FontStyle.NORMAL);
        font(builder, "DejaVuSansMono-Bold.ttf", "monospace", 700, FontStyle.NORMAL);
        font(builder, "DejaVuSans.ttf", "DejaVu Sans", 400, FontStyle.NORMAL);
        font(builder, "DejaVuSans-Bold.ttf", "DejaVu Sans", 700, FontStyle.NORMAL);
    }

    private static void font(
            PdfRendererBuilder builder, String file, String family, int weight, FontStyle style) {
        builder.useFont(() -> BundledFonts.open(file), family, weight, style, true);
    }

    private static void describe(PDDocument document, Page page, PaperStamp stamp) {
        final PDDocumentInformation about = document.getDocumentInformation();
        final Calendar fixed = new GregorianCalendar(TimeZone.getTimeZone("UTC"), Locale.ROOT);
        fixed.clear();
        fixed.set(2000, Calendar.JANUARY, 1);
        about.setCreationDate(fixed);
        about.setModificationDate(fixed);
        about.setTitle(page.title());
        about.setAuthor(page.signed().laboratory());
        about.setSubject("Evaluation of gas-chromatography injections, study " + stamp.digest());
        about.setCreator("splitledger " + stamp.program() + ", revision " + stamp.revision());
        document.setDocumentId(
                Long.parseUnsignedLong(stamp.digest().substring(0, DIGITS_OF_LONG), HEX));
        document.getDocumentCatalog().setLanguage("en-GB");
    }

    /** Draws the figures where the page leaves room for them. */
    private static final class Drawers implements FSObjectDrawerFactory {
        private final List<Figure> figures;

        Drawers(List<Figure> figures) {
            this.figures = figures;
        }

        @Override
        public boolean isReplacedObject(Element e) {
            return e.getAttribute("type").equals("figure");
        }

        @Override
        public FSObjectDrawer createDrawer(Element e) {
            final Figure figure = figures.get(Integer.parseInt(e.getAttribute("data-index")));
            return (element, x, y, width, height, device, context, dotsPerPixel) -> {
                final double across = width / dotsPerPixel;
                device.drawWithGraphics(
                        (float) x,
                        (float) y,
                        (float) across,
                        (float) (height / dotsPerPixel),
                        g2 -> {
                            g2.scale(across / DRAWN_WIDTH, across / DRAWN_WIDTH);
                            ChartRenderer.draw(figure, g2, DRAWN_WIDTH, DRAWN_HEIGHT);
                        });
                return Map.of();
            };
        }
    }
}
