package splitledger.study;

import java.util.Collections;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.propagation.UncertainLine;
import splitledger.study.Evaluation.Question;

/**
 * What one characteristic gives.
 *
 * @param question what was asked and how it was answered
 * @param findings in any order
 * @param figures in order of the report
 * @param choices what was decided and why
 * @param flags about the data
 * @param lines calibration lines by compound, for rooms further on; empty for all but the
 *     calibration
 */
public record Contribution(
        Question question,
        List<Finding> findings,
        List<Figure> figures,
        List<Choice> choices,
        List<Flag> flags,
        SortedMap<String, UncertainLine> lines) {
    public Contribution {
        findings = List.copyOf(findings);
        figures = List.copyOf(figures);
        choices = List.copyOf(choices);
        flags = List.copyOf(flags);
        lines = Collections.unmodifiableSortedMap(new TreeMap<>(lines));
    }
}
