package splitledger.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import splitledger.propagation.MonteCarlo;
import splitledger.propagation.Uncertain;
import splitledger.report.Page.BudgetView;
import splitledger.report.Page.Contribution;
import splitledger.report.Page.Interval;
import splitledger.study.Budget;
import splitledger.study.MethodsCompared;

/**
 * Budgets as the page shows them.
 *
 * @param shown of each compound the budget in the middle of its results
 * @param others the others
 */
record BudgetPages(List<BudgetView> shown, List<BudgetView> others) {
    private static final int SOURCES = 3;
    private static final double WORTH_NAMING = 1;
    private static final Comparator<Budget> BY_SIZE =
            Comparator.comparingDouble(b -> b.result().value());

    /** What a budget is about. */
    static String titleOf(Budget budget) {
        final String compound = budget.compound().isEmpty() ? budget.name() : budget.compound();
        return budget.level().isEmpty() ? compound : compound + ", level " + budget.level();
    }

    /** Every budget in full; what holds for all of them is left out. */
    static BudgetPages of(List<Budget> budgets) {
        final List<BudgetView> shown = new ArrayList<>();
        final List<BudgetView> others = new ArrayList<>();
        final List<Budget> middle =
                byCompound(budgets).values().stream().map(BudgetPages::middle).toList();
        final List<Page.Decision> common = common(budgets);
        for (Budget budget : inReadingOrder(budgets)) {
            final List<Page.Decision> own = new ArrayList<>(decisions(budget));
            own.removeAll(common);
            final String anchor = "budget-" + (shown.size() + others.size() + 1);
            (middle.contains(budget) ? shown : others).add(view(budget, anchor, own));
        }
        return new BudgetPages(List.copyOf(shown), List.copyOf(others));
    }

    /** The budget of the middle result, of two the larger. */
    private static Budget middle(List<Budget> budgets) {
        return budgets.stream().sorted(BY_SIZE).toList().get(budgets.size() / 2);
    }

    /**
     * The three contributions with the largest share of the variance, on the mean over all budgets,
     * each with the range of its shares.
     */
    static List<String> leading(List<Budget> budgets) {
        final Map<String, List<Double>> shares = new LinkedHashMap<>();
        for (Budget budget : budgets) {
            budget.rows()
                    .forEach(
                            r ->
                                    shares.computeIfAbsent(words(r), w -> new ArrayList<>())
                                            .add(share(r)));
        }
        final Comparator<Map.Entry<String, List<Double>>> bySum =
                Comparator.comparingDouble(
                        e -> e.getValue().stream().mapToDouble(Double::doubleValue).sum());
        return shares.entrySet().stream()
                .sorted(bySum.reversed())
                .limit(SOURCES)
                .filter(e -> e.getValue().stream().anyMatch(s -> s >= WORTH_NAMING))
                .map(e -> e.getKey() + " (" + range(e.getValue()) + " of the combined variance)")
                .toList();
    }

    private static String range(List<Double> shares) {
        final String low =
                Wording.share(shares.stream().mapToDouble(Double::doubleValue).min().orElse(0));
        final String high =
                Wording.share(shares.stream().mapToDouble(Double::doubleValue).max().orElse(0));
        return low.equals(high) ? low : low + " to " + high;
    }

    /** The choices that hold for all budgets. */
    static List<Page.Decision> common(List<Budget> budgets) {
        final List<Page.Decision> common = new ArrayList<>();
        if (!budgets.isEmpty()) {
            common.addAll(decisions(budgets.get(0)));
            budgets.forEach(b -> common.retainAll(decisions(b)));
        }
        return List.copyOf(common);
    }

    private static List<Page.Decision> decisions(Budget budget) {
        return budget.choices().stream().map(c -> PageBuilder.decision(c, "")).toList();
    }

    /** Compounds as they come, levels as people count them. */
    private static List<Budget> inReadingOrder(List<Budget> budgets) {
        final Map<String, List<Budget>> byCompound = byCompound(budgets);
        return byCompound.values().stream()
                .flatMap(
                        list ->
                                list.stream()
                                        .sorted(
                                                Comparator.comparing(
                                                        Budget::level, NaturalOrder.ORDER)))
                .toList();
    }

    /** The largest shares at the lowest and the highest result of each compound. */
    static List<Page.Limit> limits(List<Budget> budgets) {
        final List<Page.Limit> limits = new ArrayList<>();
        byCompound(budgets)
                .forEach(
                        (compound, list) -> {
                            final Budget low = list.stream().min(BY_SIZE).orElseThrow();
                            final Budget high = list.stream().max(BY_SIZE).orElseThrow();
                            limits.add(limit(low));
                            if (!high.equals(low)) {
                                limits.add(limit(high));
                            }
                        });
        return List.copyOf(limits);
    }

    private static Page.Limit limit(Budget budget) {
        final Uncertain result = budget.result();
        final String relative =
                result.value() == 0
                        ? ""
                        : Rounded.alone(100 * budget.expanded() / Math.abs(result.value()), 2)
                                        .valueText()
                                + " %";
        final String sources =
                budget.rows().stream()
                        .filter(r -> r.share().orElse(0.0) >= WORTH_NAMING)
                        .sorted(Comparator.comparing(BudgetPages::share).reversed())
                        .limit(SOURCES)
                        .map(r -> words(r) + " (" + Wording.share(share(r)) + ")")
                        .collect(Collectors.joining("; "));
        return new Page.Limit(
                budget.compound().isEmpty() ? budget.name() : budget.compound(),
                budget.level(),
                relative,
                sources.isEmpty() ? "nothing: it has no uncertainty" : sources);
    }

    private static Map<String, List<Budget>> byCompound(List<Budget> budgets) {
        final Map<String, List<Budget>> byCompound = new LinkedHashMap<>();
        budgets.forEach(
                b -> byCompound.computeIfAbsent(b.compound(), c -> new ArrayList<>()).add(b));
        return byCompound;
    }

    private static BudgetView view(Budget budget, String anchor, List<Page.Decision> decisions) {
        final List<Contribution> rows =
                budget.rows().stream()
                        .sorted(Comparator.comparing(BudgetPages::share).reversed())
                        .map(r -> contribution(r))
                        .toList();
        final String unit = Wording.unit(budget.result().unit());
        return new BudgetView(
                anchor,
                titleOf(budget),
                sentence(budget),
                budget.name() + " = " + budget.equation(),
                unit,
                List.of(
                        Cells.width(rows.stream().map(Contribution::value).toList()),
                        Cells.width(rows.stream().map(Contribution::uncertainty).toList()),
                        Cells.width(rows.stream().map(Contribution::degreesOfFreedom).toList()),
                        Cells.width(rows.stream().map(Contribution::sensitivity).toList()),
                        Cells.width(rows.stream().map(Contribution::contribution).toList()),
                        Cells.width(rows.stream().map(Contribution::share).toList())),
                rows,
                budget.rows().stream().anyMatch(r -> share(r) < 0),
                budget.correlations().stream().map(BudgetPages::correlation).toList(),
                intervals(budget),
                comparison(budget),
                List.copyOf(decisions));
    }

    private static String sentence(Budget budget) {
        final Uncertain result = budget.result();
        final Rounded r = Rounded.of(result.value(), budget.expanded());
        final String unit = Wording.unit(result.unit());
        return PageBuilder.withUncertainty(r, unit)
                + ", coverage probability "
                + Wording.percent(budget.coverage())
                + " (k = "
                + Wording.decimals(budget.coverageFactor(), 2)
                + ", effective degrees of freedom "
                + Wording.degreesOfFreedom(result.degreesOfFreedom())
                + ", combined standard uncertainty "
                + with(Rounded.alone(result.standardUncertainty(), 2).valueText(), unit)
                + ")";
    }

    private static Contribution contribution(Budget.Row row) {
        final Rounded pair = Rounded.of(row.value(), row.standardUncertainty());
        return new Contribution(
                words(row),
                row.symbol(),
                origin(row),
                Cells.of(pair.valueText()),
                Cells.of(pair.uncertaintyText()),
                Wording.unit(row.unit()),
                Cells.of(Wording.degreesOfFreedom(row.degreesOfFreedom())),
                Cells.of(Rounded.alone(row.sensitivity(), 3).valueText()),
                Cells.of(Rounded.alone(row.contribution(), 2).valueText()),
                row.share().map(s -> Cells.of(Wording.decimals(s, 1))).orElse(Page.Cell.EMPTY),
                Wording.decimals(Math.max(0, Math.min(100, share(row))), 1));
    }

    /** What it is and on which side it acts. */
    private static String words(Budget.Row row) {
        if (!row.words().isBlank()) {
            return row.words();
        }
        return row.effect().map(e -> e.words()).orElse(row.symbol())
                + row.actsOn().map(a -> " (" + a.words() + ")").orElse("");
    }

    private static String origin(Budget.Row row) {
        final String kind =
                switch (row.evaluation()) {
                    case "A" -> "from data of this study";
                    case "B" -> "from elsewhere";
                    default -> row.evaluation();
                };
        final String shape =
                row.distribution().isBlank() || row.distribution().equals("exact")
                        ? row.distribution()
                        : Wording.plain(row.distribution()) + " distribution";
        return List.of(kind, shape, row.source()).stream()
                .filter(t -> !t.isBlank())
                .collect(Collectors.joining(", "));
    }

    private static String correlation(Budget.Correlation c) {
        return c.symbolA()
                + " with "
                + c.symbolB()
                + ": "
                + Wording.decimals(c.correlation(), 2)
                + " ("
                + c.cause()
                + ")";
    }

    private static List<Interval> intervals(Budget budget) {
        final double u = budget.result().standardUncertainty();
        final double v = budget.result().value();
        final List<Interval> intervals = new ArrayList<>();
        final String first = "law of propagation (value ± U)";
        intervals.add(interval(first, v - budget.expanded(), v + budget.expanded(), u, true));
        budget.simulated()
                .ifPresent(
                        s -> {
                            final double sd = s.standardDeviation();
                            final boolean exists = s.standardDeviationExists();
                            final String how = "Monte Carlo, " + s.trials() + " trials, ";
                            intervals.add(
                                    interval(
                                            how + "equal tails", s.lower(), s.upper(), sd, exists));
                            intervals.add(
                                    interval(
                                            how + "shortest",
                                            s.shortestLower(),
                                            s.shortestUpper(),
                                            sd,
                                            exists));
                        });
        return List.copyOf(intervals);
    }

    private static Interval interval(
            String how, double lower, double upper, double u, boolean exists) {
        final double like = (upper - lower) / 4;
        return new Interval(
                how,
                Rounded.at(lower, like).valueText(),
                Rounded.at(upper, like).valueText(),
                exists ? Rounded.alone(u, 2).valueText() : "none: too few degrees of freedom");
    }

    private static String comparison(Budget budget) {
        final String compared = MethodsCompared.words(budget);
        final String without = budget.simulated().map(BudgetPages::withoutValue).orElse("");
        return without.isEmpty() || compared.isEmpty()
                ? compared + without
                : compared + " " + without;
    }

    private static String withoutValue(MonteCarlo.Simulated s) {
        return s.withoutValue() == 0
                ? ""
                : "In "
                        + s.withoutValue()
                        + " of "
                        + s.trials()
                        + " trials the equation had no finite value; they are left out.";
    }

    private static double share(Budget.Row row) {
        return row.share().orElse(0.0);
    }

    private static String with(String number, String unit) {
        return unit.isEmpty() ? number : number + " " + unit;
    }
}
