package splitledger.evaluation;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import splitledger.base.Nearest;
import splitledger.base.Numbers;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.characteristic.Responses;
import splitledger.study.Answer;
import splitledger.study.Compounds.InternalStandard;
import splitledger.study.Evaluation;
import splitledger.study.Finding;
import splitledger.study.InjectionTable;
import splitledger.study.Place;
import splitledger.study.Protocol.Exclusion;
import splitledger.study.Rows;
import splitledger.study.State;
import splitledger.study.Study;
import splitledger.study.Trail;

/**
 * One injection of one compound worked by hand: from the area in the table through response, line
 * and amount to the result, then every other finding that rests on it.
 *
 * @param sections each a calculation with its title, in order
 * @param others findings without a calculation of their own that rest on the injection, in words
 */
public record InjectionTrail(List<Section> sections, List<String> others) {
    private static final String RESULT = "result";
    private static final String AMOUNT = "predicted-amount";

    public InjectionTrail {
        sections = List.copyOf(sections);
        others = List.copyOf(others);
    }

    /**
     * One calculation.
     *
     * @param title what it gives
     * @param steps in order
     * @param outcome the last number with its uncertainty where it has one
     */
    public record Section(String title, List<Trail.Step> steps, Optional<Answer> outcome) {
        public Section {
            steps = List.copyOf(steps);
        }
    }

    /**
     * Follows an injection.
     *
     * @param evaluation of the study
     * @param compound its name as the study writes it
     * @param injection its label
     * @throws ProblemException if there is no such compound or injection, or it is excluded
     */
    public static InjectionTrail of(Evaluation evaluation, String compound, String injection)
            throws ProblemException {
        final Study study = evaluation.study();
        final int row = row(study, compound, injection);
        final List<Section> sections = new ArrayList<>();
        sections.add(response(study, row));
        final List<Finding> resting =
                evaluation.findings().stream()
                        .filter(f -> f.rows().stream().anyMatch(r -> r == row))
                        .toList();
        final List<Finding> worked =
                resting.stream().filter(f -> !f.trail().steps().isEmpty()).toList();
        final List<String> others = new ArrayList<>();
        final boolean hasResult = worked.stream().anyMatch(f -> is(f, RESULT));
        for (Finding f : worked) {
            if (is(f, AMOUNT)) {
                sections.add(mean(study, f));
                lineOf(evaluation, compound).ifPresent(sections::add);
            }
            if (!is(f, AMOUNT) || !hasResult) {
                sections.add(new Section(titleOf(f), f.trail().steps(), Optional.of(f.answer())));
            }
        }
        resting.stream()
                .filter(f -> f.trail().steps().isEmpty())
                .forEach(f -> others.add(titleOf(f) + inNumbers(f.answer())));
        return new InjectionTrail(ordered(sections), others);
    }

    /** Response, mean and line come before what is made of them. */
    private static List<Section> ordered(List<Section> sections) {
        final List<Section> first =
                sections.stream().filter(s -> s.outcome().isEmpty()).distinct().toList();
        final List<Section> all = new ArrayList<>(first);
        sections.stream().filter(s -> s.outcome().isPresent()).forEach(all::add);
        return all;
    }

    private static boolean is(Finding f, String quantity) {
        return f.key().quantity().equals(quantity);
    }

    private static int row(Study study, String compound, String injection) throws ProblemException {
        final InjectionTable table = study.table();
        final List<String> compounds =
                table.labels("compound").map(InjectionTable.Labels::labels).orElse(List.of());
        if (!compounds.contains(compound)) {
            throw problem("COMPOUND", compound, "a compound of the study", compounds);
        }
        for (int row = 0; row < table.size(); row++) {
            if (table.injection(row).equals(injection) && table.compound(row).equals(compound)) {
                return row;
            }
        }
        for (Exclusion e : study.protocol().exclusions()) {
            if (e.injection().equals(injection)) {
                throw new ProblemException(
                        new Problem(
                                "",
                                0,
                                "--injection",
                                "'" + injection + "', which the protocol excludes: " + e.reason(),
                                "an injection that was evaluated",
                                ""));
            }
        }
        throw problem(
                "--injection",
                injection,
                "an injection of the study with " + compound,
                table.labels("injection").map(InjectionTable.Labels::labels).orElse(List.of()));
    }

    private static ProblemException problem(
            String column, String found, String expected, List<String> known) {
        return new ProblemException(
                new Problem(
                        "",
                        0,
                        column,
                        "'" + found + "'",
                        expected,
                        Nearest.to(found, known)
                                .map(near -> "did you mean '" + near + "'?")
                                .orElse("")));
    }

    private static Section response(Study study, int row) {
        final InjectionTable table = study.table();
        final List<Trail.Step> steps = new ArrayList<>();
        final String compound = table.compound(row);
        final String unit = study.protocol().conventions().areaUnit();
        steps.add(area(table, row, unit));
        final Optional<String> standard =
                study.compounds().internalStandard().map(InternalStandard::compound);
        standard.ifPresent(
                s ->
                        rowOf(table, table.injection(row), s)
                                .ifPresent(other -> steps.add(area(table, other, unit))));
        final Responses responses = Responses.of(study);
        final Responses.Picked picked = responses.pick(Rows.of(row), compound, false);
        for (Responses.Response r : picked.used()) {
            steps.add(
                    new Trail.Step(
                            "response: " + responses.words(),
                            standard.isPresent() ? "area / area of " + standard.get() : "area",
                            standard.flatMap(s -> rowOf(table, table.injection(row), s))
                                    .map(
                                            other ->
                                                    Numbers.text(table.area(row))
                                                            + " / "
                                                            + Numbers.text(table.area(other)))
                                    .orElse(Numbers.text(table.area(row))),
                            r.value(),
                            responses.unit()));
        }
        final String why =
                picked.leftOut().stream().map(f -> ": " + f.what()).collect(Collectors.joining());
        return new Section(
                compound + " in injection " + table.injection(row) + why, steps, Optional.empty());
    }

    private static Trail.Step area(InjectionTable table, int row, String unit) {
        final Place place = table.place(row);
        final boolean measured = table.state(row) == State.MEASURED;
        return new Trail.Step(
                "area of " + table.compound(row) + " in " + place.file() + ", line " + place.row(),
                "area",
                measured ? "" : table.state(row).code().replace('-', ' '),
                table.area(row),
                unit);
    }

    private static Optional<Integer> rowOf(
            InjectionTable table, String injection, String compound) {
        for (int row = 0; row < table.size(); row++) {
            if (table.injection(row).equals(injection) && table.compound(row).equals(compound)) {
                return Optional.of(row);
            }
        }
        return Optional.empty();
    }

    /** The responses of the preparation's injections and their mean. */
    private static Section mean(Study study, Finding amount) {
        final Responses responses = Responses.of(study);
        final List<Responses.Response> used =
                responses.pick(amount.rows(), amount.key().compound(), false).used();
        final List<Trail.Step> steps = new ArrayList<>();
        double sum = 0;
        for (Responses.Response r : used) {
            sum += r.value();
            steps.add(
                    new Trail.Step(
                            "injection " + r.injection(),
                            "response",
                            Trail.digits(r.value()),
                            r.value(),
                            responses.unit()));
        }
        final String all =
                used.stream().map(r -> Trail.digits(r.value())).collect(Collectors.joining(" + "));
        steps.add(
                new Trail.Step(
                        "mean response",
                        "sum / number",
                        used.size() == 1 ? all : "(" + all + ") / " + used.size(),
                        sum / Math.max(1, used.size()),
                        responses.unit()));
        return new Section(
                "Injections of " + amount.key().conditionText().replace('=', ' '),
                steps,
                Optional.empty());
    }

    /** The calibration line, if it has a slope and an intercept. */
    private static Optional<Section> lineOf(Evaluation evaluation, String compound) {
        final List<Trail.Step> steps = new ArrayList<>();
        for (String quantity : List.of("intercept", "slope", "quadratic")) {
            evaluation.findings().stream()
                    .filter(f -> is(f, quantity) && f.key().characteristic().equals("calibration"))
                    .filter(f -> f.key().compound().equals(compound))
                    .filter(f -> f.key().condition().isEmpty())
                    .forEach(f -> step(quantity, f).ifPresent(steps::add));
        }
        return steps.isEmpty()
                ? Optional.empty()
                : Optional.of(
                        new Section("Calibration line of " + compound, steps, Optional.empty()));
    }

    private static Optional<Trail.Step> step(String quantity, Finding f) {
        if (!(f.answer() instanceof Answer.Estimate e)) {
            return Optional.empty();
        }
        return Optional.of(
                new Trail.Step(
                        quantity
                                + " from "
                                + f.rows().size()
                                + " injections"
                                + (f.key().method().isEmpty() ? "" : ", " + f.key().method())
                                + ", standard uncertainty "
                                + Trail.digits(e.standardUncertainty()),
                        quantity,
                        "",
                        e.value(),
                        e.unit()));
    }

    private static String titleOf(Finding f) {
        final String condition = f.key().conditionText();
        return f.key().characteristic()
                + ": "
                + f.key().quantity()
                + (f.key().method().isEmpty() ? "" : " (" + f.key().method() + ")")
                + (condition.isEmpty() ? "" : ", " + condition);
    }

    private static String inNumbers(Answer answer) {
        final String unit = answer.unit().equals("1") ? "" : " " + answer.unit();
        if (answer instanceof Answer.Estimate e) {
            return " = " + Trail.digits(e.value()) + unit;
        }
        if (answer instanceof Answer.Statistic s) {
            return " = " + Trail.digits(s.value()) + unit;
        }
        return ": " + answer.status().replace('-', ' ');
    }
}
