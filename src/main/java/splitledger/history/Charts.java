package splitledger.history;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import splitledger.base.CodePoints;

/** Sorts dated values into series and charts each. */
final class Charts {
    private final History history;
    private final TrendOptions options;
    private final List<Chart> charts = new ArrayList<>();
    private final List<String> without = new ArrayList<>();

    private Charts(History history, TrendOptions options) {
        this.history = history;
        this.options = options;
    }

    /**
     * Everything there is to chart.
     *
     * @param charts in the order of the page
     * @param without series that no dossier gives a value for, in words
     */
    record Made(List<Chart> charts, List<String> without) {
        Made {
            charts = List.copyOf(charts);
            without = List.copyOf(without);
        }
    }

    static Made of(History history, TrendOptions options) {
        final Charts all = new Charts(history, options);
        all.series().forEach(all::chart);
        return new Made(all.charts, all.without);
    }

    private Map<SeriesKey, List<DatedValue>> series() {
        final Map<SeriesKey, List<DatedValue>> series = new TreeMap<>();
        for (DatedValue value : history.values()) {
            SeriesKey.of(value)
                    .ifPresent(
                            key -> series.computeIfAbsent(key, k -> new ArrayList<>()).add(value));
        }
        series.keySet()
                .removeIf(
                        key ->
                                key.watched() == Watched.MEMBER
                                        && series.containsKey(key.as(Watched.HEAVY_TO_LIGHT)));
        return series;
    }

    private void chart(SeriesKey key, List<DatedValue> all) {
        final Map<String, Integer> given = new TreeMap<>(CodePoints.ORDER);
        for (DatedValue value : all) {
            given.merge(value.method(), value.isGiven() ? 1 : 0, Integer::sum);
        }
        final String method = chosen(key.watched(), given);
        final List<DatedValue> own =
                all.stream()
                        .filter(v -> v.method().equals(method))
                        .sorted(
                                Comparator.comparingDouble(DatedValue::days)
                                        .thenComparing(DatedValue::dossier, CodePoints.ORDER)
                                        .thenComparing(DatedValue::condition, CodePoints.ORDER))
                        .toList();
        final List<DatedValue> points = own.stream().filter(DatedValue::isGiven).toList();
        final List<DatedValue> missing = own.stream().filter(v -> !v.isGiven()).toList();
        if (points.isEmpty()) {
            without.add(
                    key.instrument()
                            + ", "
                            + key.words()
                            + ": "
                            + own.get(own.size() - 1).reason()
                            + " in all dossiers");
            return;
        }
        final List<String> remarks = new ArrayList<>();
        final List<String> others = given.keySet().stream().filter(m -> !m.equals(method)).toList();
        if (!others.isEmpty()) {
            remarks.add(
                    "By the method '"
                            + method
                            + "', which gives the most values; not charted: "
                            + String.join("; ", others)
                            + ".");
        }
        charts.add(Charting.chart(key, points, works(key), missing, remarks, options));
    }

    private List<History.Work> works(SeriesKey key) {
        return history.works().stream()
                .filter(w -> w.instrument().equals(key.instrument()))
                .sorted(
                        Comparator.comparingDouble(History.Work::days)
                                .thenComparing(History.Work::what, CodePoints.ORDER))
                .toList();
    }

    /** The method with the most values; of those, the one preferred, else the first by name. */
    private static String chosen(Watched watched, Map<String, Integer> given) {
        final int most = given.values().stream().mapToInt(Integer::intValue).max().orElse(0);
        final List<String> best =
                given.entrySet().stream()
                        .filter(e -> e.getValue() == most)
                        .map(Map.Entry::getKey)
                        .toList();
        return best.contains(watched.preferred()) ? watched.preferred() : best.get(0);
    }
}
