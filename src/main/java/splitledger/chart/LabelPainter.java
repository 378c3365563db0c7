package splitledger.chart;

import java.awt.Graphics2D;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import splitledger.chart.LayerRenderer.Scale;
import splitledger.study.Figure;

/**
 * Writes names beside points. Eight places about each point are tried; a name never covers a point,
 * a line or another name. Where every point of a layer has a name, either all of them fit or none
 * is written (each still shows as a tip on its point); where only some have one, those that fit are
 * written.
 */
final class LabelPainter {
    private static final double[][] PLACES = {
        {1, 0}, {-1, 0}, {0, -1}, {0, 1}, {1, -1}, {-1, -1}, {1, 1}, {-1, 1}
    };
    private static final double AWAY = 7;
    private static final float SIZE = 12;

    private LabelPainter() {}

    /**
     * Draws the names.
     *
     * @param layers whose points have names
     * @param lines to keep away from
     */
    static void labels(
            Graphics2D g2, Scale scale, List<Figure.Points> layers, List<Figure.Line> lines) {
        final List<Rectangle2D> taken = new ArrayList<>();
        for (Figure.Points points : layers) {
            for (int i = 0; i < points.x().size(); i++) {
                taken.add(around(scale, points, i));
            }
        }
        final List<Line2D> strokes = strokes(scale, lines);
        g2.setFont(BundledFonts.plain(SIZE));
        g2.setPaint(HouseStyle.INK);
        for (Figure.Points points : layers) {
            final List<Placed> placed = new ArrayList<>();
            boolean all = true;
            for (int i = 0; i < points.x().size(); i++) {
                final String text = XmlText.clean(points.labels().get(i));
                if (text.isEmpty() || !Scale.drawable(points.x().at(i), points.y().at(i))) {
                    continue;
                }
                final Optional<Rectangle2D> box =
                        place(g2, scale.area(), text, around(scale, points, i), taken, strokes);
                all &= box.isPresent();
                box.ifPresent(
                        b -> {
                            placed.add(new Placed(text, b));
                            taken.add(b);
                        });
            }
            final boolean named = points.labels().stream().noneMatch(String::isEmpty);
            if (all || !named) {
                placed.forEach(p -> draw(g2, p));
            } else {
                placed.forEach(p -> taken.remove(p.box()));
            }
        }
    }

    private record Placed(String text, Rectangle2D box) {}

    private static void draw(Graphics2D g2, Placed placed) {
        final double base = placed.box().getY() + SIZE * 0.82;
        g2.drawString(placed.text(), (float) placed.box().getX(), (float) base);
    }

    private static Optional<Rectangle2D> place(
            Graphics2D g2,
            Rectangle2D area,
            String text,
            Rectangle2D point,
            List<Rectangle2D> taken,
            List<Line2D> strokes) {
        final double width = TextFit.width(text, g2.getFont());
        return Arrays.stream(PLACES)
                .map(place -> box(point, place, width))
                .filter(box -> area.contains(box))
                .filter(box -> taken.stream().noneMatch(box::intersects))
                .filter(box -> strokes.stream().noneMatch(line -> line.intersects(box)))
                .findFirst();
    }

    private static Rectangle2D box(Rectangle2D point, double[] place, double width) {
        final double x = point.getCenterX() + place[0] * (AWAY + width / 2) - width / 2;
        final double y = point.getCenterY() + place[1] * (AWAY + SIZE / 2) - SIZE / 2;
        return new Rectangle2D.Double(x, y, width, SIZE);
    }

    private static List<Line2D> strokes(Scale scale, List<Figure.Line> lines) {
        final List<Line2D> strokes = new ArrayList<>();
        for (Figure.Line line : lines) {
            for (int i = 1; i < line.x().size(); i++) {
                final double x = line.x().at(i);
                final double y = line.y().at(i);
                final double before = line.x().at(i - 1);
                final double beforeY = line.y().at(i - 1);
                if (Scale.drawable(x, y) && Scale.drawable(before, beforeY)) {
                    strokes.add(
                            new Line2D.Double(
                                    scale.x(before), scale.y(beforeY), scale.x(x), scale.y(y)));
                }
            }
        }
        return strokes;
    }

    private static Rectangle2D around(Scale scale, Figure.Points points, int i) {
        final double x = scale.x(points.x().at(i));
        final double y = scale.y(points.y().at(i));
        return new Rectangle2D.Double(x - 5, y - 5, 10, 10);
    }
}
