package splitledger.characteristic;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.util.FastMath;
import splitledger.propagation.ScatterLine;
import splitledger.statistics.Limit;
import splitledger.statistics.Outcome;
import splitledger.study.Doubles;
import splitledger.study.Figure;
import splitledger.study.Figure.Axis;
import splitledger.study.Figure.Layer;
import splitledger.study.Figure.Role;
import splitledger.study.Study;

/** What blanks and an amount at the detection limit give, and the documents side by side. */
final class DetectionFigures {
    private static final int STEPS = 120;
    private static final double REACH = 4;
    private static final int NAME = 24;

    /** Axis over longest bar, so that the texts find room. */
    private static final double ROOM = 1.6;

    private final Study study;
    private final String compound;
    private final ScatterLine line;
    private final List<DetectionLimits.Decision> decisions;

    DetectionFigures(
            Study study,
            String compound,
            ScatterLine line,
            List<DetectionLimits.Decision> decisions) {
        this.study = study;
        this.compound = compound;
        this.line = line;
        this.decisions = decisions;
    }

    List<Figure> all() {
        final List<Figure> figures = new ArrayList<>();
        decisions.stream()
                .filter(d -> d.method().equals(DetectionLimits.ISO))
                .findFirst()
                .ifPresent(
                        iso -> {
                            final Optional<Limit> critical = value(iso.critical());
                            final Optional<Limit> limit = value(iso.detection());
                            if (critical.isPresent() && limit.isPresent()) {
                                figures.add(
                                        two(
                                                critical.get().value(),
                                                limit.get().value(),
                                                iso.carried()));
                            }
                        });
        compared().ifPresent(figures::add);
        return figures;
    }

    private static Optional<Limit> value(Outcome<Limit> outcome) {
        return outcome.fold(Optional::of, not -> Optional.empty());
    }

    /** Standard deviation of an amount found where the true one is this. */
    private double sd(double amount) {
        final double variance = line.scatter(amount) + line.fitVariance(0);
        return Math.sqrt(variance) / Math.abs(line.slopeAt(0));
    }

    private Figure two(double critical, double limit, boolean carried) {
        final double blank = sd(0);
        final double there = sd(limit);
        final double low = -REACH * blank;
        final double high = limit + REACH * there;
        final double[] x = new double[STEPS + 1];
        final double[] ofBlank = new double[STEPS + 1];
        final double[] ofLimit = new double[STEPS + 1];
        for (int i = 0; i <= STEPS; i++) {
            x[i] = low + (high - low) * i / STEPS;
            ofBlank[i] = density(x[i] / blank);
            ofLimit[i] = density((x[i] - limit) / there) * blank / there;
        }
        final double top = Math.max(1, blank / there);
        final String unit = line.amountUnit();
        final List<Layer> layers = new ArrayList<>();
        layers.add(tail("taken for something", Role.CONFIDENCE, x, ofBlank, critical, true));
        layers.add(tail("missed", Role.PREDICTION, x, ofLimit, critical, false));
        layers.add(new Figure.Line("nothing there", Role.FIT, Doubles.of(x), Doubles.of(ofBlank)));
        layers.add(
                new Figure.Line(
                        "the detection limit there",
                        Role.OTHER_DATA,
                        Doubles.of(x),
                        Doubles.of(ofLimit)));
        layers.add(
                new Figure.Line(
                        "critical value",
                        Role.REFERENCE,
                        Doubles.of(critical, critical),
                        Doubles.of(0, top)));
        return new Figure(
                Figure.safeId("detection", compound),
                Detection.ID,
                compound,
                "What nothing and the detection limit give, " + compound,
                "Amounts found in many samples that hold nothing, and in many that hold the detection limit (ISO 11843-2). What"
                        + " lies above the critical value is taken for something."
                        + (carried
                                ? ""
                                : " The scatter near nothing was not seen in these data: the picture rests on a guess."),
                "Critical value "
                        + Digits.three(critical)
                        + " "
                        + unit
                        + ", detection limit "
                        + Digits.three(limit)
                        + " "
                        + unit
                        + ".",
                Axis.covering("amount of " + compound + " found", unit, low, high),
                Axis.covering("how often, relative", "", 0, top),
                layers);
    }

    private static double density(double z) {
        return FastMath.exp(-z * z / 2);
    }

    private static Figure.Band tail(
            String name, Role role, double[] x, double[] y, double from, boolean above) {
        final List<Double> places = new ArrayList<>();
        final List<Double> heights = new ArrayList<>();
        for (int i = 0; i < x.length; i++) {
            if (above == x[i] >= from) {
                places.add(x[i]);
                heights.add(y[i]);
            }
        }
        return new Figure.Band(
                name,
                role,
                Doubles.of(places),
                Doubles.of(new double[places.size()]),
                Doubles.of(heights));
    }

    /** Detection limits of all documents that give one. */
    private Optional<Figure> compared() {
        final double coverage = study.protocol().conventions().coverage();
        final List<String> names = new ArrayList<>();
        final List<Double> values = new ArrayList<>();
        final List<String> texts = new ArrayList<>();
        for (DetectionLimits.Decision d : decisions) {
            value(d.detection())
                    .ifPresent(
                            limit -> {
                                names.add(d.method());
                                values.add(limit.value());
                                texts.add(
                                        Digits.two(limit.value())
                                                + (d.carried()
                                                        ? " ("
                                                                + Digits.two(limit.lower(coverage))
                                                                + " to "
                                                                + Digits.two(limit.upper(coverage))
                                                                + ")"
                                                        : " (a guess, no more than "
                                                                + Digits.two(
                                                                        limit.upper(
                                                                                2 * coverage - 1))
                                                                + ")"));
                            });
        }
        if (values.isEmpty()) {
            return Optional.empty();
        }
        final double most = values.stream().mapToDouble(v -> v).max().orElse(1);
        final List<String> said = new ArrayList<>();
        for (int i = 0; i < names.size(); i++) {
            said.add(names.get(i) + " " + texts.get(i));
        }
        return Optional.of(
                new Figure(
                        Figure.safeId("detection-limits", compound),
                        Detection.ID,
                        compound,
                        "Detection limits by document, " + compound,
                        "Each document means something else by the same word; behind each value its interval. How often decisions"
                                + " by them would be wrong stands in the table of findings.",
                        String.join("; ", said) + ", all in " + line.amountUnit() + ".",
                        Axis.covering("detection limit", line.amountUnit(), 0, ROOM * most),
                        new Axis("document", "", 0.5, names.size() + 0.5, List.of()),
                        List.of(
                                new Figure.Bars(
                                        "detection limit",
                                        Role.SHARE,
                                        Doubles.of(values),
                                        names.stream()
                                                .map(
                                                        n ->
                                                                n.length() > NAME
                                                                        ? n.substring(0, NAME)
                                                                        : n)
                                                .toList(),
                                        texts))));
    }
}
