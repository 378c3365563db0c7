package splitledger.qualification;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import splitledger.base.Numbers;
import splitledger.base.ProblemException;
import splitledger.evaluation.Evaluator;
import splitledger.intake.StudyReader;
import splitledger.study.Answer;
import splitledger.study.Budget;
import splitledger.study.Evaluation;
import splitledger.study.Extent;
import splitledger.study.Finding;

/**
 * Computes every reference case and compares it with what is known. The studies are read and
 * evaluated by the functions that {@code evaluate} calls, Monte Carlo included.
 */
public final class Qualification {
    private static final String TABLES = "tables";
    private static final int MOST_DIGITS = 16;

    private Qualification() {}

    /**
     * What one case came to.
     *
     * @param known the case
     * @param computed the number as it came out, or why there is none
     * @param digits decimal digits in which computed and expected agree; empty for words
     * @param pass whether it lies within the case's tolerance
     */
    public record Outcome(
            ReferenceCase known, String computed, OptionalDouble digits, boolean pass) {}

    /**
     * Computes all cases.
     *
     * @return in order of the cases
     * @throws ProblemException if a study that the program brings along cannot be read
     */
    public static List<Outcome> run() throws ProblemException, IOException {
        return run(Shipped.cases());
    }

    /** Computes some cases. */
    static List<Outcome> run(List<ReferenceCase> cases) throws ProblemException, IOException {
        final Map<String, Shipped.Study> studies = Shipped.studies();
        final Map<String, Evaluation> evaluated = new LinkedHashMap<>();
        final List<Outcome> outcomes = new ArrayList<>();
        for (ReferenceCase known : cases) {
            if (known.study().equals(TABLES)) {
                outcomes.add(compared(known, Functions.value(known.quantity(), known.condition())));
                continue;
            }
            Evaluation evaluation = evaluated.get(known.study());
            if (evaluation == null) {
                final Shipped.Study study = studies.get(known.study());
                if (study == null) {
                    throw new IllegalStateException(known.id() + ": no study " + known.study());
                }
                evaluation =
                        Evaluator.evaluate(
                                StudyReader.read(study.files(), study.protocol()),
                                Extent.FORMULAS_AND_TRIALS);
                evaluated.put(known.study(), evaluation);
            }
            outcomes.add(of(known, evaluation));
        }
        return outcomes;
    }

    private static Outcome of(ReferenceCase known, Evaluation evaluation) {
        if (known.quantity().equals("contribution")) {
            return compared(known, contribution(evaluation, known.condition()));
        }
        if (known.quantity().equals("correlation")) {
            return compared(known, correlation(evaluation, known.condition()));
        }
        final List<Finding> found =
                evaluation.findings().stream().filter(f -> isMeant(known, f)).toList();
        if (found.size() != 1) {
            return new Outcome(known, found.size() + " findings", OptionalDouble.empty(), false);
        }
        final Answer answer = found.get(0).answer();
        if (known.cell().equals("reason")) {
            final String reason =
                    answer instanceof Answer.NotEstimable not ? not.reason() : answer.status();
            return new Outcome(
                    known, reason, OptionalDouble.empty(), reason.equals(known.expected()));
        }
        return cell(answer, known.cell())
                .map(value -> compared(known, value))
                .orElseGet(
                        () -> new Outcome(known, answer.status(), OptionalDouble.empty(), false));
    }

    private static boolean isMeant(ReferenceCase known, Finding f) {
        return f.key().characteristic().equals(known.characteristic())
                && (known.compound().equals("*") || f.key().compound().equals(known.compound()))
                && f.key().conditionText().equals(known.condition())
                && f.key().quantity().equals(known.quantity())
                && (known.method().isEmpty() || f.key().method().equals(known.method()));
    }

    private static Optional<Double> cell(Answer answer, String cell) {
        if (answer instanceof Answer.Statistic s) {
            return switch (cell) {
                case "value" -> Optional.of(s.value());
                case "squared" -> Optional.of(s.value() * s.value());
                default -> Optional.empty();
            };
        }
        if (answer instanceof Answer.Estimate e) {
            return switch (cell) {
                case "value" -> Optional.of(e.value());
                case "squared" -> Optional.of(e.value() * e.value());
                case "standard_uncertainty" -> Optional.of(e.standardUncertainty());
                case "relative_uncertainty" ->
                        Optional.of(e.standardUncertainty() / Math.abs(e.value()));
                case "degrees_of_freedom" -> Optional.of(e.degreesOfFreedom());
                case "lower" -> Optional.of(e.lower());
                case "upper" -> Optional.of(e.upper());
                default -> Optional.empty();
            };
        }
        return Optional.empty();
    }

    /** The contribution of the rows of a symbol, in the unit of the result. */
    private static double contribution(Evaluation evaluation, String condition) {
        final String symbol = condition.substring(condition.indexOf('=') + 1);
        return evaluation.budgets().stream()
                .flatMap(b -> b.rows().stream())
                .filter(row -> row.symbol().equals(symbol))
                .mapToDouble(Budget.Row::contribution)
                .sum();
    }

    /** The correlation of the inputs {@code a=...;b=...}. */
    private static double correlation(Evaluation evaluation, String condition) {
        final String[] parts = condition.split(";", -1);
        final String a = parts[0].substring(2);
        final String b = parts[1].substring(2);
        return evaluation.budgets().stream()
                .flatMap(budget -> budget.correlations().stream())
                .filter(c -> c.symbolA().equals(a) && c.symbolB().equals(b))
                .mapToDouble(Budget.Correlation::correlation)
                .sum();
    }

    private static Outcome compared(ReferenceCase known, double computed) {
        if (Double.isNaN(computed)) {
            return new Outcome(known, "no number", OptionalDouble.empty(), false);
        }
        final double expected = Double.parseDouble(known.expected());
        return new Outcome(
                known,
                Numbers.text(computed),
                OptionalDouble.of(digits(computed, expected)),
                Math.abs(computed - expected) <= known.tolerance());
    }

    /**
     * Decimal digits in which two numbers agree: minus the logarithm of their relative difference
     * (of the absolute one where 0 is expected), to one decimal, rounded down; 0 to 16.
     */
    static double digits(double computed, double expected) {
        final double difference = Math.abs(computed - expected);
        if (difference == 0) {
            return MOST_DIGITS;
        }
        final double relative = expected == 0 ? difference : difference / Math.abs(expected);
        final double digits = -StrictMath.log10(relative);
        return Math.min(MOST_DIGITS, Math.max(0, Math.floor(10 * digits) / 10));
    }
}
