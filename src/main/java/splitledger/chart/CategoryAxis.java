package splitledger.chart;

import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import org.jfree.chart.axis.AxisState;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.axis.NumberTick;
import org.jfree.chart.ui.RectangleEdge;

/**
 * The upright axis of a bar chart: words at 1, 2, ... from the top, wrapped at spaces into the room
 * each bar has.
 */
@SuppressWarnings("serial") // never serialised
final class CategoryAxis extends NumberAxis {
    private static final double WIDEST = 235;
    private static final double GAP = 8;

    private final List<String> categories;

    CategoryAxis(String label, List<String> categories) {
        super(label.isEmpty() ? null : label);
        this.categories = categories.stream().map(XmlText::clean).toList();
        FixedAxis.dress(this);
        setTickMarksVisible(false);
        setInverted(true);
        setRange(0.5, Math.max(1, categories.size()) + 0.5);
    }

    @Override
    public List<NumberTick> refreshTicks(
            Graphics2D g2, AxisState state, Rectangle2D dataArea, RectangleEdge edge) {
        return List.of();
    }

    @Override
    @SuppressWarnings("rawtypes") // as the library declares it
    protected double findMaximumTickLabelWidth(
            List ticks, Graphics2D g2, Rectangle2D drawArea, boolean vertical) {
        return GAP + textWidth(drawArea.getHeight());
    }

    @Override
    protected AxisState drawTickMarksAndLabels(
            Graphics2D g2,
            double cursor,
            Rectangle2D plotArea,
            Rectangle2D dataArea,
            RectangleEdge edge) {
        final AxisState state = new AxisState(cursor);
        final Font font = getTickLabelFont();
        final double height = font.getSize2D() * 1.15;
        g2.setFont(font);
        g2.setPaint(getTickLabelPaint());
        for (int i = 0; i < categories.size(); i++) {
            final List<String> lines = lines(categories.get(i), dataArea.getHeight());
            final double middle = valueToJava2D(i + 1, dataArea, edge);
            double base = middle - height * (lines.size() - 1) / 2 + font.getSize2D() * 0.36;
            for (String line : lines) {
                final double x = cursor - GAP - TextFit.width(line, font);
                g2.drawString(line, (float) x, (float) base);
                base += height;
            }
        }
        state.cursorLeft(GAP + textWidth(dataArea.getHeight()));
        return state;
    }

    private List<String> lines(String category, double height) {
        final double slot = height / Math.max(1, categories.size());
        final int most = (int) Math.max(1, Math.min(3, slot / (HouseStyle.TICK_SIZE * 1.2)));
        return TextFit.wrapped(category, getTickLabelFont(), WIDEST, most);
    }

    private double textWidth(double height) {
        return categories.stream()
                .flatMap(c -> lines(c, height).stream())
                .mapToDouble(line -> TextFit.width(line, getTickLabelFont()))
                .max()
                .orElse(0);
    }
}
