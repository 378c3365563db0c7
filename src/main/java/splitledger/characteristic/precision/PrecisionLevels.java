package splitledger.characteristic.precision;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import splitledger.base.Numbers;
import splitledger.characteristic.Digits;
import splitledger.characteristic.Responses;
import splitledger.statistics.LevelScatter;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Choice;
import splitledger.study.Finding;
import splitledger.study.InjectionTable;
import splitledger.study.Rows;

/** Rows of several samples or levels: each alone, then how scatter grows with the mean response. */
final class PrecisionLevels {
    private static final String LIKELIHOOD = "likelihood";
    private static final String UNSTATED = "unstated";
    private static final double PERCENT = 100;

    private PrecisionLevels() {}

    /** One level: a label in a column. */
    record Level(String column, String label) {
        /** Those of its responses. */
        Responses.Picked of(InjectionTable table, Responses.Picked picked) {
            return new Responses.Picked(
                    picked.used().stream()
                            .filter(r -> cell(table, column, r.row()).equals(label))
                            .toList(),
                    List.of());
        }
    }

    /** The levels among the responses, in order of the table; none if there is only one. */
    static List<Level> among(InjectionTable table, String column, Responses.Picked picked) {
        final List<Level> levels =
                column.isEmpty()
                        ? List.of()
                        : picked.used().stream()
                                .map(r -> cell(table, column, r.row()))
                                .distinct()
                                .map(label -> new Level(column, label))
                                .toList();
        return levels.size() < 2 ? List.of() : levels;
    }

    private static String cell(InjectionTable table, String column, int row) {
        if (table.numbers(column).isPresent()) {
            final double number = table.number(column, row);
            return Double.isNaN(number) ? UNSTATED : Numbers.text(number);
        }
        final String label = table.label(column, row);
        return label.isEmpty() ? UNSTATED : label;
    }

    /** A finding as one of a level. */
    static Finding at(Level level, Finding f) {
        return Finding.of(f.key().with("level", level.label()), f.answer(), f.rows(), f.note())
                .with(f.trail());
    }

    /** A choice as one of a level. */
    static Choice at(Level level, Choice c) {
        return new Choice(
                c.characteristic(),
                c.compound(),
                "Level " + level.label() + ": " + c.what(),
                c.why(),
                c.source());
    }

    /** What the method of moments found of a quantity without a factor, if it has a value. */
    static Optional<Answer.Estimate> estimate(List<Finding> found, String quantity) {
        return found.stream()
                .filter(f -> f.key().quantity().equals(quantity))
                .filter(f -> f.key().method().equals(PrecisionFindings.MOMENTS))
                .map(Finding::answer)
                .filter(Answer.Estimate.class::isInstance)
                .map(Answer.Estimate.class::cast)
                .findFirst();
    }

    /** Scatter of one level that counts in the choice. */
    private record Point(double mean, double variance, double df) {}

    /**
     * How scatter grows with the level.
     *
     * @param levels what was found at each, as if it were alone
     * @param rows of all levels
     */
    static PrecisionFindings.Found growth(
            String compound, Map<Level, List<Finding>> levels, Rows rows, String unit) {
        List<Point> points = points(levels, "sd-repeatability");
        String of = "sd-repeatability";
        if (points.size() < 2) {
            final List<Point> injected = points(levels, "sd-injection");
            if (injected.size() >= 2) {
                points = injected;
                of = "sd-injection";
            }
        }
        final String used =
                of
                        + " of "
                        + points.size()
                        + " of "
                        + levels.size()
                        + " levels against their means";
        final Outcome<LevelScatter> law =
                points.size() < 2
                        ? Outcome.not(
                                Reason.TOO_FEW_LEVELS,
                                "needs 2 levels with scatter and a mean above 0, found "
                                        + points.size())
                        : LevelScatter.of(
                                array(points, Point::mean),
                                array(points, Point::variance),
                                array(points, Point::df));
        final List<Finding> findings = new ArrayList<>();
        put(findings, compound, rows, used, "scatter-constant", unit, law, LevelScatter::constant);
        put(
                findings,
                compound,
                rows,
                used,
                "scatter-proportional",
                "%",
                law,
                s -> PERCENT * s.proportional());
        put(
                findings,
                compound,
                rows,
                used,
                "scatter-constant-p",
                "1",
                law,
                LevelScatter::constantP);
        put(
                findings,
                compound,
                rows,
                used,
                "scatter-proportional-p",
                "1",
                law,
                LevelScatter::proportionalP);
        return new PrecisionFindings.Found(
                findings,
                law.fold(s -> List.of(choice(compound, s, used, unit)), not -> List.<Choice>of()),
                List.of());
    }

    private static Choice choice(String compound, LevelScatter s, String used, String unit) {
        final String constant = Digits.three(s.constant()) + " " + unit;
        final String proportional = Digits.three(PERCENT * s.proportional()) + " % of the level";
        final Map<LevelScatter.Law, String> words = new LinkedHashMap<>();
        words.put(
                LevelScatter.Law.CONSTANT,
                "Scatter is taken as the same at every level: " + constant);
        words.put(
                LevelScatter.Law.PROPORTIONAL,
                "Scatter is taken as proportional to the level: " + proportional);
        words.put(
                LevelScatter.Law.TWO_COMPONENTS,
                "Scatter is taken as two components, s^2 = s0^2 + (s1 x)^2: s0 = "
                        + constant
                        + ", s1 = "
                        + proportional);
        return new Choice(
                Repeatability.ID,
                compound,
                words.getOrDefault(s.law(), s.law().name()),
                used
                        + "; against both components p of constant scatter is "
                        + Digits.three(s.constantP())
                        + ", of proportional scatter "
                        + Digits.three(s.proportionalP())
                        + "; below 0.05 a law is refused, of two that stand the likelier is taken",
                "Self and Liang, J. Am. Stat. Assoc. 82 (1987) 605");
    }

    private static List<Point> points(Map<Level, List<Finding>> levels, String quantity) {
        final List<Point> points = new ArrayList<>();
        for (List<Finding> found : levels.values()) {
            final Optional<Answer.Estimate> sd = estimate(found, quantity);
            final Optional<Answer.Estimate> mean = estimate(found, "mean");
            if (sd.isPresent() && mean.isPresent()) {
                final double s = sd.get().value();
                final double df = sd.get().degreesOfFreedom();
                if (mean.get().value() > 0 && df > 0 && Double.isFinite(df)) {
                    points.add(new Point(mean.get().value(), s * s, df));
                }
            }
        }
        return points;
    }

    private static double[] array(List<Point> points, Function<Point, Double> of) {
        return points.stream().mapToDouble(of::apply).toArray();
    }

    private static void put(
            List<Finding> findings,
            String compound,
            Rows rows,
            String used,
            String quantity,
            String unit,
            Outcome<LevelScatter> law,
            Function<LevelScatter, Double> value) {
        findings.add(
                Finding.of(
                        PrecisionFindings.key(compound, quantity, LIKELIHOOD),
                        law.<Answer>fold(
                                s -> new Answer.Statistic(value.apply(s), unit),
                                not -> Answers.not(unit, not)),
                        rows,
                        law.<String>fold(
                                s ->
                                        used
                                                + "; taken as "
                                                + switch (s.law()) {
                                                    case CONSTANT -> "constant";
                                                    case PROPORTIONAL -> "proportional";
                                                    case TWO_COMPONENTS -> "two components";
                                                },
                                not -> used)));
    }
}
