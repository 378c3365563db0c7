package splitledger.characteristic.precision;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import splitledger.characteristic.Digits;
import splitledger.statistics.GroupSpread;
import splitledger.statistics.Outcome;
import splitledger.study.Answer;
import splitledger.study.Doubles;
import splitledger.study.Figure;
import splitledger.study.Figure.Axis;
import splitledger.study.Figure.Layer;
import splitledger.study.Figure.Role;
import splitledger.study.Figure.Tick;
import splitledger.study.Finding;
import splitledger.study.Trail;

/** What the scatter looks like: results by conditions, shares of the variance, Mandel's h and k. */
final class ScatterFigures {
    private static final int MOST_TEXTS = 12;
    private static final double RISK = 0.01;
    private static final double PERCENT = 100;

    private ScatterFigures() {}

    /** Injections and their preparations' means, set of conditions by set of conditions. */
    static Figure dots(String compound, List<ScreenedRows.Item> items, ScreenedRows screened) {
        final double mean = items.stream().mapToDouble(ScreenedRows.Item::y).sum() / items.size();
        final List<String> cells =
                screened.conditions().stream().map(ScreenedRows.Group::cell).toList();
        final List<String> texts =
                screened.conditions().stream().map(ScreenedRows.Group::label).toList();
        final Plot injections = new Plot();
        final Plot preparations = new Plot();
        double reach = 0;
        for (int c = 0; c < cells.size(); c++) {
            final String cell = cells.get(c);
            final List<ScreenedRows.Item> members =
                    items.stream().filter(i -> i.cell().equals(cell)).toList();
            final var byPreparation =
                    Screening.grouped(members, ScreenedRows.Item::preparation).entrySet();
            int p = 0;
            for (var preparation : byPreparation) {
                p++;
                final double x = c + 1 + 0.7 * (p / (byPreparation.size() + 1.0) - 0.5);
                double sum = 0;
                for (ScreenedRows.Item i : preparation.getValue()) {
                    final double y = mean == 0 ? i.y() : PERCENT * (i.y() - mean) / mean;
                    injections.add(x, y, i.label() + ", preparation " + i.preparation());
                    sum += y;
                    reach = Math.max(reach, Math.abs(y));
                }
                preparations.add(
                        x,
                        sum / preparation.getValue().size(),
                        "mean of preparation " + preparation.getKey());
            }
        }
        final double end = cells.size() + 0.5;
        return new Figure(
                Figure.safeId("scatter", compound),
                Repeatability.ID,
                compound,
                "Injections of " + compound + " by preparation and conditions",
                "Points above each other are injections of one preparation, side by side the preparations of one set of"
                        + " conditions. What differs between sets is what days, analysts or instruments bring.",
                items.size()
                        + " injections under "
                        + cells.size()
                        + " sets of conditions, farthest "
                        + Digits.three(reach)
                        + (mean == 0 ? "" : " percent")
                        + " from the mean.",
                categories("conditions", texts),
                Axis.covering("distance from the mean", mean == 0 ? "" : "%", -reach, reach),
                List.of(
                        new Figure.Line(
                                "mean of all",
                                Role.REFERENCE,
                                Doubles.of(0.5, end),
                                Doubles.of(0, 0)),
                        injections.points("injections", Role.DATA),
                        preparations.points("means of preparations", Role.OTHER_DATA)));
    }

    /** Shares of the variance of a result, with intervals; empty if there are none. */
    static Optional<Figure> shares(String compound, List<Finding> findings) {
        final List<String> names = new ArrayList<>();
        final List<Answer.Estimate> all = new ArrayList<>();
        for (Finding f : findings) {
            if (f.key().quantity().equals("variance-share")
                    && f.answer() instanceof Answer.Estimate e) {
                names.add(f.key().condition().get("factor"));
                all.add(e);
            }
        }
        if (all.isEmpty()) {
            return Optional.empty();
        }
        final List<String> words = new ArrayList<>();
        for (int i = 0; i < names.size(); i++) {
            words.add(
                    names.get(i) + " " + Trail.digits(Math.rint(all.get(i).value())) + " percent");
        }
        return Optional.of(
                new Figure(
                        Figure.safeId("variance-shares", compound),
                        Repeatability.ID,
                        compound,
                        "Where the scatter of results of " + compound + " comes from",
                        "Share of each factor in the variance of one result, with its interval. Where intervals are wide, few"
                                + " labels were seen.",
                        String.join(", ", words) + ".",
                        categories("factor", names),
                        Axis.covering("share of the variance", "%", 0, PERCENT),
                        List.of(intervals("share with interval", all))));
    }

    /**
     * Shares of the scatter of injections that all peaks have in common; empty if there are none.
     */
    static Optional<Figure> shared(List<Finding> findings) {
        final List<String> names = new ArrayList<>();
        final List<Answer.Estimate> all = new ArrayList<>();
        for (Finding f : findings) {
            if (f.key().quantity().equals("share-common-mode")
                    && f.answer() instanceof Answer.Estimate e) {
                names.add(f.key().compound());
                all.add(e);
            }
        }
        if (all.isEmpty()) {
            return Optional.empty();
        }
        final List<Layer> layers = new ArrayList<>();
        layers.add(
                new Figure.Line(
                        "half shared, half own",
                        Role.REFERENCE,
                        Doubles.of(0.5, names.size() + 0.5),
                        Doubles.of(PERCENT / 2, PERCENT / 2)));
        layers.add(intervals("shared part with interval", all));
        return Optional.of(
                new Figure(
                        "shared-scatter",
                        Repeatability.ID,
                        "",
                        "Scatter of injections: shared by all peaks, or their own",
                        "Above the middle most of a peak's scatter is shared with the other peaks of the injection (volume,"
                                + " split, detector gain); below it is its own (integration, overlap, adsorption).",
                        all.size() + " compounds.",
                        categories("compound", names),
                        Axis.covering("shared part of the variance", "%", 0, PERCENT),
                        layers));
    }

    /** Mandel's h and k of every set of conditions; empty below three sets of two results. */
    static Optional<Figure> mandel(String compound, ScreenedRows screened) {
        final List<ScreenedRows.Group> sets = screened.conditions();
        final boolean enough =
                sets.size() > 2 && sets.stream().allMatch(s -> s.values().size() > 1);
        if (!enough
                || !(GroupSpread.mandel(sets.stream().map(ScreenedRows.Group::array).toList())
                        instanceof Outcome.Computed<List<GroupSpread.Mandel>> found)) {
            return Optional.empty();
        }
        final double size =
                sets.stream().mapToInt(s -> s.values().size()).sum() / (double) sets.size();
        final double h = GroupSpread.hCritical(sets.size(), RISK);
        final double k = GroupSpread.kCritical(sets.size(), size, RISK);
        final Plot hs = new Plot();
        final Plot ks = new Plot();
        double reach = Math.max(h, k);
        for (int i = 0; i < sets.size(); i++) {
            final GroupSpread.Mandel m = found.value().get(i);
            hs.add(i + 0.9, m.h(), Math.abs(m.h()) > h ? "h of " + sets.get(i).label() : "");
            ks.add(i + 1.1, m.k(), m.k() > k ? "k of " + sets.get(i).label() : "");
            reach = Math.max(reach, Math.max(Math.abs(m.h()), m.k()));
        }
        final Doubles width = Doubles.of(0.5, sets.size() + 0.5);
        return Optional.of(
                new Figure(
                        Figure.safeId("mandel", compound),
                        Repeatability.ID,
                        compound,
                        "Mandel's h and k of " + compound,
                        "h: how far the mean of a set of conditions lies from the others; k: how much results within it scatter"
                                + " against the average. Beyond the lines (risk 1 %) a set stands apart.",
                        sets.size()
                                + " sets of conditions; limits h "
                                + Digits.three(h)
                                + ", k "
                                + Digits.three(k)
                                + ".",
                        categories(
                                "conditions",
                                sets.stream().map(ScreenedRows.Group::label).toList()),
                        Axis.covering("h, k", "", -reach, reach),
                        List.of(
                                new Figure.Line(
                                        "limits of h", Role.REFERENCE, width, Doubles.of(h, h)),
                                new Figure.Line(
                                        "limits of h", Role.REFERENCE, width, Doubles.of(-h, -h)),
                                new Figure.Line(
                                        "limit of k", Role.PREDICTION, width, Doubles.of(k, k)),
                                hs.points("h", Role.DATA),
                                ks.points("k", Role.OTHER_DATA))));
    }

    private static Figure.Intervals intervals(String name, List<Answer.Estimate> all) {
        return new Figure.Intervals(
                name,
                Role.DATA,
                Doubles.of(
                        java.util.stream.IntStream.rangeClosed(1, all.size())
                                .asDoubleStream()
                                .toArray()),
                Doubles.of(all.stream().mapToDouble(Answer.Estimate::value).toArray()),
                Doubles.of(all.stream().mapToDouble(Answer.Estimate::lower).toArray()),
                Doubles.of(all.stream().mapToDouble(Answer.Estimate::upper).toArray()));
    }

    /** An axis of names; with many of them only some are printed. */
    private static Axis categories(String label, List<String> names) {
        final int every = (names.size() + MOST_TEXTS - 1) / MOST_TEXTS;
        final List<Tick> ticks = new ArrayList<>();
        for (int i = 0; i < names.size(); i += Math.max(1, every)) {
            ticks.add(new Tick(i + 1, names.get(i)));
        }
        return new Axis(label, "", 0.5, names.size() + 0.5, ticks);
    }

    /** Points on their way into a figure. */
    private static final class Plot {
        private final List<Double> x = new ArrayList<>();
        private final List<Double> y = new ArrayList<>();
        private final List<String> labels = new ArrayList<>();

        void add(double ownX, double ownY, String label) {
            x.add(ownX);
            y.add(ownY);
            labels.add(label);
        }

        Figure.Points points(String name, Role role) {
            return new Figure.Points(
                    name,
                    role,
                    Doubles.of(x.stream().mapToDouble(v -> v).toArray()),
                    Doubles.of(y.stream().mapToDouble(v -> v).toArray()),
                    Collections.unmodifiableList(labels));
        }
    }
}
