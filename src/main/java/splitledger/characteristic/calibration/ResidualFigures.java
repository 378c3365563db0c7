package splitledger.characteristic.calibration;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import splitledger.characteristic.Digits;
import splitledger.propagation.ScatterLine;
import splitledger.propagation.UncertainLine;
import splitledger.statistics.Moments;
import splitledger.study.Doubles;
import splitledger.study.Figure;
import splitledger.study.Figure.Axis;
import splitledger.study.Figure.Layer;
import splitledger.study.Figure.Role;
import splitledger.study.Trail;

/** Distances of the calibrants from their calibration, raw and weighted, and their scatter. */
final class ResidualFigures {
    private static final int STEPS = 30;

    private final Calibrants calibrants;
    private final CalibrationFit fit;
    private final UncertainLine line;
    private final double[] x;

    ResidualFigures(Calibrants calibrants, CalibrationFit fit, UncertainLine line) {
        this.calibrants = calibrants;
        this.fit = fit;
        this.line = line;
        this.x = calibrants.amounts();
    }

    List<Figure> all() {
        final List<Figure> figures = new ArrayList<>(List.of(raw()));
        final boolean scatters = Arrays.stream(x).allMatch(v -> line.scatter(v) > 0);
        if (scatters && grows()) {
            figures.add(weighted());
        }
        if (scatters && line instanceof ScatterLine law) {
            figures.add(scatter(law));
        }
        return figures;
    }

    /** Whether the scatter is larger at the highest level than at the lowest. */
    private boolean grows() {
        final double[] range = calibrants.range();
        return line.scatter(range[1]) > line.scatter(range[0]) * (1 + 1e-9);
    }

    private Figure raw() {
        final double[] r = new double[x.length];
        for (int i = 0; i < x.length; i++) {
            r[i] = calibrants.means()[i] - line.mean(x[i]);
        }
        return figure(
                "residuals",
                "Distance of preparations from the calibration, " + calibrants.compound(),
                "The calibration describes the response if the points of every level lie on both sides of zero.",
                r,
                line.responseUnit());
    }

    private Figure weighted() {
        final double[] r = new double[x.length];
        for (int i = 0; i < x.length; i++) {
            r[i] =
                    (calibrants.means()[i] - line.mean(x[i]))
                            / Math.sqrt(fit.shares().at(i) * line.scatter(x[i]));
        }
        return figure(
                "weighted-residuals",
                "Distance of preparations in standard deviations, " + calibrants.compound(),
                "Each distance over the standard deviation that holds at its level: the points should lie about as far from zero"
                        + " everywhere, most of them within 2.",
                r,
                "SD");
    }

    private Figure figure(String id, String title, String caption, double[] r, String unit) {
        final double reach = Arrays.stream(r).map(Math::abs).max().orElse(1);
        final double high = Arrays.stream(x).max().orElse(1);
        final List<Layer> layers = new ArrayList<>();
        layers.add(
                new Figure.Line(
                        "on the calibration",
                        Role.REFERENCE,
                        Doubles.of(0, high),
                        Doubles.of(0, 0)));
        layers.add(
                new Figure.Points(
                        "means of preparations",
                        Role.DATA,
                        Doubles.of(x),
                        Doubles.of(r),
                        calibrants.preparations().stream()
                                .map(Calibrants.Preparation::label)
                                .toList()));
        return new Figure(
                Figure.safeId(id, calibrants.compound()),
                Calibration.ID,
                calibrants.compound(),
                title,
                caption,
                "Largest distance "
                        + Trail.digits(reach)
                        + ("1".equals(unit) ? "." : " " + unit + "."),
                Axis.covering("amount of " + calibrants.compound(), line.amountUnit(), 0, high),
                Axis.covering("distance", unit, -reach, reach),
                layers);
    }

    /** Standard deviation of preparations against the response, with the fitted law. */
    private Figure scatter(ScatterLine law) {
        final double top = Math.abs(law.mean(calibrants.range()[1]));
        final double[] response = new double[STEPS + 1];
        final double[] sd = new double[STEPS + 1];
        for (int i = 0; i <= STEPS; i++) {
            response[i] = top * i / STEPS;
            sd[i] = Math.sqrt(law.fit().law().variance(response[i]));
        }
        final List<Double> seenAt = new ArrayList<>();
        final List<Double> seen = new ArrayList<>();
        final List<String> names = new ArrayList<>();
        calibrants
                .byLevel()
                .forEach(
                        (label, members) -> {
                            if (members.size() > 1) {
                                final Moments m =
                                        Moments.ofAll(
                                                members.stream()
                                                        .mapToDouble(p -> p.responses().mean())
                                                        .toArray());
                                seenAt.add(Math.abs(m.mean()));
                                seen.add(m.sd());
                                names.add(label);
                            }
                        });
        final double high =
                Math.max(
                        Arrays.stream(sd).max().orElse(1),
                        seen.stream().mapToDouble(v -> v).max().orElse(0));
        final List<Layer> layers = new ArrayList<>();
        layers.add(new Figure.Line("fitted law", Role.FIT, Doubles.of(response), Doubles.of(sd)));
        layers.add(
                new Figure.Points(
                        "preparations of one level",
                        Role.DATA,
                        Doubles.of(seenAt),
                        Doubles.of(seen),
                        names));
        final String unit = "1".equals(law.responseUnit()) ? "" : law.responseUnit();
        return new Figure(
                Figure.safeId("scatter", calibrants.compound()),
                Calibration.ID,
                calibrants.compound(),
                "How far preparations scatter, " + calibrants.compound(),
                "Standard deviation of the preparations of each level, and the law that was found from all of them together. Few"
                        + " preparations a level scatter widely about it by chance alone.",
                "From "
                        + Digits.two(sd[0])
                        + " where the response is 0 to "
                        + Digits.two(sd[STEPS])
                        + " at the highest level"
                        + (unit.isEmpty() ? "." : ", in " + unit + "."),
                Axis.covering(
                        "response of " + calibrants.compound(),
                        unit,
                        0,
                        Math.max(top, maximum(seenAt))),
                Axis.covering("standard deviation of preparations", unit, 0, high),
                layers);
    }

    private static double maximum(List<Double> values) {
        return values.stream().mapToDouble(v -> v).max().orElse(0);
    }
}
