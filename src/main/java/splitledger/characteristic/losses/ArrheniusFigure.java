package splitledger.characteristic.losses;

import java.util.ArrayList;
import java.util.List;
import splitledger.characteristic.Digits;
import splitledger.propagation.Uncertain;
import splitledger.study.Figure;
import splitledger.study.Figure.Axis;
import splitledger.study.Figure.Layer;

/** Logarithm of the apparent rate over the inverse temperature, with its line. */
final class ArrheniusFigure {
    private final LossRows rows;
    private final LossCurves curves;

    ArrheniusFigure(LossRows rows, double coverage) {
        this.rows = rows;
        curves = new LossCurves(rows, coverage);
    }

    /** Draws it. */
    Figure of(LossLine line) {
        final List<Layer> layers = new ArrayList<>();
        final LossCurves.Range x = new LossCurves.Range();
        final LossCurves.Range y = new LossCurves.Range();
        final double hot = LossLine.inverse(line.hottest());
        final double cold = LossLine.inverse(line.coldest());
        LossCurves.curve(
                "Arrhenius line",
                curves.band().replace("curve", "line"),
                hot,
                cold,
                v -> line.logRate(temperature(v)).value(),
                v -> {
                    final Uncertain k = line.logRate(temperature(v));
                    return k.value() - curves.half(k);
                },
                v -> {
                    final Uncertain k = line.logRate(temperature(v));
                    return k.value() + curves.half(k);
                },
                layers,
                y);
        int series = 0;
        for (LossRows.Group flow : rows.flows()) {
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
            LossCurves.intervals(
                    curves.named("rate, with twice its scatter", flow),
                    series,
                    at,
                    value,
                    low,
                    high,
                    layers,
                    y);
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
                Axis.covering("1000 / inlet temperature", "1/K", x.low(), x.high()),
                Axis.covering(
                        rows.absolute() ? "ln(rate · s)" : "ln(rate), arbitrary zero",
                        "",
                        y.low(),
                        y.high()),
                layers);
    }

    private static double temperature(double inverse) {
        return 1000 / inverse - 273.15;
    }
}
