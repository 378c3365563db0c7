package splitledger.chart;

import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import splitledger.chart.LayerRenderer.Scale;
import splitledger.study.Figure;

/** Horizontal bars with a text at the end of each; a line feed begins a new line of it. */
final class BarPainter {
    private static final double THICKNESS = 0.66;
    private static final double MOST = 34;
    private static final double GAP = 6;
    private static final double LINE = 1.2;

    private BarPainter() {}

    /**
     * Draws the bars of one layer.
     *
     * @param nth which of several layers of bars, from 0
     * @param layers how many there are; they share the room of a category
     */
    static void bars(Graphics2D g2, Scale scale, Figure.Bars bars, int nth, int layers) {
        final double zero = scale.x(0);
        final double slot = Math.min(MOST, (scale.y(2) - scale.y(1)) * THICKNESS);
        final double thick = slot / layers;
        final Font font = BundledFonts.plain(HouseStyle.TICK_SIZE);
        for (int i = 0; i < bars.lengths().size(); i++) {
            final double length = bars.lengths().at(i);
            if (!Double.isFinite(length)) {
                continue;
            }
            final double end = scale.x(length);
            final double top = scale.y(i + 1) - slot / 2 + nth * thick;
            final Rectangle2D bar =
                    new Rectangle2D.Double(Math.min(zero, end), top, Math.abs(end - zero), thick);
            g2.setPaint(HouseStyle.bar(length < 0));
            g2.fill(bar);
            g2.setPaint(HouseStyle.GREY);
            g2.setStroke(HouseStyle.hairline());
            g2.draw(bar);
            text(g2, scale, font, bars.texts().get(i), end, top + thick / 2);
        }
        g2.setPaint(HouseStyle.INK);
        g2.draw(new Line2D.Double(zero, scale.area().getMinY(), zero, scale.area().getMaxY()));
    }

    /** Beside the end of the bar; where the chart ends first, inside the bar. */
    private static void text(
            Graphics2D g2, Scale scale, Font font, String text, double end, double middle) {
        final List<String> lines = text.lines().toList();
        final double height = font.getSize2D() * LINE;
        for (int l = 0; l < lines.size(); l++) {
            final double place = middle + (l - (lines.size() - 1) / 2.0) * height;
            line(g2, scale, font, XmlText.clean(lines.get(l)), end, place);
        }
    }

    private static void line(
            Graphics2D g2, Scale scale, Font font, String text, double end, double middle) {
        final double width = TextFit.width(text, font);
        final double zero = scale.x(0);
        final double right = Math.max(end, zero) + GAP;
        final double most = scale.area().getMaxX() - 2;
        final boolean beside = right + width <= most;
        final boolean within = !beside && end - zero >= width + 2 * GAP;
        final double x =
                beside
                        ? right
                        : within
                                ? Math.min(end - GAP, most) - width
                                : Math.max(scale.area().getMinX() + 2, most - width);
        final double base = middle + font.getSize2D() * 0.36;
        if (!beside) {
            g2.setPaint(within ? HouseStyle.bar(false) : HouseStyle.PAPER);
            g2.fill(
                    new Rectangle2D.Double(
                            x - 2, base - font.getSize2D() * 0.86, width + 4, font.getSize2D()));
        }
        g2.setFont(font);
        g2.setPaint(HouseStyle.INK);
        g2.drawString(text, (float) x, (float) base);
    }
}
