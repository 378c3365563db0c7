package splitledger.history;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.ToDoubleFunction;
import java.util.stream.DoubleStream;
import splitledger.study.Doubles;
import splitledger.study.Figure;
import splitledger.study.Figure.Role;

/** The figures of one chart: values, moving average, moving ranges. */
final class TrendFigures {
    private static final String EVENTS = "work on the instrument";
    private static final String LIMITS = "limits";
    private static final double ROOM = 0.1;
    private static final double UNDER_THE_TOP = 0.05;

    private final Chart chart;
    private final Figure.Axis time;

    private TrendFigures(Chart chart) {
        this.chart = chart;
        time = TimeAxis.covering(chart.points().get(0).value().days(), chart.last().value().days());
    }

    /** All that can be drawn, the values first. */
    static List<Figure> of(Chart chart) {
        final TrendFigures figures = new TrendFigures(chart);
        final List<Figure> all = new ArrayList<>();
        all.add(figures.values());
        if (chart.points().stream().anyMatch(p -> Double.isFinite(p.average()))) {
            all.add(figures.averages());
        }
        if (chart.points().stream().anyMatch(p -> Double.isFinite(p.range()))) {
            all.add(figures.ranges());
        }
        return all;
    }

    private Figure values() {
        final Figure.Axis y =
                axis(
                        chart.key().watched().words(),
                        chart.key().unit().equals("1") ? "" : chart.key().unit(),
                        List.of(
                                p -> p.value().value(),
                                p -> p.value().lower(),
                                p -> p.value().upper(),
                                ChartPoint::lower,
                                ChartPoint::upper));
        final List<Figure.Layer> layers = new ArrayList<>();
        layers.addAll(works(y));
        layers.addAll(limits(ChartPoint::lower, ChartPoint::upper));
        layers.add(new Figure.Line("usual", Role.FIT, days(), broken(ChartPoint::centre)));
        layers.add(
                new Figure.Intervals(
                        "value with its interval",
                        Role.DATA,
                        days(),
                        each(p -> p.value().value()),
                        each(p -> p.value().lower()),
                        each(p -> p.value().upper())));
        layers.addAll(flagged(p -> p.value().value(), p -> !p.signals().isEmpty()));
        final TrendWords words = new TrendWords(chart);
        return figure(
                "values",
                words.title(),
                "Each dossier's value over time, with the usual value, the limits of single values"
                        + " and work on the instrument. A value that shows something is marked.",
                words.newest(),
                y,
                layers);
    }

    private Figure averages() {
        final boolean deviates = chart.scale() == Scale.SPREAD;
        final Figure.Axis y =
                axis(
                        deviates ? "average deviation" : chart.key().watched().words(),
                        deviates
                                ? "standard deviations"
                                : chart.key().unit().equals("1") ? "" : chart.key().unit(),
                        List.of(
                                ChartPoint::average,
                                ChartPoint::averageLower,
                                ChartPoint::averageUpper));
        final List<Figure.Layer> layers = new ArrayList<>();
        layers.addAll(works(y));
        layers.addAll(limits(ChartPoint::averageLower, ChartPoint::averageUpper));
        layers.add(
                new Figure.Line(
                        "usual",
                        Role.FIT,
                        days(),
                        broken(p -> deviates ? 0 * p.average() : p.centre())));
        layers.add(
                points("average of the recent values", Role.DATA, p -> true, ChartPoint::average));
        layers.addAll(
                flagged(
                        ChartPoint::average,
                        p -> p.signals().stream().anyMatch(s -> s.kind() == Signal.Kind.AVERAGE)));
        return figure(
                "average",
                new TrendWords(chart).title() + ": average of the recent values",
                "Exponentially weighted moving average, the newest value counting one fifth: small"
                        + " lasting shifts show here first. Its limits widen until enough values are"
                        + " averaged."
                        + (deviates
                                ? " For standard deviations the deviates are averaged, since each has"
                                        + " its own degrees of freedom."
                                : ""),
                "Newest average " + Shortly.number(chart.last().average()) + ".",
                y,
                layers);
    }

    private Figure ranges() {
        final Figure.Axis y =
                axis(
                        "moving range on the scale: " + chart.scale().words(),
                        "",
                        List.of(p -> 0, ChartPoint::range, ChartPoint::rangeUpper));
        final List<Figure.Layer> layers = new ArrayList<>();
        layers.addAll(works(y));
        layers.add(new Figure.Line(LIMITS, Role.REFERENCE, days(), broken(ChartPoint::rangeUpper)));
        layers.add(points("moving range", Role.DATA, p -> true, ChartPoint::range));
        layers.addAll(
                flagged(
                        ChartPoint::range,
                        p -> p.signals().stream().anyMatch(s -> s.kind() == Signal.Kind.JUMP)));
        return figure(
                "ranges",
                new TrendWords(chart).title() + ": moving ranges",
                "Differences between neighbouring dossiers without their sign: what the limits of"
                        + " single values are made of. One beyond its limit is a jump.",
                "Newest moving range " + Shortly.number(chart.last().range()) + ".",
                y,
                layers);
    }

    private Figure figure(
            String kind,
            String title,
            String caption,
            String alternative,
            Figure.Axis y,
            List<Figure.Layer> layers) {
        final SeriesKey key = chart.key();
        final String name =
                key.instrument()
                        + "-"
                        + key.watched().words()
                        + "-"
                        + key.compound()
                        + "-"
                        + key.condition()
                        + "-"
                        + kind;
        return new Figure(
                Figure.safeId("trend", name),
                "trend",
                key.compound(),
                title,
                caption,
                alternative,
                time,
                y,
                layers);
    }

    private Figure.Axis axis(
            String label, String unit, List<ToDoubleFunction<ChartPoint>> contents) {
        final double[] all =
                contents.stream()
                        .flatMapToDouble(f -> chart.points().stream().mapToDouble(f))
                        .filter(Double::isFinite)
                        .toArray();
        final double low = DoubleStream.of(all).min().orElse(0);
        final double high = DoubleStream.of(all).max().orElse(1);
        return Figure.Axis.covering(label, unit, low, high + ROOM * (high - low));
    }

    private List<Figure.Layer> works(Figure.Axis y) {
        final List<History.Work> shown =
                chart.works().stream()
                        .filter(w -> w.days() >= time.from() && w.days() <= time.to())
                        .toList();
        if (shown.isEmpty()) {
            return List.of();
        }
        final List<Double> x = new ArrayList<>();
        final List<Double> heights = new ArrayList<>();
        for (History.Work work : shown) {
            x.addAll(List.of(work.days(), work.days(), Double.NaN));
            heights.addAll(List.of(y.from(), y.to(), Double.NaN));
        }
        final double top = y.to() - UNDER_THE_TOP * (y.to() - y.from());
        final Set<Double> named = new LinkedHashSet<>();
        final List<String> names =
                shown.stream().map(w -> named.add(w.days()) ? w.what() : "").toList();
        return List.of(
                new Figure.Line(EVENTS, Role.PREDICTION, Doubles.of(x), Doubles.of(heights)),
                new Figure.Points(
                        "",
                        Role.CONFIDENCE,
                        Doubles.of(shown.stream().map(History.Work::days).toList()),
                        Doubles.of(shown.stream().map(w -> top).toList()),
                        names));
    }

    private List<Figure.Layer> limits(
            ToDoubleFunction<ChartPoint> lower, ToDoubleFunction<ChartPoint> upper) {
        return List.of(
                new Figure.Line(LIMITS, Role.REFERENCE, days(), broken(lower)),
                new Figure.Line(LIMITS, Role.REFERENCE, days(), broken(upper)));
    }

    private List<Figure.Layer> flagged(
            ToDoubleFunction<ChartPoint> y, java.util.function.Predicate<ChartPoint> wanted) {
        return chart.points().stream().anyMatch(wanted)
                ? List.of(points("shows something", Role.OTHER_DATA, wanted, y))
                : List.of();
    }

    private Figure.Points points(
            String name,
            Role role,
            java.util.function.Predicate<ChartPoint> wanted,
            ToDoubleFunction<ChartPoint> y) {
        final List<ChartPoint> shown = chart.points().stream().filter(wanted).toList();
        return new Figure.Points(
                name,
                role,
                Doubles.of(shown.stream().mapToDouble(p -> p.value().days()).toArray()),
                Doubles.of(shown.stream().mapToDouble(y).toArray()),
                shown.stream().map(p -> "").toList());
    }

    private Doubles days() {
        final List<Double> x = new ArrayList<>();
        int stretch = chart.points().get(0).stretch();
        for (ChartPoint p : chart.points()) {
            if (p.stretch() != stretch) {
                stretch = p.stretch();
                x.add(Double.NaN);
            }
            x.add(p.value().days());
        }
        return Doubles.of(x);
    }

    /** One number a point, with a gap between stretches. */
    private Doubles broken(ToDoubleFunction<ChartPoint> f) {
        final List<Double> y = new ArrayList<>();
        int stretch = chart.points().get(0).stretch();
        for (ChartPoint p : chart.points()) {
            if (p.stretch() != stretch) {
                stretch = p.stretch();
                y.add(Double.NaN);
            }
            y.add(f.applyAsDouble(p));
        }
        return Doubles.of(y);
    }

    private Doubles each(ToDoubleFunction<ChartPoint> f) {
        return broken(f);
    }
}
