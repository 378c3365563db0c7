package splitledger.report;

import com.openhtmltopdf.extend.FSObjectDrawerFactory;
import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.pdfboxout.PdfBoxRenderer;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.util.XRLog;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Calendar;
import java.util.GregorianCalendar;
import java.util.Locale;
import java.util.Optional;
import java.util.TimeZone;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDDocumentInformation;
import splitledger.chart.BundledFonts;

/**
 * Sets a rendered page on sheets of A4, with the bundled fonts, an outline of its headings and a
 * description of the document. The same page and stamp give the same bytes: the document's date is
 * fixed and its identifier comes from the digest.
 */
final class PaperSheets {
    private static final int HEX = 16;
    private static final int DIGITS_OF_LONG = 15;

    private PaperSheets() {}

    /**
     * What the document says of itself.
     *
     * @param author the laboratory; empty if unknown
     */
    record About(String title, String author, String subject) {}

    /**
     * The document.
     *
     * @param rendered well-formed, without a document type
     * @param drawers of what stands on the page as an object
     * @throws IOException if it cannot be made
     */
    static byte[] of(
            String rendered, Optional<FSObjectDrawerFactory> drawers, About about, PaperStamp stamp)
            throws IOException {
        BundledFonts.prepare();
        XRLog.setLoggingEnabled(false);
        final PdfRendererBuilder builder =
                new PdfRendererBuilder()
                        .withW3cDocument(PaperDocument.of(rendered), null)
                        .useUriResolver((base, uri) -> null)
                        .usePdfUaAccessibility(true)
                        .withProducer("splitledger " + stamp.program());
        drawers.ifPresent(builder::useObjectDrawerFactory);
        fonts(builder);
        final ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (PdfBoxRenderer renderer = builder.buildPdfRenderer()) {
            renderer.layout();
            try (PDDocument document = renderer.createPDFKeepOpen()) {
                describe(document, about, stamp);
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

    private static void describe(PDDocument document, About about, PaperStamp stamp) {
        final PDDocumentInformation said = document.getDocumentInformation();
        final Calendar fixed = new GregorianCalendar(TimeZone.getTimeZone("UTC"), Locale.ROOT);
        fixed.clear();
        fixed.set(2000, Calendar.JANUARY, 1);
        said.setCreationDate(fixed);
        said.setModificationDate(fixed);
        said.setTitle(about.title());
        said.setAuthor(about.author());
        said.setSubject(about.subject());
        said.setCreator("splitledger " + stamp.program() + ", revision " + stamp.revision());
        document.setDocumentId(
                Long.parseUnsignedLong(stamp.digest().substring(0, DIGITS_OF_LONG), HEX));
        document.getDocumentCatalog().setLanguage("en-GB");
    }
}
