package splitledger.characteristic.recovery;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import splitledger.characteristic.Digits;
import splitledger.propagation.Uncertain;
import splitledger.study.Criterion;
import splitledger.study.Doubles;
import splitledger.study.Figure;
import splitledger.study.Figure.Axis;
import splitledger.study.Figure.Layer;
import splitledger.study.Figure.Role;
import splitledger.study.Figure.Tick;
import splitledger.study.Study;

/** Recovery by level with single preparations, intervals, all levels together and limits. */
final class RecoveryFigures {
    private static final double PERCENT = 100;
    private static final double SIDE = 0.12;

    private final Study study;
    private final double coverage;

    RecoveryFigures(Study study) {
        this.study = study;
        this.coverage = study.protocol().conventions().coverage();
    }

    /** One figure a result that has any level with an interval. */
    List<Figure> of(List<RecoveryResult> results) {
        return results.stream()
                .filter(r -> !r.units().isEmpty())
                .filter(r -> r.levels().stream().anyMatch(l -> isComputed(l)))
                .map(this::figure)
                .toList();
    }

    private static boolean isComputed(RecoveryEstimate estimate) {
        return estimate.value().fold(v -> true, n -> false);
    }

    private Figure figure(RecoveryResult result) {
        final List<RecoveryEstimate> levels = result.levels();
        final double right = levels.size() + 0.5;
        final List<Layer> layers = new ArrayList<>();
        final List<Double> seen = new ArrayList<>(List.of(PERCENT));
        layers.add(line("all of it", Role.REFERENCE, 0.5, right, PERCENT));
        limits(result, right, layers, seen);
        pooled(result, right, layers, seen);
        single(result, layers, seen);
        intervals(levels, layers, seen);
        final double low = seen.stream().mapToDouble(v -> v).min().orElse(PERCENT);
        final double high = seen.stream().mapToDouble(v -> v).max().orElse(PERCENT);
        return new Figure(
                Figure.safeId("recovery-" + result.kind().condition(), result.compound()),
                Recovery.ID,
                result.compound(),
                "Recovery by level, " + words(result.kind()) + ", " + result.compound(),
                "Points are single "
                        + (result.kind() == RecoveryKind.TRANSFER ? "units" : "preparations")
                        + ", the bars at a level where its mean lies with "
                        + Digits.three(PERCENT * coverage)
                        + " %. An interval that holds 100 % shows no difference from it."
                        + " The band is where the recovery of all levels together lies, if they agree.",
                told(result),
                new Axis("level", "", 0.5, right, ticks(levels)),
                Axis.covering("recovery", "%", low, high),
                layers);
    }

    private static String words(RecoveryKind kind) {
        return kind.condition().replace('-', ' ');
    }

    private static List<Tick> ticks(List<RecoveryEstimate> levels) {
        return IntStream.range(0, levels.size())
                .mapToObj(
                        i ->
                                new Tick(
                                        i + 1.0,
                                        levels.get(i).level().isEmpty()
                                                ? "all"
                                                : levels.get(i).level()))
                .toList();
    }

    private static Figure.Line line(String name, Role role, double left, double right, double y) {
        return new Figure.Line(name, role, Doubles.of(left, right), Doubles.of(y, y));
    }

    /** Limits of the protocol for this compound's recovery, whatever their level. */
    private void limits(
            RecoveryResult result, double right, List<Layer> layers, List<Double> seen) {
        for (Criterion c : study.protocol().requirements()) {
            final boolean about =
                    c.quantity().equals("recovery")
                            && c.of().map(result.compound()::equals).orElse(true)
                            && c.condition()
                                    .getOrDefault("kind", result.kind().condition())
                                    .equals(result.kind().condition())
                            && !c.condition().containsKey("level");
            if (about) {
                final double scale = "%".equals(c.unit()) ? 1 : PERCENT;
                for (double limit : ends(c.limit())) {
                    layers.add(
                            line(
                                    "limit of the protocol",
                                    Role.REFERENCE,
                                    0.5,
                                    right,
                                    limit * scale));
                    seen.add(limit * scale);
                }
            }
        }
    }

    private static double[] ends(Criterion.Limit limit) {
        if (limit instanceof Criterion.Limit.AtMost most) {
            return new double[] {most.limit()};
        }
        if (limit instanceof Criterion.Limit.AtLeast least) {
            return new double[] {least.limit()};
        }
        final Criterion.Limit.Within within = (Criterion.Limit.Within) limit;
        return new double[] {within.equals() - within.margin(), within.equals() + within.margin()};
    }

    private void pooled(
            RecoveryResult result, double right, List<Layer> layers, List<Double> seen) {
        result.pooled()
                .value()
                .fold(
                        r -> {
                            final double half = half(r);
                            final double low = PERCENT * (r.value() - half);
                            final double high = PERCENT * (r.value() + half);
                            layers.add(
                                    new Figure.Band(
                                            "all levels together, "
                                                    + Digits.three(PERCENT * coverage)
                                                    + " %",
                                            Role.CONFIDENCE,
                                            Doubles.of(0.5, right),
                                            Doubles.of(low, low),
                                            Doubles.of(high, high)));
                            layers.add(
                                    line(
                                            "all levels together",
                                            Role.FIT,
                                            0.5,
                                            right,
                                            PERCENT * r.value()));
                            seen.add(low);
                            return seen.add(high);
                        },
                        not -> false);
    }

    private static void single(RecoveryResult result, List<Layer> layers, List<Double> seen) {
        final List<Double> x = new ArrayList<>();
        final List<Double> y = new ArrayList<>();
        for (int i = 0; i < result.levels().size(); i++) {
            final String level = result.levels().get(i).level();
            for (RecoveryUnit unit : result.units()) {
                if (unit.level().equals(level)) {
                    x.add(i + 1 - SIDE);
                    y.add(PERCENT * unit.recovery().value());
                }
            }
        }
        seen.addAll(y);
        final String[] none = new String[x.size()];
        Arrays.fill(none, "");
        layers.add(
                new Figure.Points(
                        result.kind() == RecoveryKind.TRANSFER
                                ? "single units"
                                : "single preparations",
                        Role.OTHER_DATA,
                        Doubles.of(x),
                        Doubles.of(y),
                        List.of(none)));
    }

    private void intervals(List<RecoveryEstimate> levels, List<Layer> layers, List<Double> seen) {
        final List<Double> x = new ArrayList<>();
        final List<Double> y = new ArrayList<>();
        final List<Double> low = new ArrayList<>();
        final List<Double> high = new ArrayList<>();
        for (int i = 0; i < levels.size(); i++) {
            final double at = i + 1 + SIDE;
            levels.get(i)
                    .value()
                    .fold(
                            r -> {
                                x.add(at);
                                y.add(PERCENT * r.value());
                                low.add(PERCENT * (r.value() - half(r)));
                                return high.add(PERCENT * (r.value() + half(r)));
                            },
                            not -> false);
        }
        seen.addAll(low);
        seen.addAll(high);
        layers.add(
                new Figure.Intervals(
                        "mean of a level, " + Digits.three(PERCENT * coverage) + " %",
                        Role.DATA,
                        Doubles.of(x),
                        Doubles.of(y),
                        Doubles.of(low),
                        Doubles.of(high)));
    }

    private double half(Uncertain r) {
        return new RecoveryRule(r, coverage).factor() * r.standardUncertainty();
    }

    private String told(RecoveryResult result) {
        final List<String> each = new ArrayList<>();
        for (RecoveryEstimate level : result.levels()) {
            level.value()
                    .fold(
                            r ->
                                    each.add(
                                            (level.level().isEmpty() ? "all" : level.level())
                                                    + " "
                                                    + Digits.three(PERCENT * r.value())
                                                    + " %"),
                            not -> false);
        }
        return "Recovery at "
                + String.join(", ", each)
                + "; all levels together "
                + result.pooled()
                        .value()
                        .<String>fold(
                                r -> Digits.three(PERCENT * r.value()) + " %",
                                not -> "not given: " + not.detail())
                + ".";
    }
}
