package splitledger.characteristic.split;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.DoubleStream;
import org.apache.commons.math3.util.FastMath;
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
    static final double SIDE = 0.06;

    private final SplitDrawn drawn;

    SplitFigures(SplitDrawn drawn) {
        this.drawn = drawn;
    }

    List<Figure> all() {
        final List<Figure> all = new ArrayList<>();
        for (SplitFindings one : drawn.each()) {
            if (one.line() instanceof Computed<GeneralLeastSquares> line) {
                all.add(response(one, line.value()));
            }
        }
        if (drawn.pooled().kept().stream().allMatch(k -> k.not().isEmpty())) {
            final SplitKeptFigures ratios = new SplitKeptFigures(drawn);
            all.add(ratios.kept());
            if (drawn.setUps().settings().stream()
                    .allMatch(s -> drawn.together().flows(s).isPresent())) {
                all.add(ratios.twoWays());
            }
        }
        if (drawn.each().stream()
                        .allMatch(e -> drawn.setUps().boilingPoint(e.compound()).isPresent())
                && drawn.pooled().line() instanceof Computed<?>) {
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
        final double t = Quantiles.coverageFactor(drawn.coverage(), line.degreesOfFreedom());
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
                                "where the line lies, " + drawn.percent(),
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
                ratios(
                        drawn.setUps(),
                        "split ratio, total to column",
                        drawn.setUps().conventionOffset()),
                Axis.covering(
                        "decadic logarithm of the "
                                + (drawn.setUps().byAmount() ? "area per amount" : "area"),
                        "",
                        min(ends),
                        max(ends)),
                layers);
    }

    private Figure exponents() {
        final double[] x =
                drawn.each().stream()
                        .mapToDouble(
                                e -> drawn.setUps().boilingPoint(e.compound()).orElse(Double.NaN))
                        .toArray();
        final double[][] y = new double[3][drawn.each().size()];
        for (int i = 0; i < x.length; i++) {
            final int at = i;
            drawn.each()
                    .get(i)
                    .line()
                    .fold(
                            f -> {
                                final double t =
                                        Quantiles.coverageFactor(
                                                drawn.coverage(), f.degreesOfFreedom());
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
                Axis.covering("boiling point", "°C", low, high),
                Axis.covering("exponent", "", min(ends), max(ends)),
                List.of(
                        new Figure.Line(
                                "ideal", Role.REFERENCE, Doubles.of(low, high), Doubles.of(1, 1)),
                        new Figure.Intervals(
                                "compounds, " + drawn.percent(),
                                Role.DATA,
                                Doubles.of(x),
                                Doubles.of(y[0]),
                                Doubles.of(y[1]),
                                Doubles.of(y[2]))));
    }

    /**
     * A logarithmic axis with a tick at every setting.
     *
     * @param add what is added to the ratios of the table
     */
    static Axis ratios(SplitSetUps setUps, String label, double add) {
        final double[] places =
                setUps.settings().stream().mapToDouble(s -> FastMath.log10(s + add)).toArray();
        final List<Tick> ticks = new ArrayList<>();
        for (int i = 0; i < places.length; i++) {
            if (i == 0 || places[i] - ticks.get(ticks.size() - 1).at() > SIDE) {
                ticks.add(new Tick(places[i], Trail.digits(setUps.settings().get(i) + add)));
            }
        }
        return new Axis(label, "", min(places) - SIDE, max(places) + SIDE, ticks);
    }

    /** A natural logarithm as a decadic one. */
    private static double decades(double ln) {
        return ln / FastMath.log(10);
    }

    static double[] concat(double[]... parts) {
        return Arrays.stream(parts).flatMapToDouble(Arrays::stream).toArray();
    }

    static double min(double... v) {
        return Arrays.stream(v).min().orElse(0);
    }

    static double max(double... v) {
        return Arrays.stream(v).max().orElse(1);
    }
}
