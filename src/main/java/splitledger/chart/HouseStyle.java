package splitledger.chart;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Shape;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import splitledger.study.Figure.Role;

/**
 * What each role looks like. Blue, orange, grey and near-black stay apart for readers with any
 * common colour deficiency and in grey print; each also has its own symbol or dash.
 */
final class HouseStyle {
    static final Color INK = new Color(0x22, 0x22, 0x22);
    static final Color GREY = new Color(0x6B, 0x6B, 0x6B);
    static final Color GRID = new Color(0xE4, 0xE4, 0xE4);
    static final Color BLUE = new Color(0x00, 0x72, 0xB2);
    static final Color ORANGE = new Color(0xC2, 0x55, 0x00);
    static final Color SKY = new Color(0x7F, 0xB8, 0xDA);
    static final Color PAPER = Color.WHITE;

    static final float TICK_SIZE = 13;
    static final float LABEL_SIZE = 14;
    static final float TITLE_SIZE = 15;

    private static final float THIN = 1.2f;
    private static final float MEDIUM = 1.6f;
    private static final float THICK = 2f;
    private static final double MARK = 4;
    private static final List<Color> GROUPS = List.of(BLUE, ORANGE, GREY, INK);

    private HouseStyle() {}

    /**
     * A symbol.
     *
     * @param shape about the origin
     * @param colour of line and filling
     * @param filled or drawn as an outline on paper
     */
    record Mark(Shape shape, Color colour, boolean filled) {}

    /** A line. */
    record Trace(Color colour, BasicStroke stroke) {}

    /** A filled region with its edge. */
    record Region(Color fill, Trace edge) {}

    /**
     * The symbol of a role.
     *
     * @param nth which of several groups of this role, from 0
     */
    static Mark mark(Role role, int nth) {
        return switch (role) {
            case OTHER_DATA -> new Mark(triangle(nth % 2 == 0 ? 1 : -1), group(nth + 1), false);
            case FIT, CONFIDENCE, PREDICTION -> new Mark(cross(), INK, true);
            case REFERENCE -> new Mark(diamond(), GREY, false);
            default -> {
                final Shape shape =
                        switch (nth % 4) {
                            case 0 -> circle();
                            case 1 -> square();
                            case 2 -> diamond();
                            default -> triangle(1);
                        };
                yield new Mark(shape, group(nth), nth % 2 == 0);
            }
        };
    }

    /**
     * The line of a role.
     *
     * @param nth which of several groups of this role, from 0
     * @param groups how many there are: a single fit is near-black, several take the colours of
     *     their data
     */
    static Trace trace(Role role, int nth, int groups) {
        return switch (role) {
            case FIT ->
                    groups > 1
                            ? new Trace(group(nth), dashed(THICK, nth))
                            : new Trace(INK, dashed(THICK, 0));
            case REFERENCE -> new Trace(GREY, dashed(MEDIUM, nth + 1));
            case CONFIDENCE -> new Trace(BLUE, dashed(THIN, nth));
            case PREDICTION -> new Trace(GREY, dashed(THIN, nth + 2));
            default -> new Trace(group(nth), dashed(THIN, nth));
        };
    }

    /** The region of a role. */
    static Region region(Role role, int nth) {
        final Trace edge = trace(role, nth, 1);
        final int opacity = role == Role.PREDICTION ? 34 : 56;
        final Color c = edge.colour();
        return new Region(new Color(c.getRed(), c.getGreen(), c.getBlue(), opacity), edge);
    }

    /** The filling of bars: the other way round is another colour. */
    static Color bar(boolean negative) {
        return negative ? ORANGE : SKY;
    }

    /** A thin solid line. */
    static BasicStroke hairline() {
        return dashed(1, 0);
    }

    private static Color group(int nth) {
        return GROUPS.get(nth % GROUPS.size());
    }

    private static BasicStroke dashed(float width, int kind) {
        final float[] pattern =
                switch (kind % 4) {
                    case 0 -> new float[0];
                    case 1 -> new float[] {7, 4};
                    case 2 -> new float[] {2, 3};
                    default -> new float[] {8, 3, 2, 3};
                };
        return pattern.length == 0
                ? new BasicStroke(width, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND)
                : new BasicStroke(
                        width, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 1, pattern, 0);
    }

    private static Shape circle() {
        return new Ellipse2D.Double(-MARK, -MARK, 2 * MARK, 2 * MARK);
    }

    private static Shape square() {
        return new Rectangle2D.Double(-MARK + 0.4, -MARK + 0.4, 2 * MARK - 0.8, 2 * MARK - 0.8);
    }

    private static Shape diamond() {
        return polygon(0, -MARK - 1, MARK + 1, 0, 0, MARK + 1, -MARK - 1, 0);
    }

    private static Shape triangle(int up) {
        return polygon(0, -up * (MARK + 1), MARK + 0.6, up * MARK, -MARK - 0.6, up * MARK);
    }

    private static Shape cross() {
        final double t = 1;
        return polygon(
                -t, -MARK, t, -MARK, t, -t, MARK, -t, MARK, t, t, t, t, MARK, -t, MARK, -t, t,
                -MARK, t, -MARK, -t, -t, -t);
    }

    private static Shape polygon(double... xy) {
        final Path2D path = new Path2D.Double();
        path.moveTo(xy[0], xy[1]);
        for (int i = 2; i < xy.length; i += 2) {
            path.lineTo(xy[i], xy[i + 1]);
        }
        path.closePath();
        return path;
    }
}
