package splitledger.chart;

import java.awt.BasicStroke;
import java.awt.Paint;
import java.awt.Shape;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.jfree.chart.LegendItem;
import org.jfree.chart.LegendItemCollection;
import org.jfree.chart.block.BlockBorder;
import org.jfree.chart.title.LegendTitle;
import org.jfree.chart.ui.HorizontalAlignment;
import org.jfree.chart.ui.RectangleEdge;
import org.jfree.chart.ui.RectangleInsets;

/** Collects what each name looks like; a line and symbols of one name share one entry. */
final class Legend {
    private static final double HALF_LINE = 13;

    private record Entry(
            Optional<HouseStyle.Mark> mark,
            Optional<HouseStyle.Trace> trace,
            Optional<HouseStyle.Region> region) {}

    private final Map<String, Entry> entries = new LinkedHashMap<>();

    void mark(String name, HouseStyle.Mark mark) {
        add(name, new Entry(Optional.of(mark), Optional.empty(), Optional.empty()));
    }

    void trace(String name, HouseStyle.Trace trace) {
        add(name, new Entry(Optional.empty(), Optional.of(trace), Optional.empty()));
    }

    void region(String name, HouseStyle.Region region) {
        add(name, new Entry(Optional.empty(), Optional.empty(), Optional.of(region)));
    }

    /** The legend, unless one entry or none would stand in it. */
    Optional<LegendTitle> title() {
        if (entries.size() < 2) {
            return Optional.empty();
        }
        final LegendItemCollection items = new LegendItemCollection();
        entries.forEach((name, entry) -> items.add(item(name, entry)));
        final LegendTitle legend = new LegendTitle(() -> items);
        legend.setItemFont(BundledFonts.plain(HouseStyle.TICK_SIZE));
        legend.setItemPaint(HouseStyle.INK);
        legend.setItemLabelPadding(new RectangleInsets(2, 4, 2, 14));
        legend.setFrame(BlockBorder.NONE);
        legend.setPosition(RectangleEdge.TOP);
        legend.setHorizontalAlignment(HorizontalAlignment.LEFT);
        legend.setMargin(0, 6, 4, 6);
        return Optional.of(legend);
    }

    private void add(String name, Entry entry) {
        final String text = XmlText.clean(name);
        if (!text.isEmpty()) {
            entries.merge(
                    text,
                    entry,
                    (a, b) ->
                            new Entry(
                                    a.mark().or(b::mark),
                                    a.trace().or(b::trace),
                                    a.region().or(b::region)));
        }
    }

    private static LegendItem item(String name, Entry entry) {
        final Shape line = new Line2D.Double(-HALF_LINE, 0, HALF_LINE, 0);
        final Shape swatch = new Rectangle2D.Double(-HALF_LINE, -6, 2 * HALF_LINE, 12);
        final boolean marked = entry.mark().isPresent();
        final boolean region = entry.region().isPresent();
        final Shape shape = region ? swatch : entry.mark().map(HouseStyle.Mark::shape).orElse(line);
        final Paint fill =
                region
                        ? entry.region().get().fill()
                        : entry.mark()
                                .map(m -> m.filled() ? m.colour() : HouseStyle.PAPER)
                                .orElse(HouseStyle.INK);
        final Optional<HouseStyle.Trace> edge = entry.region().map(HouseStyle.Region::edge);
        final Paint outline =
                edge.map(HouseStyle.Trace::colour)
                        .or(() -> entry.mark().map(HouseStyle.Mark::colour))
                        .orElse(HouseStyle.INK);
        final BasicStroke outlineStroke =
                edge.map(HouseStyle.Trace::stroke).orElseGet(HouseStyle::hairline);
        return new LegendItem(
                name,
                null,
                null,
                null,
                marked || region,
                shape,
                true,
                fill,
                true,
                outline,
                outlineStroke,
                entry.trace().isPresent(),
                line,
                entry.trace().map(HouseStyle.Trace::stroke).orElseGet(HouseStyle::hairline),
                entry.trace().map(HouseStyle.Trace::colour).orElse(HouseStyle.INK));
    }
}
