package splitledger.chart;

import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import splitledger.chart.LayerRenderer.Scale;
import splitledger.study.Figure;

/** Texts in boxes, on paper colour over whatever lies beneath. */
final class BoxPainter {
    private static final double PAD = 8;
    private static final double LINE = 1.25;
    private static final double APART = 12;

    private BoxPainter() {}

    /** Draws the boxes of one layer; a text too wide for its share of the row is shortened. */
    static void boxes(Graphics2D g2, Scale scale, Figure.Boxes boxes) {
        for (int i = 0; i < boxes.x().size(); i++) {
            final double y = boxes.y().at(i);
            final long beside = boxes.y().stream().filter(other -> other == y).count();
            final double room = scale.area().getWidth() / beside - APART - 2 * PAD;
            box(g2, scale.x(boxes.x().at(i)), scale.y(y), room, boxes.texts().get(i));
        }
    }

    private static void box(Graphics2D g2, double x, double y, double room, String text) {
        final List<String> lines = text.lines().map(XmlText::clean).toList();
        final double height = HouseStyle.TICK_SIZE * LINE;
        double widest = 0;
        for (int l = 0; l < lines.size(); l++) {
            widest = Math.max(widest, TextFit.width(fitted(lines, l, room), font(l)));
        }
        final Rectangle2D frame =
                new Rectangle2D.Double(
                        x - widest / 2 - PAD,
                        y - lines.size() * height / 2 - PAD / 2,
                        widest + 2 * PAD,
                        lines.size() * height + PAD);
        g2.setPaint(HouseStyle.PAPER);
        g2.fill(frame);
        g2.setPaint(HouseStyle.INK);
        g2.setStroke(HouseStyle.hairline());
        g2.draw(frame);
        double base = y - (lines.size() - 1) * height / 2 + HouseStyle.TICK_SIZE * 0.36;
        for (int l = 0; l < lines.size(); l++) {
            final String line = fitted(lines, l, room);
            g2.setFont(font(l));
            g2.drawString(line, (float) (x - TextFit.width(line, font(l)) / 2), (float) base);
            base += height;
        }
    }

    private static String fitted(List<String> lines, int nth, double room) {
        return TextFit.shortened(lines.get(nth), font(nth), room);
    }

    private static Font font(int line) {
        return line == 0
                ? BundledFonts.bold(HouseStyle.TICK_SIZE)
                : BundledFonts.plain(HouseStyle.TICK_SIZE);
    }
}
