package splitledger.report;

import java.util.List;
import splitledger.study.Answer;
import splitledger.study.Finding;

/** Where findings of one quantity and method stand in a report that must not grow too long. */
enum Interest {
    /** In the first table. */
    FIRST,
    /** In the first table as one line, in full among the further numbers. */
    SUMMARY,
    /** Among the further numbers. */
    FURTHER;

    private static final int LONG = 5;
    private static final int MANY_METHODS = 3;

    /**
     * Findings under many conditions are summarised. Plain numbers without a requirement,
     * quantities that cannot be given, what a second method gives for the same, and several
     * conditions by each of many methods, stand among the further numbers.
     *
     * @param group findings of one quantity and method
     * @param groups all groups of the compound
     */
    static Interest of(List<Finding> group, List<List<Finding>> groups) {
        final List<List<Finding>> methods =
                groups.stream().filter(g -> quantity(g).equals(quantity(group))).toList();
        final boolean judged = group.stream().anyMatch(f -> !f.judgements().isEmpty());
        final boolean second = methods.size() == 2 && methods.get(1).equals(group);
        final boolean many = methods.size() >= MANY_METHODS && group.size() > 1;
        if (!judged && (second || many)) {
            return FURTHER;
        }
        if (group.size() >= LONG) {
            return SUMMARY;
        }
        return judged || group.stream().anyMatch(Interest::tellsMore) ? FIRST : FURTHER;
    }

    private static String quantity(List<Finding> group) {
        return group.get(0).key().quantity();
    }

    private static boolean tellsMore(Finding f) {
        return f.answer() instanceof Answer.Estimate || f.answer() instanceof Answer.Bound;
    }
}
