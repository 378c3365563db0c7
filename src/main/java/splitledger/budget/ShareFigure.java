package splitledger.budget;

import java.util.Comparator;
import java.util.List;
import splitledger.study.Budget;
import splitledger.study.Doubles;
import splitledger.study.Figure;
import splitledger.study.Figure.Axis;
import splitledger.study.Figure.Role;
import splitledger.study.Figure.Tick;

/** The contributions to one result, largest first. */
final class ShareFigure {
    private ShareFigure() {}

    static Figure of(Budget budget) {
        final List<Budget.Row> rows =
                budget.rows().stream()
                        .filter(r -> r.share().isPresent() && r.contribution() > 0)
                        .sorted(
                                Comparator.comparing((Budget.Row r) -> r.share().orElse(0.0))
                                        .reversed())
                        .toList();
        final double[] shares = rows.stream().mapToDouble(r -> r.share().orElse(0.0)).toArray();
        final List<String> texts =
                rows.stream()
                        .map(
                                r ->
                                        String.format(
                                                java.util.Locale.ROOT,
                                                "%.1f %%",
                                                r.share().orElse(0.0)))
                        .toList();
        double least = 0;
        double most = 1;
        for (double s : shares) {
            least = Math.min(least, s);
            most = Math.max(most, s);
        }
        final double[] places = new double[Math.max(1, rows.size())];
        final List<Tick> none = List.of();
        final Axis y = new Axis("contribution", "", 0.5, places.length + 0.5, none);
        final String what =
                budget.level().isEmpty()
                        ? budget.compound()
                        : budget.compound() + " at level " + budget.level();
        final String first =
                rows.isEmpty() ? "no contribution" : rows.get(0).words() + " " + texts.get(0);
        return new Figure(
                Figure.safeId("shares", budget.compound() + " " + budget.level()),
                Budgets.ID,
                budget.compound(),
                "Where the uncertainty comes from, " + (what.isEmpty() ? budget.name() : what),
                "Share of each contribution in the combined variance. To shrink the uncertainty, work on the longest bar first.",
                "Largest: " + first + ".",
                Axis.covering("share of the variance", "%", least, most),
                y,
                List.of(
                        new Figure.Bars(
                                "share",
                                Role.SHARE,
                                Doubles.of(shares),
                                rows.stream().map(Budget.Row::words).toList(),
                                texts)));
    }
}
