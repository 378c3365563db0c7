package splitledger.budget;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import splitledger.budget.Beyond.Change;
import splitledger.study.Budget;
import splitledger.study.Doubles;
import splitledger.study.Figure;
import splitledger.study.Figure.Axis;
import splitledger.study.Figure.Role;

/** What would shrink the expanded uncertainty of one result, most first. */
final class ShrinkFigure {
    private static final double WORTH = 0.5;
    private static final int MOST = 10;

    private ShrinkFigure() {}

    static Optional<Figure> of(Budget budget, List<Change> changes) {
        final List<Change> worth =
                changes.stream()
                        .filter(c -> gain(c) >= WORTH)
                        .sorted(Comparator.comparingDouble(Change::factor))
                        .limit(MOST)
                        .toList();
        if (worth.isEmpty()) {
            return Optional.empty();
        }
        final double[] gains = worth.stream().mapToDouble(ShrinkFigure::gain).toArray();
        final List<String> texts = new ArrayList<>();
        for (Change c : worth) {
            texts.add(String.format(Locale.ROOT, "%.1f %%", gain(c)));
        }
        final Axis y = new Axis("change", "", 0.5, worth.size() + 0.5, List.of());
        return Optional.of(
                new Figure(
                        Figure.safeId("shrink", budget.compound() + " " + budget.level()),
                        Budgets.ID,
                        budget.compound(),
                        "What would shrink the uncertainty, " + ShareFigure.about(budget),
                        "How much smaller the expanded uncertainty becomes by one change alone, the largest gain first. Changes"
                                + " that gain less than "
                                + WORTH
                                + " % are left out.",
                        "Largest gain: " + worth.get(0).words() + ", " + texts.get(0) + ".",
                        Axis.covering("expanded uncertainty smaller by", "%", 0, gains[0]),
                        y,
                        List.of(
                                new Figure.Bars(
                                        "gain",
                                        Role.SHARE,
                                        Doubles.of(gains),
                                        worth.stream().map(Change::words).toList(),
                                        texts))));
    }

    private static double gain(Change c) {
        return 100 * (1 - c.factor());
    }
}
