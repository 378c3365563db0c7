package splitledger.history;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/** What a chart says, in words. */
final class TrendWords {
    private static final double LARGE = 2;
    private static final double TENTH = 10;

    private final Chart chart;

    TrendWords(Chart chart) {
        this.chart = chart;
    }

    /** Instrument and quantity. */
    String title() {
        return chart.key().instrument() + ", " + chart.key().words();
    }

    /** What is to be said of how it stands. */
    List<String> sentences() {
        final List<String> sentences = new ArrayList<>();
        sentences.add(newest());
        if (chart.key().watched().isDetail()) {
            sentences.add(signals());
            return sentences;
        }
        if (!chart.last().signals().isEmpty()) {
            sentences.add(signals());
            sentences.add(begun());
        }
        uncertain().ifPresent(sentences::add);
        if (chart.isProvisional()) {
            sentences.add(
                    "The limits are provisional: "
                            + chart.behindLimits()
                            + " dossiers set them, and "
                            + Chart.FEW
                            + " are the least to rely on.");
        }
        return sentences;
    }

    /** The newest value with its limits, in one line. */
    String newest() {
        final ChartPoint last = chart.last();
        final String value =
                Shortly.number(last.value().value(), unit())
                        + " in dossier "
                        + last.value().dossier()
                        + " of "
                        + StudyTime.day(last.value().time());
        if (!last.hasLimits()) {
            return value + "; no limits yet (" + chart.points().size() + " dossiers give it).";
        }
        return value
                + "; usual "
                + Shortly.number(last.centre(), unit())
                + ", limits "
                + Shortly.number(last.lower())
                + " to "
                + Shortly.number(last.upper(), unit())
                + " from "
                + chart.behindLimits()
                + " dossiers.";
    }

    /** Said where the newest value's own uncertainty is large against the others'. */
    private Optional<String> uncertain() {
        final double[] others =
                chart.points().stream()
                        .filter(ChartPoint::base)
                        .mapToDouble(this::own)
                        .filter(Double::isFinite)
                        .sorted()
                        .toArray();
        if (chart.scale() == Scale.SPREAD || others.length == 0) {
            return Optional.empty();
        }
        final double usual = (others[(others.length - 1) / 2] + others[others.length / 2]) / 2;
        final double times = own(chart.last()) / usual;
        return times > LARGE
                ? Optional.of(
                        "Its own standard uncertainty is "
                                + Shortly.number(Math.rint(TENTH * times) / TENTH)
                                + " times the usual one: repeat the study before anything is changed"
                                + " because of it.")
                : Optional.empty();
    }

    private double own(ChartPoint point) {
        return point.value().standardUncertainty()
                * Math.abs(chart.scale().slope(point.value().value()));
    }

    private String unit() {
        return chart.key().unit();
    }

    private String signals() {
        return sentence(
                chart.last().signals().stream()
                                .map(s -> s.kind().words() + side(s))
                                .distinct()
                                .collect(Collectors.joining("; "))
                        + ".");
    }

    private String side(Signal signal) {
        if (signal.side() == 0) {
            return "";
        }
        final String where = signal.side() > 0 ? " (upwards)" : " (downwards)";
        return chart.key().watched().isWorse(signal.side())
                ? where
                : where + ", which is better than before: find out why";
    }

    /** Since when it is so, and what was done before. */
    private String begun() {
        final List<ChartPoint> points = chart.points();
        final Signal first = chart.last().signals().get(0);
        final boolean beyond = first.kind() == Signal.Kind.BEYOND;
        int from = points.size() - 1;
        while (from > 0
                && points.get(from - 1).stretch() == chart.last().stretch()
                && (beyond
                        ? points.get(from - 1).signals().contains(first)
                        : first.side() * points.get(from - 1).z() > 0)) {
            from--;
        }
        final DatedValue begin = points.get(from).value();
        final String since =
                from == points.size() - 1
                        ? "It is the first value so; "
                        : (beyond ? "Beyond the limits since " : "On this side of the usual since ")
                                + StudyTime.day(begin.time())
                                + " (dossier "
                                + begin.dossier()
                                + "); ";
        return since + before(from);
    }

    private String before(int from) {
        final double until = chart.points().get(from).value().days();
        final double after =
                from == 0 ? Double.NEGATIVE_INFINITY : chart.points().get(from - 1).value().days();
        final List<History.Work> between =
                chart.works().stream().filter(w -> w.days() > after && w.days() <= until).toList();
        if (!between.isEmpty()) {
            return "work since the dossier before: "
                    + between.stream()
                            .map(w -> w.what() + " on " + StudyTime.day(w.date()))
                            .collect(Collectors.joining(", "))
                    + ". If that change is meant to stay, set limits anew after it"
                    + " (--anew-after).";
        }
        final Optional<History.Work> last =
                chart.works().stream()
                        .filter(w -> w.days() <= until)
                        .reduce((earlier, later) -> later);
        return last.map(
                        w ->
                                "no work is noted since the dossier before; the last one was: "
                                        + w.what()
                                        + " on "
                                        + StudyTime.day(w.date())
                                        + ".")
                .orElse("no work on the instrument is noted before it.");
    }

    /** Signals before the newest dossier, one line each; empty if there are none. */
    List<String> earlier() {
        return chart.points().subList(0, chart.points().size() - 1).stream()
                .filter(p -> !p.signals().isEmpty())
                .map(
                        p ->
                                StudyTime.day(p.value().time())
                                        + ", dossier "
                                        + p.value().dossier()
                                        + ": "
                                        + Shortly.number(p.value().value(), unit())
                                        + ", "
                                        + p.signals().stream()
                                                .map(s -> s.kind().words())
                                                .distinct()
                                                .collect(Collectors.joining("; "))
                                        + ".")
                .toList();
    }

    /** Dossiers that give no value, in one sentence; empty if all do. */
    Optional<String> missing() {
        return chart.missing().isEmpty()
                ? Optional.empty()
                : Optional.of(
                        "Without a value: "
                                + chart.missing().stream()
                                        .map(v -> v.dossier() + " (" + v.reason() + ")")
                                        .collect(Collectors.joining(", "))
                                + ".");
    }

    private static String sentence(String words) {
        return Character.toUpperCase(words.charAt(0)) + words.substring(1);
    }
}
