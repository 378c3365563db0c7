package splitledger.characteristic;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.DoubleStream;
import org.apache.commons.math3.util.FastMath;
import splitledger.characteristic.SplitFindings.Kept;
import splitledger.statistics.GeneralLeastSquares;
import splitledger.statistics.Outcome.Computed;
import splitledger.statistics.Quantiles;
import splitledger.study.Doubles;
import splitledger.study.Figure;
import splitledger.study.Figure.Axis;
import splitledger.study.Figure.Layer;
import splitledger.study.Figure.Role;
import splitledger.study.Figure.Tick;
import splitledger.study.Trail;

/** Response against ratio, what is kept, exponents by boiling point, and ratios told two ways. */
final class SplitFigures {
    private static final int STEPS = 60;
    private static final double SIDE = 0.06;

    private final SplitSetUps setUps;
    private final SplitOptions options;
    private final List<SplitFindings> each;
    private final SplitFindings pooled;
    private final SplitTogether together;
    private final double coverage;

    SplitFigures(
            SplitSetUps setUps,
            SplitOptions options,
            List<SplitFindings> each,
            SplitFindings pooled,
            SplitTogether together,
            double coverage) {
        this.setUps = setUps;
        this.options = options;
        this.each = List.copyOf(each);
        this.pooled = pooled;
        this.together = together;
        this.coverage = coverage;
    }

    List<Figure> all() {
        final List<Figure> all = new ArrayList<>();
        for (SplitFindings one : each) {
            if (one.line() instanceof Computed<GeneralLeastSquares> line) {
                all.add(response(one, line.value()));
            }
        }
        if (pooled.kept().stream().allMatch(k -> k.not().isEmpty())) {
            all.add(kept());
            if (setUps.settings().stream().allMatch(s -> together.flows(s).isPresent())) {
                all.add(twoWays());
            }
        }
        if (each.stream().allMatch(e -> setUps.boilingPoint(e.compound()).isPresent())
                && pooled.line() instanceof Computed<?>) {
            all.add(exponents());
        }
        return all;
    }

    /** Log-log: set-ups, fitted line with its band, and the line of exponent 1. */
    private Figure response(SplitFindings one, GeneralLeastSquares line) {
        final double[] x = Arrays.stream(one.fit().ratios()).map(FastMath::log10).toArray();
        final double[] y =
                Arrays.stream(one.fit().withoutBlocks(line)).map(SplitFigures::decades).toArray();
        final double low = min(x);
        final double high = max(x);
        final int blocks = line.coefficients().size() - 1;
        final double level =
                line.coefficients().stream().skip(1).mapToDouble(b -> b).average().orElse(0);
        final double beta = line.coefficients().get(0);
        final double t = Quantiles.coverageFactor(coverage, line.degreesOfFreedom());
        final double centre = Arrays.stream(x).average().orElse(0);
        final double[] at = new double[STEPS + 1];
        final double[][] curves = new double[4][STEPS + 1];
        for (int i = 0; i <= STEPS; i++) {
            at[i] = low + (high - low) * i / STEPS;
            final double ln = at[i] * FastMath.log(10);
            final double[] c = new double[1 + blocks];
            Arrays.fill(c, 1.0 / blocks);
            c[0] = -ln;
            final double fit = decades(level - beta * ln);
            final double half = decades(t * line.uncertainty(c));
            curves[0][i] = fit;
            curves[1][i] = fit - half;
            curves[2][i] = fit + half;
            curves[3][i] = decades(level) - beta * centre - (at[i] - centre);
        }
        final List<Layer> layers =
                List.of(
                        new Figure.Band(
                                "where the line lies, " + percent(),
                                Role.CONFIDENCE,
                                Doubles.of(at),
                                Doubles.of(curves[1]),
                                Doubles.of(curves[2])),
                        new Figure.Line(
                                "exponent 1",
                                Role.REFERENCE,
                                Doubles.of(at),
                                Doubles.of(curves[3])),
                        new Figure.Line(
                                "fitted line", Role.FIT, Doubles.of(at), Doubles.of(curves[0])),
                        new Figure.Points(
                                "set-ups",
                                Role.DATA,
                                Doubles.of(x),
                                Doubles.of(y),
                                Arrays.stream(x).mapToObj(v -> "").toList()));
        final double[] ends = concat(y, curves[1], curves[2], curves[3]);
        return new Figure(
                Figure.safeId("split-response", one.compound()),
                SplitLinearity.ID,
                one.compound(),
                "Response of " + one.compound() + " against the split ratio",
                "Each point is the mean of one set-up's injections, both axes in decades"
                        + (blocks > 1 ? ", differences between days taken out" : "")
                        + ". The band is where the fitted line lies; the line of exponent 1 goes through its middle.",
                "Exponent "
                        + Trail.digits(beta)
                        + " with standard uncertainty "
                        + Trail.digits(line.uncertainty(1))
                        + " from "
                        + x.length
                        + " set-ups.",
                ratios("split ratio, total to column"),
                Axis.covering(
                        "decadic logarithm of the "
                                + (setUps.byAmount() ? "area per amount" : "area"),
                        "",
                        min(ends),
                        max(ends)),
                layers);
    }

    private Figure kept() {
        final List<Layer> layers = new ArrayList<>();
        final double[] x = settings();
        layers.add(
                new Figure.Line(
                        "as at the reference",
                        Role.REFERENCE,
                        Doubles.of(x[0], x[x.length - 1]),
                        Doubles.of(100, 100)));
        final List<Double> seen = new ArrayList<>(List.of(100.0));
        for (int i = 0; i < each.size(); i++) {
            final SplitFindings one = each.get(i);
            if (one.kept().stream().anyMatch(k -> k.not().isPresent())) {
                continue;
            }
            final double side = SIDE * (i - (each.size() - 1) / 2.0) / Math.max(1, each.size());
            final double[] y = one.kept().stream().mapToDouble(Kept::percent).toArray();
            Arrays.stream(y).forEach(seen::add);
            layers.add(
                    new Figure.Points(
                            i == 0 ? "single compounds" : "",
                            Role.OTHER_DATA,
                            Doubles.of(Arrays.stream(x).map(v -> v + side).toArray()),
                            Doubles.of(y),
                            Arrays.stream(y).mapToObj(v -> one.compound()).toList()));
        }
        final List<Kept> all = pooled.kept();
        final double[][] ends = ends(all, 1);
        layers.add(
                new Figure.Intervals(
                        "all compounds together, " + percent(),
                        Role.DATA,
                        Doubles.of(x),
                        Doubles.of(all.stream().mapToDouble(Kept::percent).toArray()),
                        Doubles.of(ends[0]),
                        Doubles.of(ends[1])));
        Arrays.stream(concat(ends[0], ends[1])).forEach(seen::add);
        final double[] range = seen.stream().mapToDouble(v -> v).toArray();
        return new Figure(
                "split-response-kept",
                SplitLinearity.ID,
                "",
                "Response kept at each split ratio",
                "Response times ratio in percent of that at the ratio "
                        + Trail.digits(options.reference())
                        + ". A bend at low ratios points to a constant left out of the ratio, a slope to an exponent other than 1.",
                "From "
                        + Trail.digits(min(range))
                        + " to "
                        + Trail.digits(max(range))
                        + " percent over "
                        + x.length
                        + " settings, intervals included.",
                ratios("split ratio as in the table"),
                Axis.covering("response kept", "%", min(range), max(range)),
                layers);
    }

    private double[][] ends(List<Kept> all, double scale) {
        final double[][] ends = new double[2][all.size()];
        for (int i = 0; i < all.size(); i++) {
            final Kept k = all.get(i);
            final double t =
                    Double.isInfinite(k.degreesOfFreedom())
                            ? 0
                            : Quantiles.coverageFactor(coverage, k.degreesOfFreedom());
            ends[0][i] = scale * k.end(-t);
            ends[1][i] = scale * k.end(t);
        }
        return ends;
    }

    private Figure exponents() {
        final double[] x =
                each.stream()
                        .mapToDouble(e -> setUps.boilingPoint(e.compound()).orElse(Double.NaN))
                        .toArray();
        final double[][] y = new double[3][each.size()];
        for (int i = 0; i < x.length; i++) {
            final int at = i;
            each.get(i)
                    .line()
                    .fold(
                            f -> {
                                final double t =
                                        Quantiles.coverageFactor(coverage, f.degreesOfFreedom());
                                y[0][at] = f.coefficients().get(0);
                                y[1][at] = y[0][at] - t * f.uncertainty(1);
                                y[2][at] = y[0][at] + t * f.uncertainty(1);
                                return at;
                            },
                            n -> {
                                Arrays.stream(y).forEach(row -> row[at] = Double.NaN);
                                return at;
                            });
        }
        final double low = min(x) - 5;
        final double high = max(x) + 5;
        final double[] ends =
                DoubleStream.concat(
                                Arrays.stream(concat(y[1], y[2])).filter(v -> !Double.isNaN(v)),
                                DoubleStream.of(1))
                        .toArray();
        return new Figure(
                "split-exponent",
                SplitLinearity.ID,
                "",
                "Exponents by boiling point",
                "Errors of the ratio move all points up or down together; how they lie to each other tells whether the split"
                        + " favours what boils low.",
                "Exponents of "
                        + x.length
                        + " compounds from "
                        + Trail.digits(min(y[0]))
                        + " to "
                        + Trail.digits(max(y[0]))
                        + ".",
                Axis.covering("boiling point", "degC", low, high),
                Axis.covering("exponent", "", min(ends), max(ends)),
                List.of(
                        new Figure.Line(
                                "ideal", Role.REFERENCE, Doubles.of(low, high), Doubles.of(1, 1)),
                        new Figure.Intervals(
                                "compounds, " + percent(),
                                Role.DATA,
                                Doubles.of(x),
                                Doubles.of(y[0]),
                                Doubles.of(y[1]),
                                Doubles.of(y[2]))));
    }

    private Figure twoWays() {
        final List<Kept> all = pooled.kept();
        final double add = setUps.conventionOffset();
        final double[] x = new double[all.size()];
        final double[][] y = new double[3][all.size()];
        for (int i = 0; i < x.length; i++) {
            final double told = all.get(i).told();
            final double[][] ends = ends(List.of(all.get(i)), 0.01);
            x[i] = FastMath.log10(together.flows(told).orElse(Double.NaN));
            y[0][i] = FastMath.log10((told + add) * 100 / all.get(i).percent());
            y[1][i] = FastMath.log10((told + add) / ends[1][0]);
            y[2][i] = FastMath.log10((told + add) / ends[0][0]);
        }
        final double[] both = concat(x, y[1], y[2]);
        return new Figure(
                "split-flows",
                SplitLinearity.ID,
                "",
                "Split ratio by flows and by responses",
                "Both axes in decades. On the line both tell the same ratio; the setting "
                        + Trail.digits(options.reference())
                        + " is taken as true.",
                x.length
                        + " settings from "
                        + Trail.digits(FastMath.pow(10, min(x)))
                        + " on by flows.",
                Axis.covering("decadic logarithm of the ratio by flows", "", min(x), max(x)),
                Axis.covering(
                        "decadic logarithm of the ratio by responses", "", min(both), max(both)),
                List.of(
                        new Figure.Line(
                                "both alike",
                                Role.REFERENCE,
                                Doubles.of(min(x), max(x)),
                                Doubles.of(min(x), max(x))),
                        new Figure.Intervals(
                                "settings, " + percent(),
                                Role.DATA,
                                Doubles.of(x),
                                Doubles.of(y[0]),
                                Doubles.of(y[1]),
                                Doubles.of(y[2]))));
    }

    /** A logarithmic axis with a tick at every setting. */
    private Axis ratios(String label) {
        final double[] x = settings();
        final double[] places =
                label.endsWith("table")
                        ? x
                        : setUps.settings().stream()
                                .mapToDouble(s -> FastMath.log10(s + setUps.conventionOffset()))
                                .toArray();
        final List<Tick> ticks = new ArrayList<>();
        for (int i = 0; i < places.length; i++) {
            if (i == 0 || places[i] - ticks.get(ticks.size() - 1).at() > SIDE) {
                final double shown =
                        setUps.settings().get(i)
                                + (label.endsWith("table") ? 0 : setUps.conventionOffset());
                ticks.add(new Tick(places[i], Trail.digits(shown)));
            }
        }
        return new Axis(label, "", min(places) - SIDE, max(places) + SIDE, ticks);
    }

    private double[] settings() {
        return setUps.settings().stream().mapToDouble(FastMath::log10).toArray();
    }

    private String percent() {
        return Trail.digits(100 * coverage) + " %";
    }

    /** A natural logarithm as a decadic one. */
    private static double decades(double ln) {
        return ln / FastMath.log(10);
    }

    private static double[] concat(double[]... parts) {
        return Arrays.stream(parts).flatMapToDouble(Arrays::stream).toArray();
    }

    private static double min(double... v) {
        return Arrays.stream(v).min().orElse(0);
    }

    private static double max(double... v) {
        return Arrays.stream(v).max().orElse(1);
    }
}
