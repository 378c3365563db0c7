package splitledger.budget;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import splitledger.propagation.Uncertain;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.study.Answer;
import splitledger.study.Finding;
import splitledger.study.Protocol.FromFinding;

/** The one finding that an input names, with its causes. */
final class NamedFinding {
    private NamedFinding() {}

    /**
     * The value of the finding.
     *
     * @param compound whose finding; one of all compounds together serves where it has none
     */
    static Outcome<Uncertain> of(List<Finding> findings, FromFinding input, String compound) {
        final Outcome<Uncertain> own = among(findings, input, compound);
        return own instanceof Outcome.Computed || compound.isEmpty()
                ? own
                : among(findings, input, "").fold(Outcome::of, not -> own);
    }

    private static Outcome<Uncertain> among(
            List<Finding> findings, FromFinding input, String compound) {
        final List<Finding> fitting =
                findings.stream()
                        .filter(f -> f.key().quantity().equals(input.quantity()))
                        .filter(f -> f.key().compound().equals(compound))
                        .filter(f -> input.method().map(f.key().method()::equals).orElse(true))
                        .filter(
                                f ->
                                        input.condition().entrySet().stream()
                                                .allMatch(
                                                        e ->
                                                                e.getValue()
                                                                        .equals(
                                                                                f.key()
                                                                                        .condition()
                                                                                        .get(
                                                                                                e
                                                                                                        .getKey()))))
                        .sorted(Comparator.comparing(Finding::key))
                        .toList();
        final List<Finding> usable = fitting.stream().filter(f -> quantity(f).isPresent()).toList();
        if (usable.isEmpty()) {
            return Outcome.not(
                    Reason.NO_FINDING,
                    fitting.isEmpty()
                            ? "this study gives no " + input.quantity()
                            : why(input.quantity(), fitting.get(0).answer()));
        }
        final int fewest =
                usable.stream().mapToInt(f -> f.key().condition().size()).min().orElse(0);
        final List<Finding> plainest =
                usable.stream().filter(f -> f.key().condition().size() == fewest).toList();
        if (plainest.size() > 1) {
            return Outcome.not(
                    Reason.NO_FINDING,
                    "several findings fit "
                            + input.quantity()
                            + ": say which by condition or method ("
                            + plainest.stream().map(f -> words(f)).collect(Collectors.joining("; "))
                            + ")");
        }
        return Outcome.of(quantity(plainest.get(0)).orElseThrow());
    }

    private static String words(Finding f) {
        final String condition = f.key().conditionText();
        return condition.isEmpty() ? f.key().method() : condition + ", " + f.key().method();
    }

    private static String why(String quantity, Answer answer) {
        return answer instanceof Answer.NotEstimable not
                ? "this study gives no " + quantity + ": " + not.detail()
                : "the " + quantity + " of this study has no value with a standard uncertainty";
    }

    private static Optional<Uncertain> quantity(Finding f) {
        return f.answer() instanceof Answer.Estimate e ? e.quantity() : Optional.empty();
    }
}
