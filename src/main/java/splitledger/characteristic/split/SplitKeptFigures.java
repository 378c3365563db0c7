package splitledger.characteristic.split;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.util.FastMath;
import splitledger.statistics.Quantiles;
import splitledger.study.Doubles;
import splitledger.study.Figure;
import splitledger.study.Figure.Axis;
import splitledger.study.Figure.Layer;
import splitledger.study.Figure.Role;
import splitledger.study.Trail;

/** What is kept of the response at each ratio, and ratios told by flows and by responses. */
final class SplitKeptFigures {
    private final SplitDrawn drawn;

    SplitKeptFigures(SplitDrawn drawn) {
        this.drawn = drawn;
    }

    /** Response kept by setting: all compounds together with intervals, single ones beside. */
    Figure kept() {
        final List<Layer> layers = new ArrayList<>();
        final double[] x =
                drawn.setUps().settings().stream().mapToDouble(FastMath::log10).toArray();
        layers.add(
                new Figure.Line(
                        "as at the reference",
                        Role.REFERENCE,
                        Doubles.of(x[0], x[x.length - 1]),
                        Doubles.of(100, 100)));
        final List<Double> seen = new ArrayList<>(List.of(100.0));
        final List<Double> places = new ArrayList<>();
        final List<Double> values = new ArrayList<>();
        final List<String> names = new ArrayList<>();
        for (int i = 0; i < drawn.each().size(); i++) {
            final double side =
                    SplitFigures.SIDE
                            * (i - (drawn.each().size() - 1) / 2.0)
                            / Math.max(1, drawn.each().size());
            final List<Kept> own = drawn.each().get(i).kept();
            for (int k = 0; k < own.size(); k++) {
                if (own.get(k).not().isEmpty()) {
                    places.add(x[k] + side);
                    values.add(own.get(k).percent());
                    names.add(k == 0 ? drawn.each().get(i).compound() : "");
                }
            }
        }
        seen.addAll(values);
        layers.add(
                new Figure.Points(
                        "single compounds",
                        Role.OTHER_DATA,
                        Doubles.of(places),
                        Doubles.of(values),
                        names));
        final List<Kept> all = drawn.pooled().kept();
        final double[][] ends = ends(all, 1);
        layers.add(
                new Figure.Intervals(
                        "all compounds together, " + drawn.percent(),
                        Role.DATA,
                        Doubles.of(x),
                        Doubles.of(all.stream().mapToDouble(Kept::percent).toArray()),
                        Doubles.of(ends[0]),
                        Doubles.of(ends[1])));
        Arrays.stream(SplitFigures.concat(ends[0], ends[1])).forEach(seen::add);
        final double[] range = seen.stream().mapToDouble(v -> v).toArray();
        return new Figure(
                "split-response-kept",
                SplitLinearity.ID,
                "",
                "Response kept at each split ratio",
                "Response times ratio in percent of that at the ratio "
                        + Trail.digits(drawn.options().reference())
                        + ". A bend at low ratios points to a constant left out of the ratio, a slope to an exponent other than 1.",
                "From "
                        + Trail.digits(SplitFigures.min(range))
                        + " to "
                        + Trail.digits(SplitFigures.max(range))
                        + " percent over "
                        + x.length
                        + " settings, intervals included.",
                SplitFigures.ratios(drawn.setUps(), "split ratio as in the table", 0),
                Axis.covering(
                        "response kept", "%", SplitFigures.min(range), SplitFigures.max(range)),
                layers);
    }

    private double[][] ends(List<Kept> all, double scale) {
        final double[][] ends = new double[2][all.size()];
        for (int i = 0; i < all.size(); i++) {
            final Kept k = all.get(i);
            final double t =
                    Double.isInfinite(k.degreesOfFreedom())
                            ? 0
                            : Quantiles.coverageFactor(drawn.coverage(), k.degreesOfFreedom());
            ends[0][i] = scale * k.end(-t);
            ends[1][i] = scale * k.end(t);
        }
        return ends;
    }

    Figure twoWays() {
        final List<Kept> all = drawn.pooled().kept();
        final double add = drawn.setUps().conventionOffset();
        final double[] x = new double[all.size()];
        final double[][] y = new double[3][all.size()];
        for (int i = 0; i < x.length; i++) {
            final double told = all.get(i).told();
            final double[][] ends = ends(List.of(all.get(i)), 0.01);
            x[i] = FastMath.log10(drawn.together().flows(told).orElse(Double.NaN));
            y[0][i] = FastMath.log10((told + add) * 100 / all.get(i).percent());
            y[1][i] = FastMath.log10((told + add) / ends[1][0]);
            y[2][i] = FastMath.log10((told + add) / ends[0][0]);
        }
        final double[] both = SplitFigures.concat(x, y[1], y[2]);
        return new Figure(
                "split-flows",
                SplitLinearity.ID,
                "",
                "Split ratio by flows and by responses",
                "Both axes in decades. On the line both tell the same ratio; the setting "
                        + Trail.digits(drawn.options().reference())
                        + " is taken as true.",
                x.length
                        + " settings from "
                        + Trail.digits(FastMath.pow(10, SplitFigures.min(x)))
                        + " on by flows.",
                Axis.covering(
                        "decadic logarithm of the ratio by flows",
                        "",
                        SplitFigures.min(x),
                        SplitFigures.max(x)),
                Axis.covering(
                        "decadic logarithm of the ratio by responses",
                        "",
                        SplitFigures.min(both),
                        SplitFigures.max(both)),
                List.of(
                        new Figure.Line(
                                "both alike",
                                Role.REFERENCE,
                                Doubles.of(SplitFigures.min(x), SplitFigures.max(x)),
                                Doubles.of(SplitFigures.min(x), SplitFigures.max(x))),
                        new Figure.Intervals(
                                "settings, " + drawn.percent(),
                                Role.DATA,
                                Doubles.of(x),
                                Doubles.of(y[0]),
                                Doubles.of(y[1]),
                                Doubles.of(y[2]))));
    }
}
