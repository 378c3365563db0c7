package splitledger.history;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/** What a chart says, in words. */
final class TrendWords {
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
        if (!chart.last().signals().isEmpty()) {
            sentences.add(signals());
            sentences.add(begun());
        }
        if (chart.isProvisional()) {
            sentences.add(
                    "The limits are provisional: "
                            + chart.behindLimits()
                            + " dossiers set them, and "
                            + Chart.FEW
                            + " are the least to rely on.");
        }
        if (chart.standing() == Standing.ACT) {
            sentences.add("How to look further: " + chart.key().watched().advice());
        }
        return sentences;
    }

    /** The newest value with its limits, in one line. */
    String newest() {
        final ChartPoint last = chart.last();
        final String value =
                Readable.number(last.value().value(), unit())
                        + " in dossier "
                        + last.value().dossier()
                        + " of "
                        + StudyTime.day(last.value().time());
        if (!last.hasLimits()) {
            return value + "; no limits yet (" + chart.points().size() + " dossiers give it).";
        }
        return value
                + "; usual "
                + Readable.number(last.centre(), unit())
                + ", limits "
                + Readable.number(last.lower())
                + " to "
                + Readable.number(last.upper(), unit())
                + " from "
                + chart.behindLimits()
                + " dossiers.";
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

    /** Since when values lie on the side of the signal, and what was done before. */
    private String begun() {
        final List<ChartPoint> points = chart.points();
        final int side = chart.last().signals().get(0).side();
        int from = points.size() - 1;
        while (from > 0
                && points.get(from - 1).stretch() == chart.last().stretch()
                && side * points.get(from - 1).z() > 0) {
            from--;
        }
        final DatedValue first = points.get(from).value();
        final String since =
                from == points.size() - 1
                        ? "It is the first value so; "
                        : "Values lie on this side of the usual since "
                                + StudyTime.day(first.time())
                                + " (dossier "
                                + first.dossier()
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
                                        + Readable.number(p.value().value(), unit())
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
