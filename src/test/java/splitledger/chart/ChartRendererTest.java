package splitledger.chart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import javax.xml.XMLConstants;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import splitledger.study.Doubles;
import splitledger.study.Figure;

class ChartRendererTest {

    static List<Figure> figures() {
        return SampleFigures.of("limonene");
    }

    @ParameterizedTest
    @MethodSource("figures")
    void everyFigureIsWellFormedAndSaysWhatItShows(Figure figure) throws Exception {
        final Element svg = parsed(ChartRenderer.svg(figure)).getDocumentElement();

        assertThat(svg.getTagName()).isEqualTo("svg");
        assertThat(svg.getAttribute("viewBox")).isEqualTo("0 0 720 440");
        assertThat(svg.getAttribute("role")).isEqualTo("img");
        assertThat(first(svg, "title").getTextContent()).isEqualTo(figure.title());
        assertThat(first(svg, "desc").getTextContent()).isEqualTo(figure.alternative());
        assertThat(svg.getAttribute("aria-labelledby"))
                .isEqualTo(
                        first(svg, "title").getAttribute("id")
                                + " "
                                + first(svg, "desc").getAttribute("id"));
    }

    @ParameterizedTest
    @MethodSource("figures")
    void theSameFigureGivesTheSameBytesInAnyThread(Figure figure) throws Exception {
        final byte[] here = ChartRenderer.svg(figure);
        final ExecutorService threads = Executors.newFixedThreadPool(4);
        try {
            final List<Callable<byte[]>> calls = new ArrayList<>();
            for (int i = 0; i < 8; i++) {
                calls.add(() -> ChartRenderer.svg(figure));
            }
            for (Future<byte[]> there : threads.invokeAll(calls)) {
                assertThat(there.get()).isEqualTo(here);
            }
        } finally {
            threads.shutdown();
        }
    }

    @ParameterizedTest
    @MethodSource("figures")
    void everyIdBeginsWithThatOfTheFigure(Figure figure) throws Exception {
        final NodeList all = parsed(ChartRenderer.svg(figure)).getElementsByTagName("*");
        for (int i = 0; i < all.getLength(); i++) {
            final String id = ((Element) all.item(i)).getAttribute("id");
            assertThat(id.isEmpty() || id.startsWith("figure-" + figure.id())).as(id).isTrue();
        }
    }

    @Test
    void axesArePrintedWithTheirUnits() throws Exception {
        assertThat(texts(SampleFigures.calibration("c", "limonene")))
                .contains("amount / mg/L", "area ratio / 1", "Calibration of limonene");
    }

    @Test
    void ticksAreThoseOfTheFigureAndNegativeOnesHaveAMinusSign() throws Exception {
        assertThat(texts(SampleFigures.residuals("r", "limonene")))
                .contains("−4", "−3", "−2", "−1", "0", "1", "2", "3", "4")
                .doesNotContain("-1", "0.5", "5");
    }

    @Test
    void textFromOutsideStaysText() throws Exception {
        final Document svg =
                parsed(ChartRenderer.svg(SampleFigures.residuals("r", SampleFigures.HOSTILE)));

        assertThat(svg.getElementsByTagName("script").getLength()).isZero();
        assertThat(svg.getDocumentElement().getTextContent()).contains(SampleFigures.HOSTILE);
    }

    @Test
    void charactersThatXmlCannotHoldAreReplaced() throws Exception {
        final String odd = "a\u0000b\u001B\uD800c\uFFFE";
        final String title =
                first(
                                parsed(ChartRenderer.svg(SampleFigures.calibration("c", odd)))
                                        .getDocumentElement(),
                                "title")
                        .getTextContent();

        assertThat(title).isEqualTo("Calibration of a\uFFFDb\uFFFD\uFFFDc\uFFFD");
    }

    @Test
    void longWordsBesideBarsAreWrappedAtSpaces() throws Exception {
        final List<String> texts = texts(SampleFigures.budget("b", "limonene"));

        assertThat(texts).contains("61 %", "−4.2 %", "intercept");
        assertThat(texts).doesNotContain("recovery of the");
        assertThat(String.join(" ", texts))
                .contains(
                        "precision between days, analysts and instruments, mean of two independent"
                                + " results");
    }

    @Test
    void eitherEveryNameOfALayerIsWrittenOrNone() throws Exception {
        final Figure roomy = SampleFigures.curve("d", "");
        final Figure.Points points = (Figure.Points) roomy.layers().get(2);
        final double[] same = new double[points.x().size()];
        java.util.Arrays.fill(same, 200);
        final Figure crowded =
                new Figure(
                        "d",
                        roomy.characteristic(),
                        "",
                        roomy.title(),
                        roomy.caption(),
                        roomy.alternative(),
                        roomy.x(),
                        roomy.y(),
                        List.of(
                                new Figure.Points(
                                        points.name(),
                                        points.role(),
                                        Doubles.of(same),
                                        points.y(),
                                        points.labels())));

        assertThat(texts(roomy)).containsAll(points.labels());
        assertThat(texts(crowded)).doesNotContainAnyElementsOf(points.labels());
        assertThat(new String(ChartRenderer.svg(crowded), StandardCharsets.UTF_8))
                .as("names as tips")
                .contains("<title>n-C8</title>", "<title>n-C40</title>");
    }

    @Test
    void anAxisThatDoesNotRunUpwardsIsRefused() {
        final Figure good = SampleFigures.calibration("c", "limonene");
        final Figure bad =
                new Figure(
                        "c",
                        "calibration",
                        "",
                        "",
                        "",
                        "",
                        new Figure.Axis("x", "1", 2, 1, List.of()),
                        good.y(),
                        List.of());

        assertThatThrownBy(() -> ChartRenderer.svg(bad))
                .isInstanceOf(IllegalArgumentException.class);
    }

    private static List<String> texts(Figure figure) throws Exception {
        final NodeList nodes = parsed(ChartRenderer.svg(figure)).getElementsByTagName("text");
        final List<String> texts = new ArrayList<>();
        for (int i = 0; i < nodes.getLength(); i++) {
            texts.add(nodes.item(i).getTextContent());
        }
        return texts;
    }

    private static Element first(Element parent, String name) {
        return (Element) parent.getElementsByTagName(name).item(0);
    }

    private static Document parsed(byte[] svg) throws Exception {
        final DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
        factory.setFeature(XMLConstants.FEATURE_SECURE_PROCESSING, true);
        return factory.newDocumentBuilder().parse(new ByteArrayInputStream(svg));
    }
}
