package splitledger.characteristic.losses;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.util.FastMath;
import splitledger.characteristic.Digits;
import splitledger.characteristic.discrimination.DiscriminationModel;
import splitledger.propagation.Uncertain;
import splitledger.statistics.Outcome;
import splitledger.statistics.Quantiles;
import splitledger.study.Compounds.Compound;
import splitledger.study.Doubles;
import splitledger.study.Figure;
import splitledger.study.Figure.Axis;
import splitledger.study.Figure.Layer;
import splitledger.study.Figure.Role;
import splitledger.study.Trail;

/**
 * Breakdown over temperature, Arrhenius line, and the ladder with the labile compound beside it.
 */
final class LossFigures {
    private static final int POINTS = 60;
    private static final double PERCENT = 100;

    private final LossRows rows;
    private final double coverage;

    LossFigures(LossRows rows, double coverage) {
        this.rows = rows;
        this.coverage = coverage;
    }

    /** What an axis must hold. */
    private static final class Range {
        private double low = Double.POSITIVE_INFINITY;
        private double high = Double.NEGATIVE_INFINITY;

        void add(double... values) {
            for (double v : values) {
                low = Math.min(low, v);
                high = Math.max(high, v);
            }
        }
    }

    /** A curve with its band at evenly spaced places. */
    private static void curve(
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

    private double half(Uncertain u) {
        return u.standardUncertainty() > 0
                ? Quantiles.coverageFactor(coverage, u.degreesOfFreedom()) * u.standardUncertainty()
                : 0;
    }

    private String band() {
        return Trail.digits(PERCENT * coverage) + " % band of the curve";
    }

    /** The ratios of the series, in order of temperature and ratio. */
    private List<LossRows.Group> ratios() {
        final List<LossRows.Group> one = new ArrayList<>();
        for (LossRows.Group g : rows.groups()) {
            if (one.stream().noneMatch(o -> Double.compare(o.ratio(), g.ratio()) == 0)) {
                one.add(g);
            }
        }
        return one;
    }

    private String named(String what, LossRows.Group g) {
        return rows.severalRatios() ? what + ", ratio " + Trail.digits(g.ratio()) : what;
    }

    /** Breakdown of areas over the temperature, with the limit. */
    Figure breakdown(LossBasis basis, Outcome<LossLine> line, OptionalDouble limit) {
        final List<Layer> layers = new ArrayList<>();
        final Range x = new Range();
        final Range y = new Range();
        y.add(0);
        for (LossRows.Group flow : ratios()) {
            line.fold(
                    l -> {
                        curve(
                                named("by the Arrhenius line", flow),
                                named(band(), flow),
                                l.coldest(),
                                l.hottest(),
                                t -> broken(l.logTimes(t, flow).value()),
                                t -> {
                                    final Uncertain h = l.logTimes(t, flow);
                                    return broken(h.value() - half(h));
                                },
                                t -> {
                                    final Uncertain h = l.logTimes(t, flow);
                                    return broken(h.value() + half(h));
                                },
                                layers,
                                y);
                        return true;
                    },
                    not -> false);
        }
        int series = 0;
        int hidden = 0;
        double most = 0;
        for (LossRows.Group flow : ratios()) {
            final List<LossRows.Group> own =
                    rows.groups().stream()
                            .filter(g -> Double.compare(g.ratio(), flow.ratio()) == 0)
                            .filter(g -> !Double.isNaN(g.temperature()))
                            .toList();
            final List<LossRows.Group> seen = own.stream().filter(g -> !g.hidden()).toList();
            hidden += own.size() - seen.size();
            own.forEach(g -> x.add(g.temperature()));
            final double[] at = seen.stream().mapToDouble(LossRows.Group::temperature).toArray();
            final double[] value = new double[at.length];
            final double[] low = new double[at.length];
            final double[] high = new double[at.length];
            for (int i = 0; i < at.length; i++) {
                final Uncertain u = basis.of(seen.get(i));
                value[i] = PERCENT * u.value();
                low[i] = PERCENT * (u.value() - half(u));
                high[i] = PERCENT * (u.value() + half(u));
                most = Math.max(most, value[i]);
            }
            y.add(low);
            y.add(high);
            layers.add(
                    new Figure.Intervals(
                            named("breakdown, mean of the injections", flow),
                            series == 0 ? Role.DATA : Role.OTHER_DATA,
                            Doubles.of(at),
                            Doubles.of(value),
                            Doubles.of(low),
                            Doubles.of(high)));
            series++;
        }
        if (limit.isPresent()) {
            final double at = PERCENT * limit.getAsDouble();
            y.add(at);
            layers.add(
                    new Figure.Line(
                            "limit",
                            Role.REFERENCE,
                            Doubles.of(x.low, x.high),
                            Doubles.of(at, at)));
        }
        return new Figure(
                Figure.safeId("breakdown", rows.parent()),
                Losses.ID,
                rows.parent(),
                "Breakdown of " + rows.parent() + " by inlet temperature",
                "Each point is the share of the compound found as its products, of areas as they are."
                        + " Where the curve crosses the limit is the highest temperature to use, for this"
                        + " flow, liner and amount."
                        + (hidden > 0
                                ? " Temperatures at which a product was not found have only a bound and no"
                                        + " point."
                                : ""),
                "Breakdown of "
                        + rows.parent()
                        + " from "
                        + Trail.digits(x.low)
                        + " to "
                        + Trail.digits(x.high)
                        + " degC; at most "
                        + Digits.three(most)
                        + " percent.",
                Axis.covering("inlet temperature", "°C", x.low, x.high),
                Axis.covering("breakdown", "%", y.low, y.high),
                layers);
    }

    /** 1 - exp(-exp(h)) in percent. */
    private static double broken(double h) {
        return -PERCENT * FastMath.expm1(-FastMath.exp(h));
    }

    /** Logarithm of the rate over the inverse temperature. */
    Figure arrhenius(LossLine line) {
        final List<Layer> layers = new ArrayList<>();
        final Range x = new Range();
        final Range y = new Range();
        final double hot = LossLine.inverse(line.hottest());
        final double cold = LossLine.inverse(line.coldest());
        curve(
                "Arrhenius line",
                band().replace("curve", "line"),
                hot,
                cold,
                v -> line.logRate(temperature(v)).value(),
                v -> {
                    final Uncertain k = line.logRate(temperature(v));
                    return k.value() - half(k);
                },
                v -> {
                    final Uncertain k = line.logRate(temperature(v));
                    return k.value() + half(k);
                },
                layers,
                y);
        int series = 0;
        for (LossRows.Group flow : ratios()) {
            final List<LossLine.Point> own =
                    line.points().stream()
                            .filter(p -> Double.compare(p.group().ratio(), flow.ratio()) == 0)
                            .toList();
            final double[] at = own.stream().mapToDouble(LossLine.Point::inverse).toArray();
            final double[] value = own.stream().mapToDouble(LossLine.Point::logRate).toArray();
            final double[] low = new double[at.length];
            final double[] high = new double[at.length];
            for (int i = 0; i < at.length; i++) {
                final double twice = 2 * own.get(i).uncertainty();
                low[i] = value[i] - twice;
                high[i] = value[i] + twice;
            }
            x.add(at);
            y.add(low);
            y.add(high);
            layers.add(
                    new Figure.Intervals(
                            named("rate, with twice its scatter", flow),
                            series == 0 ? Role.DATA : Role.OTHER_DATA,
                            Doubles.of(at),
                            Doubles.of(value),
                            Doubles.of(low),
                            Doubles.of(high)));
            series++;
        }
        final Uncertain energy = line.activationEnergy();
        return new Figure(
                Figure.safeId("arrhenius", rows.parent()),
                Losses.ID,
                rows.parent(),
                "Apparent rate of the breakdown of " + rows.parent(),
                "The hotter, the further to the left. A straight line means one activation energy; points"
                        + " that bend away at low temperature speak for a surface that is at work there.",
                line.points().size()
                        + " conditions about a line; activation energy "
                        + Digits.three(energy.value())
                        + " kJ/mol.",
                Axis.covering("1000 / inlet temperature", "1/K", x.low, x.high),
                Axis.covering(
                        rows.absolute() ? "ln(rate · s)" : "ln(rate), arbitrary zero",
                        "",
                        y.low,
                        y.high),
                layers);
    }

    private static double temperature(double inverse) {
        return 1000 / inverse - 273.15;
    }

    /** The ladder without what decomposes, and the parent below its curve. */
    Figure ladder(LossDeficit deficit) {
        final DiscriminationModel model = deficit.ladder().model();
        final double[] b = model.boilingPoints();
        final int found =
                model.members().stream()
                        .map(Compound::name)
                        .toList()
                        .indexOf(deficit.ladder().reference());
        final int light = Math.max(0, found);
        final double zero = model.chosen().value(b[light]);
        final List<Layer> layers = new ArrayList<>();
        final Range y = new Range();
        curve(
                "curve of the ladder",
                band(),
                b[0],
                b[b.length - 1],
                at -> PERCENT * FastMath.exp(model.curve(at, b[light]).value()),
                at -> {
                    final Uncertain c = model.curve(at, b[light]);
                    return PERCENT * FastMath.exp(c.value() - half(c));
                },
                at -> {
                    final Uncertain c = model.curve(at, b[light]);
                    return PERCENT * FastMath.exp(c.value() + half(c));
                },
                layers,
                y);
        final double[] members = new double[b.length];
        for (int i = 0; i < b.length; i++) {
            members[i] = PERCENT * FastMath.exp(model.means()[i] - zero);
        }
        y.add(members);
        layers.add(
                new Figure.Points(
                        "members of the ladder",
                        Role.DATA,
                        Doubles.of(b),
                        Doubles.of(members),
                        model.members().stream().map(Compound::name).toList()));
        final double at = deficit.parent().boilingPoint().orElseThrow();
        final double curve = model.chosen().value(at) - zero;
        final List<LossRows.Group> groups = rows.groups();
        final double[] x = new double[groups.size()];
        final double[] value = new double[x.length];
        final List<String> labels = new ArrayList<>();
        double least = Double.POSITIVE_INFINITY;
        for (int i = 0; i < x.length; i++) {
            x[i] = at;
            value[i] = PERCENT * FastMath.exp(curve + deficit.log(groups.get(i)).value());
            least = Math.min(least, value[i]);
            labels.add(
                    Double.isNaN(groups.get(i).temperature())
                            ? rows.parent()
                            : Trail.digits(groups.get(i).temperature()) + " °C");
        }
        y.add(value);
        layers.add(
                new Figure.Points(
                        rows.parent() + ", one point a condition",
                        Role.OTHER_DATA,
                        Doubles.of(x),
                        Doubles.of(value),
                        labels));
        return new Figure(
                Figure.safeId("ladder-and", rows.parent()),
                Losses.ID,
                rows.parent(),
                "Ladder, and " + rows.parent() + " beside it",
                "What a point of "
                        + rows.parent()
                        + " lies below the curve is missing and not explained by its boiling point: it"
                        + " decomposed, stuck, or its amount or response is not as stated.",
                b.length
                        + " members of the ladder with their curve; the lowest point of "
                        + rows.parent()
                        + " stands at "
                        + Digits.three(least)
                        + " percent, the curve there at "
                        + Digits.three(PERCENT * FastMath.exp(curve))
                        + " percent.",
                Axis.covering("boiling point", "°C", b[0], b[b.length - 1]),
                Axis.covering("relative response", "%", y.low, y.high),
                layers);
    }
}
