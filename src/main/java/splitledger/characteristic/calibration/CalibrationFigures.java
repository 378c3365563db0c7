package splitledger.characteristic.calibration;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import splitledger.characteristic.Digits;
import splitledger.characteristic.Responses;
import splitledger.propagation.UncertainLine;
import splitledger.statistics.Quantiles;
import splitledger.study.Answer;
import splitledger.study.Doubles;
import splitledger.study.Figure;
import splitledger.study.Figure.Axis;
import splitledger.study.Figure.Layer;
import splitledger.study.Figure.Role;
import splitledger.study.Finding;
import splitledger.study.Study;
import splitledger.study.Trail;

/** Calibration of one compound with bands and an amount read off it. */
final class CalibrationFigures {
    private static final int STEPS = 60;
    private static final int EACH = 6;

    private final CalibrationFit fit;
    private final List<Finding> predicted;
    private final Calibrants calibrants;
    private final UncertainLine line;
    private final Responses responses;
    private final double coverage;

    /**
     * For one compound.
     *
     * @param predicted amounts found, of which the middle one is drawn in
     */
    CalibrationFigures(
            Study study,
            Calibrants calibrants,
            CalibrationFit fit,
            UncertainLine line,
            Responses responses,
            List<Finding> predicted) {
        this.fit = fit;
        this.predicted = predicted;
        this.calibrants = calibrants;
        this.line = line;
        this.responses = responses;
        this.coverage = study.protocol().conventions().coverage();
    }

    List<Figure> all() {
        final List<Figure> figures = new ArrayList<>(List.of(calibration()));
        figures.addAll(new ResidualFigures(calibrants, fit, line).all());
        return figures;
    }

    private Figure calibration() {
        final double high = Arrays.stream(calibrants.amounts()).max().orElse(1);
        final double[] x = new double[STEPS + 1];
        final double[] curve = new double[STEPS + 1];
        final double[][] confidence = new double[2][STEPS + 1];
        final double[][] prediction = new double[2][STEPS + 1];
        final double[][] factors = factors(high);
        for (int i = 0; i <= STEPS; i++) {
            x[i] = high * i / STEPS;
            curve[i] = line.mean(x[i]);
            final double ofLine = line.at(x[i]).variance();
            final double ofOne = ofLine + line.scatter(x[i]);
            final double t = between(factors[0], i);
            final double wide = between(factors[1], i);
            confidence[0][i] = curve[i] - t * Math.sqrt(ofLine);
            confidence[1][i] = curve[i] + t * Math.sqrt(ofLine);
            prediction[0][i] = curve[i] - wide * Math.sqrt(ofOne);
            prediction[1][i] = curve[i] + wide * Math.sqrt(ofOne);
        }
        final List<Layer> layers = new ArrayList<>();
        final String percent = Trail.digits(100 * coverage) + " %";
        layers.add(
                band("where a new preparation lies, " + percent, Role.PREDICTION, x, prediction));
        layers.add(band("where the line lies, " + percent, Role.CONFIDENCE, x, confidence));
        layers.add(new Figure.Line("fitted line", Role.FIT, Doubles.of(x), Doubles.of(curve)));
        final String drawn = readOff(layers);
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
                        + " at any one amount."
                        + (drawn.isEmpty()
                                ? ""
                                : " The dashed lines lead from a response to its amount and to both ends of its interval."),
                "Line through "
                        + calibrants.preparations().size()
                        + " preparations at "
                        + calibrants.levels()
                        + " levels, slope "
                        + Trail.digits(line.slope().value())
                        + ", intercept "
                        + Trail.digits(line.intercept().value())
                        + "."
                        + drawn,
                Axis.covering("amount of " + calibrants.compound(), line.amountUnit(), 0, high),
                Axis.covering(responses.axis(), line.responseUnit(), bottom, top),
                layers);
    }

    /**
     * Coverage factors of both bands at every sixth step: they change little from one to the next.
     */
    private double[][] factors(double high) {
        final double[][] factors = new double[2][STEPS / EACH + 1];
        final double m = calibrants.injectionsAveraged();
        for (int i = 0; i < factors[0].length; i++) {
            final double x = high * i * EACH / STEPS;
            factors[0][i] = Quantiles.coverageFactor(coverage, line.at(x).degreesOfFreedom());
            factors[1][i] =
                    Quantiles.coverageFactor(coverage, line.near(x, m).at(x).degreesOfFreedom());
        }
        return factors;
    }

    private static double between(double[] nodes, int step) {
        final int i = Math.min(step / EACH, nodes.length - 2);
        final double part = (step - (double) i * EACH) / EACH;
        return nodes[i] + part * (nodes[i + 1] - nodes[i]);
    }

    /** Draws how the middle one of the amounts found is read off; says it in words. */
    private String readOff(List<Layer> layers) {
        final List<Finding> found =
                predicted.stream()
                        .filter(f -> f.key().method().equals(Predictions.EXACT))
                        .filter(f -> f.answer() instanceof Answer.Estimate)
                        .sorted(
                                Comparator.comparingDouble(
                                        f -> ((Answer.Estimate) f.answer()).value()))
                        .toList();
        if (found.isEmpty()) {
            return "";
        }
        final Finding middle = found.get(found.size() / 2);
        final Answer.Estimate e = (Answer.Estimate) middle.answer();
        if (!(e.lower() > 0) || e.upper() > calibrants.range()[1]) {
            return "";
        }
        final double y = line.mean(e.value());
        final double gap = Double.NaN;
        layers.add(
                new Figure.Line(
                        "amount read off",
                        Role.REFERENCE,
                        Doubles.of(
                                0, e.upper(), gap, e.lower(), e.lower(), gap, e.value(), e.value(),
                                gap, e.upper(), e.upper()),
                        Doubles.of(y, y, gap, y, 0, gap, y, 0, gap, y, 0)));
        return " Read off for "
                + middle.key().conditionText().replace('=', ' ')
                + ": "
                + Digits.three(e.value())
                + " "
                + e.unit()
                + ", between "
                + Digits.three(e.lower())
                + " and "
                + Digits.three(e.upper())
                + ".";
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
