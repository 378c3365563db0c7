package splitledger.chart;

import java.awt.Graphics2D;
import java.awt.Shape;
import java.awt.geom.AffineTransform;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import org.jfree.svg.SVGHints;
import splitledger.chart.LayerRenderer.Scale;
import splitledger.study.Doubles;
import splitledger.study.Figure;

/** How each kind of layer but bars is drawn. */
final class LayerPainter {
    private static final double CAP = 4;
    private static final double EDGE = 6;

    private LayerPainter() {}

    static void points(Graphics2D g2, Scale scale, Figure.Points points, HouseStyle.Mark mark) {
        final Shape clip = widened(g2, scale);
        for (int i = 0; i < points.x().size(); i++) {
            final String name = XmlText.clean(points.labels().get(i));
            if (!name.isEmpty() && Scale.drawable(points.x().at(i), points.y().at(i))) {
                g2.setRenderingHint(SVGHints.KEY_ELEMENT_TITLE, XmlText.escaped(name));
            }
            mark(g2, scale, points.x().at(i), points.y().at(i), mark);
        }
        g2.setClip(clip);
    }

    static void line(Graphics2D g2, Scale scale, Figure.Line line, HouseStyle.Trace trace) {
        g2.setPaint(trace.colour());
        g2.setStroke(trace.stroke());
        g2.draw(path(scale, line.x(), line.y()));
    }

    static void band(Graphics2D g2, Scale scale, Figure.Band band, HouseStyle.Region region) {
        final Path2D filled = new Path2D.Double();
        final int n = band.x().size();
        int from = 0;
        while (from < n) {
            int to = from;
            while (to < n && drawable(band, to)) {
                to++;
            }
            if (to > from) {
                outline(filled, scale, band, from, to);
            }
            from = to + 1;
        }
        g2.setPaint(region.fill());
        g2.fill(filled);
        g2.setPaint(region.edge().colour());
        g2.setStroke(region.edge().stroke());
        g2.draw(path(scale, band.x(), band.lower()));
        g2.draw(path(scale, band.x(), band.upper()));
    }

    static void intervals(
            Graphics2D g2, Scale scale, Figure.Intervals intervals, HouseStyle.Mark mark) {
        final Shape clip = widened(g2, scale);
        g2.setStroke(HouseStyle.hairline());
        for (int i = 0; i < intervals.x().size(); i++) {
            final double x = scale.x(intervals.x().at(i));
            final double low = scale.y(intervals.lower().at(i));
            final double high = scale.y(intervals.upper().at(i));
            if (Scale.drawable(x, low) && Double.isFinite(high)) {
                g2.setPaint(mark.colour());
                g2.draw(new Line2D.Double(x, low, x, high));
                g2.draw(new Line2D.Double(x - CAP, low, x + CAP, low));
                g2.draw(new Line2D.Double(x - CAP, high, x + CAP, high));
            }
            mark(g2, scale, intervals.x().at(i), intervals.y().at(i), mark);
        }
        g2.setClip(clip);
    }

    /** Lets symbols on the edge of the data area be seen whole; gives the clip there was. */
    private static Shape widened(Graphics2D g2, Scale scale) {
        final Shape clip = g2.getClip();
        final Rectangle2D area = scale.area();
        g2.setClip(
                new Rectangle2D.Double(
                        area.getX() - EDGE,
                        area.getY() - EDGE,
                        area.getWidth() + 2 * EDGE,
                        area.getHeight() + 2 * EDGE));
        return clip;
    }

    private static void mark(Graphics2D g2, Scale scale, double x, double y, HouseStyle.Mark mark) {
        if (!Scale.drawable(x, y)) {
            return;
        }
        final Shape shape =
                AffineTransform.getTranslateInstance(scale.x(x), scale.y(y))
                        .createTransformedShape(mark.shape());
        g2.setPaint(mark.filled() ? mark.colour() : HouseStyle.PAPER);
        g2.fill(shape);
        g2.setPaint(mark.filled() ? HouseStyle.PAPER : mark.colour());
        g2.setStroke(HouseStyle.hairline());
        g2.draw(shape);
    }

    private static Path2D path(Scale scale, Doubles x, Doubles y) {
        final Path2D path = new Path2D.Double();
        boolean broken = true;
        for (int i = 0; i < x.size(); i++) {
            if (!Scale.drawable(x.at(i), y.at(i))) {
                broken = true;
            } else if (broken) {
                path.moveTo(scale.x(x.at(i)), scale.y(y.at(i)));
                broken = false;
            } else {
                path.lineTo(scale.x(x.at(i)), scale.y(y.at(i)));
            }
        }
        return path;
    }

    private static void outline(Path2D into, Scale scale, Figure.Band band, int from, int to) {
        into.moveTo(scale.x(band.x().at(from)), scale.y(band.upper().at(from)));
        for (int i = from + 1; i < to; i++) {
            into.lineTo(scale.x(band.x().at(i)), scale.y(band.upper().at(i)));
        }
        for (int i = to - 1; i >= from; i--) {
            into.lineTo(scale.x(band.x().at(i)), scale.y(band.lower().at(i)));
        }
        into.closePath();
    }

    private static boolean drawable(Figure.Band band, int i) {
        return Scale.drawable(band.x().at(i), band.lower().at(i))
                && Double.isFinite(band.upper().at(i));
    }
}
