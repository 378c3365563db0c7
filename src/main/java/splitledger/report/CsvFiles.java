package splitledger.report;

import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import splitledger.base.CellWriter;
import splitledger.base.CodePoints;
import splitledger.base.CsvText;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.study.Answer;
import splitledger.study.Budget;
import splitledger.study.Evaluation;
import splitledger.study.Finding;
import splitledger.study.Judgement;
import splitledger.study.Key;

/** The three tables of results and budgets, with every digit, as CSV or for another file. */
final class CsvFiles {
    static final List<String> RESULTS =
            List.of(
                    "characteristic",
                    "compound",
                    "condition",
                    "quantity",
                    "method",
                    "value",
                    "unit",
                    "standard_uncertainty",
                    "degrees_of_freedom",
                    "lower",
                    "upper",
                    "coverage",
                    "status",
                    "reason",
                    "criterion",
                    "basis",
                    "verdict",
                    "note");
    static final List<String> BUDGET =
            List.of(
                    "compound",
                    "level",
                    "symbol",
                    "effect",
                    "acts_on",
                    "source",
                    "value",
                    "unit",
                    "standard_uncertainty",
                    "evaluation",
                    "distribution",
                    "degrees_of_freedom",
                    "sensitivity",
                    "contribution",
                    "share_percent");
    static final List<String> CORRELATIONS =
            List.of("compound", "level", "symbol_a", "symbol_b", "correlation", "cause");

    /** Order of the five key cells as they are printed. */
    static final Comparator<Key> PRINTED =
            printed(Key::characteristic)
                    .thenComparing(printed(Key::compound))
                    .thenComparing(printed(Key::conditionText))
                    .thenComparing(printed(Key::quantity))
                    .thenComparing(printed(Key::method));

    private CsvFiles() {}

    static byte[] results(Evaluation evaluation) {
        final CsvText csv = new CsvText(RESULTS);
        results(evaluation, csv);
        return csv.bytes();
    }

    static void results(Evaluation evaluation, CellWriter csv) {
        evaluation.findings().stream()
                .sorted(Comparator.comparing(Finding::key, PRINTED))
                .forEach(finding -> row(csv, finding));
    }

    static byte[] budgets(Evaluation evaluation) {
        final CsvText csv = new CsvText(BUDGET);
        budgets(evaluation, csv);
        return csv.bytes();
    }

    static void budgets(Evaluation evaluation, CellWriter csv) {
        for (Budget budget : evaluation.budgets()) {
            budget.rows().forEach(row -> row(csv, budget, row));
            combined(csv, budget);
        }
    }

    static byte[] correlations(Evaluation evaluation) {
        final CsvText csv = new CsvText(CORRELATIONS);
        correlations(evaluation, csv);
        return csv.bytes();
    }

    static void correlations(Evaluation evaluation, CellWriter csv) {
        for (Budget budget : evaluation.budgets()) {
            for (Budget.Correlation c : budget.correlations()) {
                csv.cell(budget.compound()).cell(budget.level());
                csv.cell(c.symbolA()).cell(c.symbolB()).cell(c.correlation()).cell(c.cause());
                csv.endRow();
            }
        }
    }

    private static void row(CellWriter csv, Finding finding) {
        final Key key = finding.key();
        csv.cell(key.characteristic()).cell(key.compound()).cell(key.conditionText());
        csv.cell(key.quantity()).cell(key.method());
        numbers(csv, finding.answer());
        csv.cell(finding.answer().status()).cell(reason(finding.answer()));
        csv.cell(criterion(finding)).cell(basis(finding));
        csv.cell(finding.verdict().code()).cell(note(finding)).endRow();
    }

    /** Value, unit, standard uncertainty, degrees of freedom, lower, upper, coverage. */
    private static void numbers(CellWriter csv, Answer answer) {
        if (answer instanceof Answer.Estimate e) {
            csv.cell(e.value()).cell(e.unit()).cell(e.standardUncertainty());
            csv.cell(e.degreesOfFreedom()).cell(e.lower()).cell(e.upper()).cell(e.coverage());
        } else if (answer instanceof Answer.Bound b) {
            optional(csv, b.value()).cell(b.unit()).empty().empty();
            optional(optional(csv, b.lower()), b.upper()).cell(b.coverage());
        } else if (answer instanceof Answer.Statistic s) {
            csv.cell(s.value()).cell(s.unit()).empty().empty().empty().empty().empty();
        } else {
            csv.empty().cell(answer.unit()).empty().empty().empty().empty().empty();
        }
    }

    private static CellWriter optional(CellWriter csv, OptionalDouble value) {
        return value.isPresent() ? csv.cell(value.getAsDouble()) : csv.empty();
    }

    private static String reason(Answer answer) {
        if (answer instanceof Answer.Bound b) {
            return b.reason();
        }
        return answer instanceof Answer.NotEstimable n ? n.reason() : "";
    }

    private static String criterion(Finding finding) {
        return finding.judgements().stream()
                .map(j -> j.criterion().text())
                .collect(Collectors.joining("; "));
    }

    /** The basis of the gravest verdict, which is the basis of all where they agree. */
    private static String basis(Finding finding) {
        return finding.judgements().stream()
                .filter(j -> j.verdict() == finding.verdict())
                .findFirst()
                .map(Judgement::criterion)
                .map(c -> c.basis().code())
                .orElse("");
    }

    /** Why there is no more, then what must be known beside the number. */
    private static String note(Finding finding) {
        return Stream.of(Wording.detail(finding.answer()), finding.note())
                .filter(text -> !text.isEmpty())
                .distinct()
                .collect(Collectors.joining("; "));
    }

    private static void row(CellWriter csv, Budget budget, Budget.Row row) {
        csv.cell(budget.compound()).cell(budget.level()).cell(row.symbol());
        csv.cell(row.effect().map(Effect::code).orElse(""));
        csv.cell(row.actsOn().map(ActsOn::code).orElse(""));
        csv.cell(row.source()).cell(row.value()).cell(row.unit()).cell(row.standardUncertainty());
        csv.cell(row.evaluation()).cell(row.distribution()).cell(row.degreesOfFreedom());
        csv.cell(row.sensitivity()).cell(row.contribution());
        if (row.share().isPresent()) {
            csv.cell(row.share().get().doubleValue());
        } else {
            csv.empty();
        }
        csv.endRow();
    }

    private static void combined(CellWriter csv, Budget budget) {
        final double u = budget.result().standardUncertainty();
        csv.cell(budget.compound()).cell(budget.level()).cell("combined").empty().empty().empty();
        csv.cell(budget.result().value()).cell(budget.result().unit()).cell(u);
        csv.empty().empty().cell(budget.result().degreesOfFreedom()).empty().cell(u);
        if (u > 0) {
            csv.cell(100);
        } else {
            csv.empty();
        }
        csv.endRow();
    }

    private static Comparator<Key> printed(Function<Key, String> cell) {
        return Comparator.comparing(key -> CsvText.printed(cell.apply(key)), CodePoints.ORDER);
    }
}
