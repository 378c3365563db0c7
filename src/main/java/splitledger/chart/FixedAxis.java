package splitledger.chart;

import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import org.jfree.chart.axis.AxisState;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.axis.NumberTick;
import org.jfree.chart.ui.RectangleEdge;
import org.jfree.chart.ui.RectangleInsets;
import org.jfree.chart.ui.TextAnchor;
import splitledger.study.Figure;

/**
 * An axis whose ends and ticks come with the figure. A text that would touch its neighbour is left
 * out; its tick stays.
 */
@SuppressWarnings("serial") // never serialised
final class FixedAxis extends NumberAxis {
    private static final double GAP = 8;

    private final Figure.Axis axis;

    FixedAxis(Figure.Axis axis) {
        super(XmlText.clean(axis.text()));
        this.axis = axis;
        dress(this);
        setAxisLineVisible(!axis.text().isEmpty() || !axis.ticks().isEmpty());
        setRange(axis.from(), axis.to());
    }

    /** Fonts, colours and distances of every axis. */
    static void dress(NumberAxis axis) {
        axis.setAutoRange(false);
        axis.setLabelFont(BundledFonts.plain(HouseStyle.LABEL_SIZE));
        axis.setLabelPaint(HouseStyle.INK);
        axis.setTickLabelFont(BundledFonts.plain(HouseStyle.TICK_SIZE));
        axis.setTickLabelPaint(HouseStyle.INK);
        axis.setAxisLinePaint(HouseStyle.GREY);
        axis.setAxisLineStroke(HouseStyle.hairline());
        axis.setTickMarkPaint(HouseStyle.GREY);
        axis.setTickMarkStroke(HouseStyle.hairline());
        axis.setTickMarkOutsideLength(4);
        axis.setTickLabelInsets(new RectangleInsets(3, 4, 3, 4));
        axis.setLabelInsets(new RectangleInsets(4, 4, 4, 4));
    }

    @Override
    public List<NumberTick> refreshTicks(
            Graphics2D g2, AxisState state, Rectangle2D dataArea, RectangleEdge edge) {
        final boolean horizontal = RectangleEdge.isTopOrBottom(edge);
        final TextAnchor anchor = horizontal ? TextAnchor.TOP_CENTER : TextAnchor.CENTER_RIGHT;
        final List<NumberTick> ticks = new ArrayList<>();
        final Font font = getTickLabelFont();
        double free = Double.NEGATIVE_INFINITY;
        for (Figure.Tick tick : axis.ticks()) {
            if (tick.at() < axis.from() || tick.at() > axis.to()) {
                continue;
            }
            String text = withMinus(XmlText.clean(tick.text()));
            final double at = valueToJava2D(tick.at(), dataArea, edge);
            final double half = horizontal ? TextFit.width(text, font) / 2 : font.getSize2D() / 2;
            final double place = horizontal ? at : -at;
            if (place - half < free) {
                text = "";
            } else if (!text.isEmpty()) {
                free = place + half + (horizontal ? GAP : 1);
            }
            ticks.add(new NumberTick(tick.at(), text, anchor, anchor, 0));
        }
        return ticks;
    }

    /** A number's hyphen as a minus sign. */
    private static String withMinus(String text) {
        return text.matches("-[0-9.].*") ? "−" + text.substring(1) : text;
    }
}
