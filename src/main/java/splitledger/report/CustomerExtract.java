package splitledger.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import splitledger.study.Answer;
import splitledger.study.Evaluation;
import splitledger.study.Finding;
import splitledger.study.Protocol;

/**
 * What a customer is told: which results, what their uncertainty means, what limits their use.
 *
 * @param statement what U, k and the coverage mean, one sentence each
 * @param limits what limits the use of the results, one sentence each
 */
public record CustomerExtract(List<String> statement, List<String> limits) {

    /** Of an evaluation and its page. */
    static CustomerExtract of(Evaluation evaluation, Page page) {
        final double coverage = evaluation.study().protocol().conventions().coverage();
        final List<String> limits = new ArrayList<>();
        for (Page.Answered answer : page.answers()) {
            final String code = answer.badge().code();
            if (!code.equals("meets") && !code.equals("information")) {
                limits.add(answer.title() + ": " + String.join(" ", answer.sentences()));
            }
        }
        limits.addAll(ranges(evaluation.findings()));
        final boolean uncorrected =
                evaluation
                        .study()
                        .protocol()
                        .measurand()
                        .map(m -> m.inputs().values().stream())
                        .orElseGet(Stream::empty)
                        .anyMatch(i -> i instanceof Protocol.NotCorrected);
        if (uncorrected) {
            limits.add(
                    "The results are not corrected for recovery; what is lost on the way is not in"
                            + " U.");
        }
        limits.add(
                "U covers what the full report lists; the taking of the samples, and differences"
                        + " within the material, are part of it only where that report says so.");
        limits.add("The results hold for the portions that were analysed.");
        return new CustomerExtract(
                List.of(
                        "U is the expanded uncertainty: the standard uncertainty times the coverage"
                                + " factor k.",
                        "The interval of value ± U is to hold the true value with a coverage"
                                + " probability of "
                                + Wording.percent(coverage)
                                + "."),
                List.copyOf(limits));
    }

    /** The calibrated amounts of each compound, if both ends are known. */
    private static List<String> ranges(List<Finding> findings) {
        final Map<String, Finding> lows = new LinkedHashMap<>();
        final List<String> ranges = new ArrayList<>();
        for (String end : List.of("working-range-low", "working-range-high")) {
            for (Finding f : findings) {
                if (f.key().quantity().equals(end) && f.answer() instanceof Answer.Statistic s) {
                    final Finding low = lows.putIfAbsent(f.key().compound(), f);
                    if (low != null && low.answer() instanceof Answer.Statistic from) {
                        ranges.add(
                                "The calibration of "
                                        + f.key().compound()
                                        + " reaches from "
                                        + Rounded.alone(from.value(), 3).valueText()
                                        + " to "
                                        + Rounded.alone(s.value(), 3).valueText()
                                        + " "
                                        + Wording.unit(s.unit())
                                        + " in the solution that is injected.");
                    }
                }
            }
        }
        return ranges;
    }
}
