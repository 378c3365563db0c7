package splitledger.report;

import com.openhtmltopdf.extend.FSObjectDrawer;
import com.openhtmltopdf.extend.FSObjectDrawerFactory;
import gg.jte.html.OwaspHtmlTemplateOutput;
import gg.jte.output.StringOutput;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.w3c.dom.Element;
import splitledger.chart.ChartRenderer;
import splitledger.report.templates.JtepaperGenerated;
import splitledger.study.Evaluation;
import splitledger.study.Figure;

/**
 * The page on paper: A4, figures as vectors, an outline of its chapters, title, revision and study
 * digest on every sheet. The same evaluation and stamp give the same bytes, see {@link
 * PaperSheets}.
 */
final class PdfReport {
    /** A drawing is this wide in its own units; less than on the page, so that words stay large. */
    private static final double DRAWN_WIDTH = 580;

    private static final double DRAWN_HEIGHT = 328;

    private PdfReport() {}

    /**
     * The document.
     *
     * @throws IOException if it cannot be made
     */
    static byte[] bytes(Evaluation evaluation, PaperStamp stamp) throws IOException {
        final Page page = new PageBuilder(evaluation, List.of(), stamp.program()).page();
        final StringOutput out = new StringOutput();
        JtepaperGenerated.render(
                new OwaspHtmlTemplateOutput(out),
                null,
                page,
                stamp,
                Wording.Resources.text("paper.css"));
        return PaperSheets.of(
                out.toString(),
                Optional.of(new Drawers(evaluation.figures())),
                new PaperSheets.About(
                        page.title(),
                        page.signed().laboratory(),
                        "Evaluation of gas-chromatography injections, study " + stamp.digest()),
                stamp);
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
