package splitledger.characteristic;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import splitledger.propagation.Uncertain;
import splitledger.propagation.UncertainLine;
import splitledger.statistics.Quantiles;
import splitledger.study.Doubles;
import splitledger.study.Figure;
import splitledger.study.Figure.Axis;
import splitledger.study.Figure.Layer;
import splitledger.study.Figure.Role;
import splitledger.study.Study;
import splitledger.study.Trail;

/** Line with bands, and residuals, of one compound. */
final class CalibrationFigures {
    private static final int STEPS = 60;

    private final Calibrants calibrants;
    private final UncertainLine line;
    private final Responses responses;
    private final double coverage;

    CalibrationFigures(
            Study study, Calibrants calibrants, UncertainLine line, Responses responses) {
        this.calibrants = calibrants;
        this.line = line;
        this.responses = responses;
        this.coverage = study.protocol().conventions().coverage();
    }

    List<Figure> all() {
        return List.of(calibration(), residuals());
    }

    private Figure calibration() {
        final double high = Arrays.stream(calibrants.amounts()).max().orElse(1);
        final double[] x = new double[STEPS + 1];
        final double[] fit = new double[STEPS + 1];
        final double[][] confidence = new double[2][STEPS + 1];
        final double[][] prediction = new double[2][STEPS + 1];
        for (int i = 0; i <= STEPS; i++) {
            x[i] = high * i / STEPS;
            fit[i] = line.mean(x[i]);
            final Uncertain at = line.at(x[i]);
            final double ofLine = at.variance();
            final double t = Quantiles.coverageFactor(coverage, at.degreesOfFreedom());
            final double wide =
                    Quantiles.coverageFactor(
                            coverage,
                            line.near(x[i], calibrants.injectionsAveraged())
                                    .at(x[i])
                                    .degreesOfFreedom());
            final double ofOne = ofLine + line.scatter(x[i]);
            confidence[0][i] = fit[i] - t * Math.sqrt(ofLine);
            confidence[1][i] = fit[i] + t * Math.sqrt(ofLine);
            prediction[0][i] = fit[i] - wide * Math.sqrt(ofOne);
            prediction[1][i] = fit[i] + wide * Math.sqrt(ofOne);
        }
        final List<Layer> layers = new ArrayList<>();
        final String percent = Trail.digits(100 * coverage) + " %";
        layers.add(
                band("where a new preparation lies, " + percent, Role.PREDICTION, x, prediction));
        layers.add(band("where the line lies, " + percent, Role.CONFIDENCE, x, confidence));
        layers.add(new Figure.Line("fitted line", Role.FIT, Doubles.of(x), Doubles.of(fit)));
        layers.add(points("means of preparations", calibrants.means(), false));
        final double top = Math.max(max(prediction[1]), max(calibrants.means()));
        final double bottom = Math.min(0, min(calibrants.means()));
        return new Figure(
                Figure.safeId("calibration", calibrants.compound()),
                Calibration.ID,
                calibrants.compound(),
                "Calibration of " + calibrants.compound(),
                "Each point is the mean of one preparation's injections. The inner band is where the line itself lies, the"
                        + " outer one where the mean of a new preparation lies, each with "
                        + percent
                        + " at any one amount.",
                "Line through "
                        + calibrants.preparations().size()
                        + " preparations at "
                        + calibrants.levels()
                        + " levels, slope "
                        + Trail.digits(line.slope().value())
                        + ", intercept "
                        + Trail.digits(line.intercept().value())
                        + ".",
                Axis.covering("amount of " + calibrants.compound(), line.amountUnit(), 0, high),
                Axis.covering(responses.axis(), line.responseUnit(), bottom, top),
                layers);
    }

    /** Whether the scatter is larger at the highest level than at the lowest. */
    private boolean grows() {
        final double[] range = calibrants.range();
        return line.scatter(range[1]) > line.scatter(range[0]) * (1 + 1e-9);
    }

    private Figure residuals() {
        final boolean relative = grows();
        final double[] x = calibrants.amounts();
        final double[] r = new double[x.length];
        for (int i = 0; i < x.length; i++) {
            final double at = line.mean(x[i]);
            final double residual = calibrants.means()[i] - at;
            r[i] = relative ? 100 * residual / at : residual;
        }
        final double reach = Math.max(Math.abs(min(r)), Math.abs(max(r)));
        final double high = max(x);
        final List<Layer> layers = new ArrayList<>();
        layers.add(
                new Figure.Line(
                        "on the line", Role.REFERENCE, Doubles.of(0, high), Doubles.of(0, 0)));
        layers.add(points("means of preparations", r, true));
        return new Figure(
                Figure.safeId("residuals", calibrants.compound()),
                Calibration.ID,
                calibrants.compound(),
                "Distance of preparations from the line, " + calibrants.compound(),
                "A line describes the response if the points of every level lie on both sides of zero"
                        + (relative
                                ? "; shown in percent of the response, since the scatter grows with the amount."
                                : "."),
                "Largest distance "
                        + Trail.digits(reach)
                        + (relative ? " percent of the response" : "")
                        + ".",
                Axis.covering("amount of " + calibrants.compound(), line.amountUnit(), 0, high),
                Axis.covering(
                        "distance from the line",
                        relative ? "% of the response" : line.responseUnit(),
                        -reach,
                        reach),
                layers);
    }

    private Figure.Points points(String name, double[] y, boolean named) {
        final List<String> labels =
                calibrants.preparations().stream().map(p -> named ? p.label() : "").toList();
        return new Figure.Points(
                name, Role.DATA, Doubles.of(calibrants.amounts()), Doubles.of(y), labels);
    }

    private static Figure.Band band(String name, Role role, double[] x, double[][] ends) {
        return new Figure.Band(name, role, Doubles.of(x), Doubles.of(ends[0]), Doubles.of(ends[1]));
    }

    private static double max(double[] values) {
        return Arrays.stream(values).max().orElse(0);
    }

    private static double min(double[] values) {
        return Arrays.stream(values).min().orElse(0);
    }
}
