package splitledger.chart;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.stream.IntStream;
import javax.imageio.ImageIO;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import splitledger.study.Figure;

class PngRendererTest {
    private static final int WHITE = 0xFFFFFF;

    static List<Figure> figures() {
        return SampleFigures.of("limonene");
    }

    @ParameterizedTest
    @MethodSource("figures")
    void everyFigureIsPaintedAtTwiceItsSizeOnWhitePaper(Figure figure) throws IOException {
        final BufferedImage image = ImageIO.read(new ByteArrayInputStream(PngRenderer.png(figure)));

        assertThat(image.getWidth()).isEqualTo(1440);
        assertThat(image.getHeight()).isEqualTo(880);
        assertThat(image.getRGB(0, 0) & WHITE).isEqualTo(WHITE);
        // the title stands top left, in near-black
        assertThat(darkest(image, 0, 0, 400, 60)).isLessThan(0x60);
        // and something is drawn in the middle of the data area
        assertThat(darkest(image, 200, 200, 1000, 500)).isLessThan(0xF0);
    }

    private static int darkest(BufferedImage image, int x, int y, int width, int height) {
        return IntStream.of(image.getRGB(x, y, width, height, null, 0, width))
                .map(rgb -> (rgb >> 8) & 0xFF)
                .min()
                .orElseThrow();
    }

    @ParameterizedTest
    @MethodSource("figures")
    void theSameFigureGivesTheSameBytesInAnyThread(Figure figure) throws IOException {
        final byte[] here = PngRenderer.png(figure);

        assertThat(IntStream.range(0, 4).parallel().mapToObj(i -> png(figure)).toList())
                .allSatisfy(there -> assertThat(there).isEqualTo(here));
    }

    @ParameterizedTest
    @MethodSource("figures")
    void titleTextAlternativeAndResolutionAreInTheFile(Figure figure) throws IOException {
        final byte[] bytes = PngRenderer.png(figure);

        assertThat(new String(bytes, StandardCharsets.UTF_8))
                .contains("Title", figure.title(), "Description", figure.alternative());
        final int at = new String(bytes, StandardCharsets.ISO_8859_1).indexOf("pHYs");
        // 192 an inch: 192 / 0.0254 = 7559.06, in points a metre
        assertThat(((bytes[at + 6] & 0xFF) << 8) + (bytes[at + 7] & 0xFF)).isEqualTo(7559);
    }

    private static byte[] png(Figure figure) {
        try {
            return PngRenderer.png(figure);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
