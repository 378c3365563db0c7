package splitledger.chart;

import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.util.function.BiConsumer;
import org.jfree.chart.axis.ValueAxis;
import org.jfree.chart.plot.CrosshairState;
import org.jfree.chart.plot.PlotRenderingInfo;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.AbstractXYItemRenderer;
import org.jfree.chart.renderer.xy.XYItemRendererState;
import org.jfree.chart.ui.RectangleEdge;
import org.jfree.data.xy.DefaultXYDataset;
import org.jfree.data.xy.XYDataset;

/** Draws one whole layer at the only item of a placeholder data set, clipped to the data area. */
@SuppressWarnings("serial") // never serialised
final class LayerRenderer extends AbstractXYItemRenderer {
    /** A data set whose one item calls the painter. */
    static XYDataset placeholder() {
        final DefaultXYDataset data = new DefaultXYDataset();
        data.addSeries("", new double[][] {{0}, {0}});
        return data;
    }

    /** From numbers of the figure to places on the chart. */
    record Scale(ValueAxis xAxis, ValueAxis yAxis, Rectangle2D area) {
        double x(double value) {
            return xAxis.valueToJava2D(value, area, RectangleEdge.BOTTOM);
        }

        double y(double value) {
            return yAxis.valueToJava2D(value, area, RectangleEdge.LEFT);
        }

        /** Whether both are numbers that can be drawn. */
        static boolean drawable(double x, double y) {
            return Double.isFinite(x) && Double.isFinite(y);
        }
    }

    private final BiConsumer<Graphics2D, Scale> painter;

    LayerRenderer(BiConsumer<Graphics2D, Scale> painter) {
        this.painter = painter;
    }

    @Override
    public void drawItem(
            Graphics2D g2,
            XYItemRendererState state,
            Rectangle2D dataArea,
            PlotRenderingInfo info,
            XYPlot plot,
            ValueAxis domainAxis,
            ValueAxis rangeAxis,
            XYDataset dataset,
            int series,
            int item,
            CrosshairState crosshairState,
            int pass) {
        painter.accept(g2, new Scale(domainAxis, rangeAxis, dataArea));
    }
}
