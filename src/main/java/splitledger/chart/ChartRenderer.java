package splitledger.chart;

import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import org.jfree.svg.SVGGraphics2D;
import org.jfree.svg.ViewBox;
import splitledger.study.Figure;

/**
 * Draws figures. Thread-safe; the same figure gives the same bytes in every thread and on every
 * machine.
 */
public final class ChartRenderer {
    /** Width of every chart, in units of its view box. */
    public static final int WIDTH = 720;

    /** Height of every chart, in units of its view box. */
    public static final int HEIGHT = 440;

    private static final String FONT_STACK =
            "DejaVu Sans, Bitstream Vera Sans, Verdana, sans-serif";

    private ChartRenderer() {}

    /**
     * A figure as one SVG element that can stand alone as a file or inside a page: {@code role} is
     * {@code img}, title and description are the figure's title and text alternative, every id
     * begins with the figure's own.
     *
     * @param figure its axes must run upwards ({@code from < to})
     * @return UTF-8 with a final line feed
     * @throws IllegalArgumentException if an axis does not run upwards
     */
    public static byte[] svg(Figure figure) {
        BundledFonts.prepare();
        return element(figure).getBytes(StandardCharsets.UTF_8);
    }

    /**
     * Draws a figure elsewhere, in the same style; {@link BundledFonts#prepare()} must have been
     * called.
     *
     * @param figure its axes must run upwards ({@code from < to})
     * @param width of the drawing, in units of {@code g2}
     * @param height of the drawing, in units of {@code g2}
     */
    public static void draw(Figure figure, Graphics2D g2, double width, double height) {
        ChartAssembly.of(figure).draw(g2, new Rectangle2D.Double(0, 0, width, height));
    }

    private static String element(Figure figure) {
        final String id = idOf(figure);
        final SVGGraphics2D g2 = new SVGGraphics2D(WIDTH, HEIGHT);
        g2.setDefsKeyPrefix(id + "-");
        g2.setGeomDoubleConverter(d -> decimals(d, 2));
        g2.setTransformDoubleConverter(d -> decimals(d, 4));
        g2.setFontFunction(family -> FONT_STACK);
        ChartAssembly.of(figure).draw(g2, new Rectangle2D.Double(0, 0, WIDTH, HEIGHT));
        final String drawn =
                g2.getSVGElement(id, true, new ViewBox(0, 0, WIDTH, HEIGHT), null, null);
        final String opening = "<svg ";
        final int body = drawn.indexOf('>') + 1;
        if (!drawn.startsWith(opening) || body == 0) {
            throw new IllegalStateException("the chart library wrote no svg element");
        }
        return opening
                + "role=\"img\" aria-labelledby=\""
                + id
                + "-title "
                + id
                + "-desc\" "
                + drawn.substring(opening.length(), body)
                + "<title id=\""
                + id
                + "-title\">"
                + XmlText.escaped(figure.title())
                + "</title><desc id=\""
                + id
                + "-desc\">"
                + XmlText.escaped(figure.alternative())
                + "</desc>"
                + drawn.substring(body).stripTrailing()
                + "\n";
    }

    /** The figure's id with every character that an XML name cannot hold as a hyphen. */
    private static String idOf(Figure figure) {
        return "figure-" + figure.id().replaceAll("[^A-Za-z0-9_.-]", "-");
    }

    /** Fixed decimals without trailing zeros, the same on every machine. */
    private static String decimals(double value, int places) {
        final long scale = places == 2 ? 100 : 10_000;
        final long rounded = Math.round(value * scale);
        final long whole = Math.abs(rounded) / scale;
        final long rest = Math.abs(rounded) % scale;
        final String sign = rounded < 0 ? "-" : "";
        if (rest == 0) {
            return sign + whole;
        }
        final String fraction = String.format(Locale.ROOT, "%0" + places + "d", rest);
        return sign + whole + "." + fraction.replaceAll("0+$", "");
    }
}
