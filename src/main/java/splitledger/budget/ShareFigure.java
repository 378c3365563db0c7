package splitledger.budget;

import java.util.ArrayList;
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
    private static final double MOST_OF_IT = 90;

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
        final int n = shares.length;
        // the sum stands at the lower edge of its bar's room, so that it meets no number
        final double[] places = new double[n + 1];
        final double[] sums = new double[n + 1];
        places[0] = 0.5;
        double least = 0;
        double most = 1;
        double sum = 0;
        for (int i = 0; i < n; i++) {
            sum += shares[i];
            places[i + 1] = i + 1.5;
            sums[i + 1] = sum;
            least = Math.min(least, Math.min(sum, shares[i]));
            most = Math.max(most, Math.max(sum, shares[i]));
        }
        final List<Tick> none = List.of();
        final Axis y = new Axis("contribution", "", 0.5, Math.max(1, n) + 0.5, none);
        final List<Figure.Layer> layers = new ArrayList<>();
        layers.add(
                new Figure.Bars(
                        "share",
                        Role.SHARE,
                        Doubles.of(shares),
                        rows.stream().map(Budget.Row::words).toList(),
                        texts));
        if (n > 1) {
            layers.add(
                    new Figure.Line(
                            "shares added up",
                            Role.REFERENCE,
                            Doubles.of(sums),
                            Doubles.of(places)));
        }
        return new Figure(
                Figure.safeId("shares", budget.compound() + " " + budget.level()),
                Budgets.ID,
                budget.compound(),
                "Where the uncertainty comes from, " + about(budget),
                "Share of each contribution in the combined variance. To shrink the uncertainty, work on the longest bar first;"
                        + " the dashed line adds the shares up.",
                words(rows, texts, sums),
                Axis.covering("share of the variance", "%", least, most),
                y,
                layers);
    }

    /** What a budget is about, for a title. */
    static String about(Budget budget) {
        final String compound = budget.compound().isEmpty() ? budget.name() : budget.compound();
        return budget.level().isEmpty() ? compound : compound + " at level " + budget.level();
    }

    /** The largest shares, as far as they matter. */
    private static String words(List<Budget.Row> rows, List<String> texts, double[] sums) {
        if (rows.isEmpty()) {
            return "No contribution.";
        }
        int n = 1;
        while (n < rows.size() && sums[n] < MOST_OF_IT) {
            n++;
        }
        final List<String> named = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            named.add(rows.get(i).words() + " " + texts.get(i));
        }
        final String largest = "Largest: " + String.join("; ", named);
        return n == 1
                ? largest + "."
                : largest + String.format(java.util.Locale.ROOT, "; together %.1f %%.", sums[n]);
    }
}
