package splitledger.chart;

import java.awt.Graphics2D;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.BiConsumer;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.plot.DatasetRenderingOrder;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.title.TextTitle;
import org.jfree.chart.ui.HorizontalAlignment;
import org.jfree.chart.ui.RectangleInsets;
import splitledger.chart.LayerRenderer.Scale;
import splitledger.study.Figure;

/** Puts one chart together: axes, layers in their order, names beside points, title, legend. */
final class ChartAssembly {
    private final Figure figure;
    private final XYPlot plot;
    private final Legend legend = new Legend();
    private final Map<Figure.Role, List<String>> groups = new EnumMap<>(Figure.Role.class);
    private int layers;

    private ChartAssembly(Figure figure) {
        this.figure = figure;
        final List<Figure.Bars> bars = layersOf(Figure.Bars.class);
        plot =
                new XYPlot(
                        null,
                        new FixedAxis(figure.x()),
                        bars.isEmpty()
                                ? new FixedAxis(figure.y())
                                : new CategoryAxis("", bars.get(0).categories()),
                        null);
        plot.setRangeGridlinesVisible(bars.isEmpty());
        for (Figure.Layer layer : figure.layers()) {
            final List<String> names = groups.computeIfAbsent(layer.role(), r -> new ArrayList<>());
            if (!names.contains(layer.name())) {
                names.add(layer.name());
            }
        }
    }

    /** The chart of a figure. */
    static JFreeChart of(Figure figure) {
        return new ChartAssembly(figure).chart();
    }

    private JFreeChart chart() {
        plot.setBackgroundPaint(HouseStyle.PAPER);
        plot.setOutlineVisible(false);
        plot.setDomainGridlinePaint(HouseStyle.GRID);
        plot.setDomainGridlineStroke(HouseStyle.hairline());
        plot.setRangeGridlinePaint(HouseStyle.GRID);
        plot.setRangeGridlineStroke(HouseStyle.hairline());
        plot.setAxisOffset(RectangleInsets.ZERO_INSETS);
        plot.setInsets(new RectangleInsets(4, 4, 4, 16));
        plot.setDatasetRenderingOrder(DatasetRenderingOrder.FORWARD);
        figure.layers().forEach(this::add);
        final List<Figure.Points> named = layersOf(Figure.Points.class);
        final List<Figure.Line> lines = layersOf(Figure.Line.class);
        layer((g2, scale) -> LabelPainter.labels(g2, scale, named, lines));

        final JFreeChart chart =
                new JFreeChart(null, BundledFonts.bold(HouseStyle.TITLE_SIZE), plot, false);
        chart.setBackgroundPaint(HouseStyle.PAPER);
        chart.setPadding(new RectangleInsets(6, 6, 6, 6));
        legend.title().ifPresent(chart::addSubtitle);
        final TextTitle title =
                new TextTitle(
                        XmlText.clean(figure.title()), BundledFonts.bold(HouseStyle.TITLE_SIZE));
        title.setPaint(HouseStyle.INK);
        title.setHorizontalAlignment(HorizontalAlignment.LEFT);
        title.setTextAlignment(HorizontalAlignment.LEFT);
        title.setMargin(2, 8, 6, 8);
        chart.setTitle(title);
        return chart;
    }

    private void add(Figure.Layer layer) {
        final List<String> names = groups.getOrDefault(layer.role(), List.of());
        final int nth = names.indexOf(layer.name());
        if (layer instanceof Figure.Points points) {
            final HouseStyle.Mark mark = HouseStyle.mark(layer.role(), nth);
            legend.mark(layer.name(), mark);
            layer((g2, scale) -> LayerPainter.points(g2, scale, points, mark));
        } else if (layer instanceof Figure.Line line) {
            final HouseStyle.Trace trace = HouseStyle.trace(layer.role(), nth, names.size());
            legend.trace(layer.name(), trace);
            layer((g2, scale) -> LayerPainter.line(g2, scale, line, trace));
        } else if (layer instanceof Figure.Band band) {
            final HouseStyle.Region region = HouseStyle.region(layer.role(), nth);
            legend.region(layer.name(), region);
            layer((g2, scale) -> LayerPainter.band(g2, scale, band, region));
        } else if (layer instanceof Figure.Intervals intervals) {
            final HouseStyle.Mark mark = HouseStyle.mark(layer.role(), nth);
            legend.mark(layer.name(), mark);
            layer((g2, scale) -> LayerPainter.intervals(g2, scale, intervals, mark));
        } else if (layer instanceof Figure.Boxes boxes) {
            layer((g2, scale) -> BoxPainter.boxes(g2, scale, boxes));
        } else {
            final Figure.Bars bars = (Figure.Bars) layer;
            final List<Figure.Bars> all = layersOf(Figure.Bars.class);
            final int which = all.indexOf(bars);
            layer((g2, scale) -> BarPainter.bars(g2, scale, bars, which, all.size()));
        }
    }

    private void layer(BiConsumer<Graphics2D, Scale> painter) {
        plot.setDataset(layers, LayerRenderer.placeholder());
        plot.setRenderer(layers, new LayerRenderer(painter));
        layers++;
    }

    private <T extends Figure.Layer> List<T> layersOf(Class<T> kind) {
        final Set<T> found = new LinkedHashSet<>();
        figure.layers().stream().filter(kind::isInstance).map(kind::cast).forEach(found::add);
        return List.copyOf(found);
    }
}
