package splitledger.report;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import splitledger.study.Budget;
import splitledger.study.Evaluation;
import splitledger.study.Finding;
import splitledger.study.Trail;

/**
 * Calculations worked by hand: one example of every quantity and method, so that a reader can
 * follow each kind of number from the table to the page; the others are counted.
 */
record WorkedExamples(List<Page.Worked> shown, String elsewhere) {

    static WorkedExamples of(Evaluation evaluation) {
        final List<Page.Worked> shown = new ArrayList<>();
        final Set<List<String>> kinds = new LinkedHashSet<>();
        int more = 0;
        for (Finding f : evaluation.findings()) {
            if (f.trail().steps().isEmpty()) {
                continue;
            }
            final List<String> kind =
                    List.of(f.key().characteristic(), f.key().quantity(), f.key().method());
            if (kinds.add(kind)) {
                shown.add(worked(titleOf(f), f.trail()));
            } else {
                more++;
            }
        }
        boolean budgetShown = false;
        for (Budget b : evaluation.budgets()) {
            if (!b.trail().steps().isEmpty()) {
                if (budgetShown) {
                    more++;
                } else {
                    shown.add(worked("Budget of " + BudgetPages.titleOf(b), b.trail()));
                    budgetShown = true;
                }
            }
        }
        return new WorkedExamples(
                List.copyOf(shown),
                more == 0
                        ? ""
                        : "One example of each kind is shown; "
                                + Wording.count(
                                        more, "more calculation is", "more calculations are")
                                + " kept in results.json.");
    }

    private static String titleOf(Finding f) {
        final String condition = Wording.condition(f.key());
        return Wording.sentence(Wording.quantity(f.key().quantity()))
                + (f.key().compound().isEmpty() ? "" : ", " + f.key().compound())
                + (condition.isEmpty() ? "" : ", " + condition);
    }

    private static Page.Worked worked(String title, Trail trail) {
        return new Page.Worked(
                title,
                trail.steps().stream()
                        .map(
                                s ->
                                        new Page.Step(
                                                s.words(),
                                                s.formula(),
                                                s.numbers(),
                                                result(s.value(), s.unit())))
                        .toList());
    }

    private static String result(double value, String unit) {
        final String number =
                Double.isInfinite(value) && value > 0 ? "∞" : Rounded.alone(value, 7).valueText();
        final String words = Wording.unit(unit);
        return words.isEmpty() ? number : number + " " + words;
    }
}
