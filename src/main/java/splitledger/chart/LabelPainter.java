package splitledger.chart;

import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import splitledger.chart.LayerRenderer.Scale;
import splitledger.study.Figure;

/**
 * Writes names beside points where there is room: eight places about each point are tried, and a
 * name that would cover a point or another name is left out.
 */
final class LabelPainter {
    private static final double[][] PLACES = {
        {1, 0}, {-1, 0}, {0, -1}, {0, 1}, {1, -1}, {-1, -1}, {1, 1}, {-1, 1}
    };
    private static final double AWAY = 7;
    private static final float SIZE = 12;

    private LabelPainter() {}

    static void labels(Graphics2D g2, Scale scale, List<Figure.Points> layers) {
        final List<Rectangle2D> taken = new ArrayList<>();
        for (Figure.Points points : layers) {
            for (int i = 0; i < points.x().size(); i++) {
                taken.add(around(scale, points, i));
            }
        }
        g2.setFont(BundledFonts.plain(SIZE));
        g2.setPaint(HouseStyle.INK);
        for (Figure.Points points : layers) {
            for (int i = 0; i < points.x().size(); i++) {
                final String text = XmlText.clean(points.labels().get(i));
                if (!text.isEmpty()
                        && LayerRenderer.Scale.drawable(points.x().at(i), points.y().at(i))) {
                    label(g2, scale, text, around(scale, points, i), taken);
                }
            }
        }
    }

    private static void label(
            Graphics2D g2, Scale scale, String text, Rectangle2D point, List<Rectangle2D> taken) {
        final Font font = g2.getFont();
        final double width = TextFit.width(text, font);
        final double height = SIZE;
        for (double[] place : PLACES) {
            final double x = point.getCenterX() + place[0] * (AWAY + width / 2) - width / 2;
            final double y = point.getCenterY() + place[1] * (AWAY + height / 2) - height / 2;
            final Rectangle2D box = new Rectangle2D.Double(x, y, width, height);
            final boolean free =
                    scale.area().contains(box) && taken.stream().noneMatch(box::intersects);
            if (free) {
                taken.add(box);
                g2.drawString(text, (float) x, (float) (y + height * 0.82));
                return;
            }
        }
    }

    private static Rectangle2D around(Scale scale, Figure.Points points, int i) {
        final double x = scale.x(points.x().at(i));
        final double y = scale.y(points.y().at(i));
        return new Rectangle2D.Double(x - 5, y - 5, 10, 10);
    }
}
