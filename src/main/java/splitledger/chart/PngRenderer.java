package splitledger.chart;

import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.List;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageTypeSpecifier;
import javax.imageio.ImageWriter;
import javax.imageio.metadata.IIOMetadata;
import javax.imageio.metadata.IIOMetadataNode;
import javax.imageio.stream.MemoryCacheImageOutputStream;
import splitledger.study.Figure;

/**
 * Paints figures in points: the drawing of {@link ChartRenderer} at twice its size, with the
 * bundled font, title and text alternative inside the file. Thread-safe; the same figure gives the
 * same bytes with one Java, another may smooth edges otherwise.
 */
public final class PngRenderer {
    /** Points for each unit of the drawing, across and down. */
    public static final int SCALE = 2;

    /** 192 points an inch, as points a metre: an inch is 0.0254 m by definition. */
    private static final int POINTS_A_METRE = (int) Math.round(96 * SCALE / 0.0254);

    private static final String FORM = "javax_imageio_png_1.0";

    private PngRenderer() {}

    /**
     * A figure as PNG, {@link ChartRenderer#WIDTH} by {@link ChartRenderer#HEIGHT} units.
     *
     * @param figure its axes must run upwards ({@code from < to})
     * @throws IOException if the picture cannot be encoded
     */
    public static byte[] png(Figure figure) throws IOException {
        BundledFonts.prepare();
        final BufferedImage image =
                new BufferedImage(
                        ChartRenderer.WIDTH * SCALE,
                        ChartRenderer.HEIGHT * SCALE,
                        BufferedImage.TYPE_INT_RGB);
        final Graphics2D g2 = image.createGraphics();
        try {
            g2.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
            g2.setRenderingHint(
                    RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
            g2.setRenderingHint(
                    RenderingHints.KEY_FRACTIONALMETRICS,
                    RenderingHints.VALUE_FRACTIONALMETRICS_ON);
            g2.setPaint(HouseStyle.PAPER);
            g2.fillRect(0, 0, image.getWidth(), image.getHeight());
            g2.scale(SCALE, SCALE);
            ChartRenderer.draw(figure, g2, ChartRenderer.WIDTH, ChartRenderer.HEIGHT);
        } finally {
            g2.dispose();
        }
        return encoded(image, figure);
    }

    private static byte[] encoded(BufferedImage image, Figure figure) throws IOException {
        final ImageWriter writer = ImageIO.getImageWritersByFormatName("png").next();
        final ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (MemoryCacheImageOutputStream out = new MemoryCacheImageOutputStream(bytes)) {
            final IIOMetadata about =
                    writer.getDefaultImageMetadata(
                            ImageTypeSpecifier.createFromRenderedImage(image),
                            writer.getDefaultWriteParam());
            about.mergeTree(FORM, described(figure));
            writer.setOutput(out);
            writer.write(about, new IIOImage(image, List.of(), about), null);
        } finally {
            writer.dispose();
        }
        return bytes.toByteArray();
    }

    private static IIOMetadataNode described(Figure figure) {
        final IIOMetadataNode resolution = new IIOMetadataNode("pHYs");
        resolution.setAttribute("pixelsPerUnitXAxis", Integer.toString(POINTS_A_METRE));
        resolution.setAttribute("pixelsPerUnitYAxis", Integer.toString(POINTS_A_METRE));
        resolution.setAttribute("unitSpecifier", "meter");
        final IIOMetadataNode texts = new IIOMetadataNode("iTXt");
        texts.appendChild(text("Title", figure.title()));
        texts.appendChild(text("Description", figure.alternative()));
        final IIOMetadataNode all = new IIOMetadataNode(FORM);
        all.appendChild(resolution);
        all.appendChild(texts);
        return all;
    }

    private static IIOMetadataNode text(String keyword, String words) {
        final IIOMetadataNode entry = new IIOMetadataNode("iTXtEntry");
        entry.setAttribute("keyword", keyword);
        entry.setAttribute("compressionFlag", "FALSE");
        entry.setAttribute("compressionMethod", "0");
        entry.setAttribute("languageTag", "en");
        entry.setAttribute("translatedKeyword", "");
        entry.setAttribute("text", XmlText.clean(words));
        return entry;
    }
}
