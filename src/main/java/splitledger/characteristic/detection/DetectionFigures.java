package splitledger.characteristic.detection;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.apache.commons.math3.util.FastMath;
import splitledger.characteristic.Digits;
import splitledger.propagation.ScatterLine;
import splitledger.statistics.Limit;
import splitledger.statistics.Outcome;
import splitledger.study.Answer;
import splitledger.study.Doubles;
import splitledger.study.Figure;
import splitledger.study.Figure.Axis;
import splitledger.study.Figure.Layer;
import splitledger.study.Figure.Role;
import splitledger.study.Finding;
import splitledger.study.Study;

/** What blanks and an amount at the detection limit give, and the documents side by side. */
final class DetectionFigures {
    private static final int STEPS = 120;
    private static final double REACH = 4;
    private static final double PERCENT = 100;
    private static final double LEAST_RATE = 1e-3;
    private static final int NAME = 27;

    /** Axis over longest bar, so that the texts find room. */
    private static final double ROOM = 1.9;

    private final Study study;
    private final String compound;
    private final ScatterLine line;
    private final List<DetectionLimits.Decision> decisions;
    private final List<Finding> found;

    /**
     * Figures of one compound.
     *
     * @param found findings so far, error rates of decisions among them if they were asked for
     */
    DetectionFigures(
            Study study,
            String compound,
            ScatterLine line,
            List<DetectionLimits.Decision> decisions,
            List<Finding> found) {
        this.found = List.copyOf(found);
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

    /** A document's limit. */
    private record Bar(String name, double value, String text) {}

    private List<Bar> bars() {
        final double coverage = study.protocol().conventions().coverage();
        final List<Bar> bars = new ArrayList<>();
        for (DetectionLimits.Decision d : decisions) {
            value(d.detection())
                    .ifPresent(
                            limit ->
                                    bars.add(
                                            new Bar(
                                                    d.method(),
                                                    limit.value(),
                                                    d.carried()
                                                            ? interval(
                                                                    limit.value(),
                                                                    limit.lower(coverage),
                                                                    limit.upper(coverage))
                                                            : Digits.two(limit.value())
                                                                    + " (a guess, no more than "
                                                                    + Digits.two(
                                                                            limit.upper(
                                                                                    2 * coverage
                                                                                            - 1))
                                                                    + ")")));
        }
        for (Finding f : found) {
            if (f.key().method().equals(MethodDetectionLimit.METHOD)
                    && f.key().quantity().equals(MethodDetectionLimit.QUANTITY)
                    && f.key().condition().isEmpty()
                    && f.answer() instanceof Answer.Estimate e) {
                bars.add(
                        new Bar(
                                f.key().method(),
                                e.value(),
                                interval(e.value(), e.lower(), e.upper())));
            }
        }
        return bars.stream().map(b -> new Bar(b.name(), b.value(), b.text() + rates(b))).toList();
    }

    private static String interval(double value, double lower, double upper) {
        return Digits.two(value) + " (" + Digits.two(lower) + " to " + Digits.two(upper) + ")";
    }

    /** How often decisions by a limit would be wrong, on a line of its own; empty if not asked. */
    private String rates(Bar bar) {
        return rate(bar.name(), DetectionRates.POSITIVE)
                .flatMap(
                        alarms ->
                                rate(bar.name(), DetectionRates.NEGATIVE)
                                        .map(
                                                misses ->
                                                        "\nfalse alarms "
                                                                + alarms
                                                                + ", misses "
                                                                + misses))
                .orElse("");
    }

    /** Over repetitions of the whole experiment. */
    private Optional<String> rate(String method, String quantity) {
        return found.stream()
                .filter(f -> f.key().quantity().equals(quantity))
                .filter(f -> f.key().method().equals(method) && f.key().condition().isEmpty())
                .map(Finding::answer)
                .filter(Answer.Estimate.class::isInstance)
                .map(a -> ((Answer.Estimate) a).value())
                .map(v -> v < LEAST_RATE ? "below 0.1 %" : Digits.two(PERCENT * v) + " %")
                .findFirst();
    }

    /** Detection limits of all documents that give one, with what decisions by them do. */
    private Optional<Figure> compared() {
        final List<Bar> bars = bars();
        if (bars.isEmpty()) {
            return Optional.empty();
        }
        final double most = bars.stream().mapToDouble(Bar::value).max().orElse(1);
        final boolean rated = bars.stream().anyMatch(b -> b.text().indexOf('\n') >= 0);
        final String said =
                bars.stream()
                        .map(b -> b.name() + " " + b.text().replace("\n", ", "))
                        .collect(Collectors.joining("; "));
        return Optional.of(
                new Figure(
                        Figure.safeId("detection-limits", compound),
                        Detection.ID,
                        compound,
                        "Detection limits by document, " + compound,
                        "Each document means something else by the same word; behind each value its interval."
                                + (rated
                                        ? " False alarms: how often nothing would be taken for something; misses: how often an"
                                                + " amount at the limit would not be seen, with a new calibration each time."
                                        : ""),
                        said + ", all in " + line.amountUnit() + ".",
                        Axis.covering("detection limit", line.amountUnit(), 0, ROOM * most),
                        new Axis("document", "", 0.5, bars.size() + 0.5, List.of()),
                        List.of(
                                new Figure.Bars(
                                        "detection limit",
                                        Role.SHARE,
                                        Doubles.of(bars.stream().mapToDouble(Bar::value).toArray()),
                                        bars.stream().map(b -> shortName(b.name())).toList(),
                                        bars.stream().map(Bar::text).toList()))));
    }

    private static String shortName(String name) {
        return name.length() > NAME ? name.substring(0, NAME) : name;
    }
}
