package splitledger.characteristic.losses;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.apache.commons.math3.util.FastMath;
import splitledger.characteristic.Digits;
import splitledger.propagation.Uncertain;
import splitledger.statistics.Outcome;
import splitledger.study.Doubles;
import splitledger.study.Figure;
import splitledger.study.Figure.Axis;
import splitledger.study.Figure.Layer;
import splitledger.study.Figure.Role;
import splitledger.study.Trail;

/** Breakdown over the inlet temperature, with its curve and its limit. */
final class BreakdownFigure {
    private static final double PERCENT = 100;

    private final LossRows rows;
    private final LossCurves curves;

    BreakdownFigure(LossRows rows, double coverage) {
        this.rows = rows;
        curves = new LossCurves(rows, coverage);
    }

    /** Breakdown of areas over the temperature, with the limit. */
    Figure of(LossBasis basis, Outcome<LossLine> line, OptionalDouble limit) {
        final List<Layer> layers = new ArrayList<>();
        final LossCurves.Range x = new LossCurves.Range();
        final LossCurves.Range y = new LossCurves.Range();
        y.add(0);
        for (LossRows.Group flow : rows.flows()) {
            line.fold(
                    l -> {
                        LossCurves.curve(
                                curves.named("by the Arrhenius line", flow),
                                curves.named(curves.band(), flow),
                                l.coldest(),
                                l.hottest(),
                                t -> broken(l.logTimes(t, flow).value()),
                                t -> {
                                    final Uncertain h = l.logTimes(t, flow);
                                    return broken(h.value() - curves.half(h));
                                },
                                t -> {
                                    final Uncertain h = l.logTimes(t, flow);
                                    return broken(h.value() + curves.half(h));
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
        for (LossRows.Group flow : rows.flows()) {
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
                low[i] = PERCENT * (u.value() - curves.half(u));
                high[i] = PERCENT * (u.value() + curves.half(u));
                most = Math.max(most, value[i]);
            }
            LossCurves.intervals(
                    curves.named("breakdown, mean of the injections", flow),
                    series,
                    at,
                    value,
                    low,
                    high,
                    layers,
                    y);
            series++;
        }
        if (limit.isPresent()) {
            final double at = PERCENT * limit.getAsDouble();
            y.add(at);
            layers.add(
                    new Figure.Line(
                            "limit",
                            Role.REFERENCE,
                            Doubles.of(x.low(), x.high()),
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
                        + Trail.digits(x.low())
                        + " to "
                        + Trail.digits(x.high())
                        + " degC; at most "
                        + Digits.three(most)
                        + " percent.",
                Axis.covering("inlet temperature", "°C", x.low(), x.high()),
                Axis.covering("breakdown", "%", y.low(), y.high()),
                layers);
    }

    /** 1 - exp(-exp(h)) in percent. */
    private static double broken(double h) {
        return -PERCENT * FastMath.expm1(-FastMath.exp(h));
    }
}
