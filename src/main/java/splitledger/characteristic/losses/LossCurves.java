package splitledger.characteristic.losses;

import java.util.List;
import java.util.function.DoubleUnaryOperator;
import splitledger.propagation.Uncertain;
import splitledger.statistics.Quantiles;
import splitledger.study.Doubles;
import splitledger.study.Figure;
import splitledger.study.Figure.Layer;
import splitledger.study.Figure.Role;
import splitledger.study.Trail;

/**
 * What the figures about losses share: curves with their bands, and words for a flow.
 *
 * @param rows of the parent
 * @param coverage of bands and intervals
 */
record LossCurves(LossRows rows, double coverage) {
    private static final int POINTS = 60;
    private static final double PERCENT = 100;

    /** What an axis must hold. */
    static final class Range {
        private double low = Double.POSITIVE_INFINITY;
        private double high = Double.NEGATIVE_INFINITY;

        void add(double... values) {
            for (double v : values) {
                low = Math.min(low, v);
                high = Math.max(high, v);
            }
        }

        double low() {
            return low;
        }

        double high() {
            return high;
        }
    }

    /** A curve with its band at evenly spaced places. */
    static void curve(
            String name,
            String band,
            double from,
            double to,
            DoubleUnaryOperator middle,
            DoubleUnaryOperator lower,
            DoubleUnaryOperator upper,
            List<Layer> layers,
            Range y) {
        final double[] x = new double[POINTS + 1];
        final double[] line = new double[x.length];
        final double[] low = new double[x.length];
        final double[] high = new double[x.length];
        for (int i = 0; i < x.length; i++) {
            x[i] = from + (to - from) * i / POINTS;
            line[i] = middle.applyAsDouble(x[i]);
            low[i] = lower.applyAsDouble(x[i]);
            high[i] = upper.applyAsDouble(x[i]);
        }
        y.add(low);
        y.add(high);
        layers.add(
                new Figure.Band(
                        band, Role.CONFIDENCE, Doubles.of(x), Doubles.of(low), Doubles.of(high)));
        layers.add(new Figure.Line(name, Role.FIT, Doubles.of(x), Doubles.of(line)));
    }

    /** Means with their intervals; the first series in the colour of data. */
    static void intervals(
            String name,
            int series,
            double[] at,
            double[] value,
            double[] low,
            double[] high,
            List<Layer> layers,
            Range y) {
        y.add(low);
        y.add(high);
        layers.add(
                new Figure.Intervals(
                        name,
                        series == 0 ? Role.DATA : Role.OTHER_DATA,
                        Doubles.of(at),
                        Doubles.of(value),
                        Doubles.of(low),
                        Doubles.of(high)));
    }

    /** Half the interval of a value; 0 where it has no uncertainty. */
    double half(Uncertain u) {
        return u.standardUncertainty() > 0
                ? Quantiles.coverageFactor(coverage, u.degreesOfFreedom()) * u.standardUncertainty()
                : 0;
    }

    /** What the band is, in words. */
    String band() {
        return Trail.digits(PERCENT * coverage) + " % band of the curve";
    }

    /** A name with the ratio, where there are several. */
    String named(String what, LossRows.Group g) {
        return rows.severalRatios() ? what + ", ratio " + Trail.digits(g.ratio()) : what;
    }
}
