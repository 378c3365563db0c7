package splitledger.study;

import java.util.List;
import java.util.Optional;

/**
 * All that comes out; everything that is written comes from it.
 *
 * @param study what went in
 * @param questions the characteristics that were evaluated, in order of the report
 * @param findings in order of their keys
 * @param budgets in order of compound and level
 * @param figures in order of the report
 * @param choices in order of the report
 * @param flags about the data
 * @param seed from which every budget's own seed is derived
 */
public record Evaluation(
        Study study,
        List<Question> questions,
        List<Finding> findings,
        List<Budget> budgets,
        List<Figure> figures,
        List<Choice> choices,
        List<Flag> flags,
        long seed) {
    public Evaluation {
        questions = List.copyOf(questions);
        findings = List.copyOf(findings);
        budgets = List.copyOf(budgets);
        figures = List.copyOf(figures);
        choices = List.copyOf(choices);
        flags = List.copyOf(flags);
    }

    /**
     * A characteristic that was evaluated.
     *
     * @param id of the characteristic
     * @param title short, for headings
     * @param question it answers, in words
     * @param injected what was injected, in words with numbers
     * @param how method in words with sources
     */
    public record Question(String id, String title, String question, String injected, String how) {}

    /** The finding of a key, if it is there. */
    public Optional<Finding> finding(Key key) {
        return findings.stream().filter(f -> f.key().equals(key)).findFirst();
    }

    /** Whether a criterion fails or is not shown. */
    public boolean fallsShort() {
        return findings.stream()
                .anyMatch(f -> f.verdict() == Verdict.FAILS || f.verdict() == Verdict.NOT_SHOWN);
    }
}
