package splitledger.history;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import splitledger.chart.ChartRenderer;
import splitledger.dossier.WholeFolder;
import splitledger.study.Figure;

/**
 * Instruments over time: everything that is written, and what it comes to.
 *
 * @param files by name
 * @param lines for the terminal
 * @param needsAction whether something asks for action
 */
public record Trend(Map<String, byte[]> files, List<String> lines, boolean needsAction) {
    /** The table. */
    public static final String TABLE = "trend.csv";

    /** The page. */
    public static final String PAGE = "trend.html";

    /** By what an earlier trend is known. */
    public static final WholeFolder.Kind KIND =
            new WholeFolder.Kind(
                    TABLE,
                    String.join(",", TrendTable.header()),
                    List.of("trend\\.html", "figures/trend-[A-Za-z0-9-]+\\.svg"),
                    "an earlier trend");

    public Trend {
        files = Collections.unmodifiableMap(new LinkedHashMap<>(files));
        lines = List.copyOf(lines);
    }

    /** Charts a history and says what needs action. */
    public static Trend of(History history, TrendOptions options) {
        final Charts.Made made = Charts.of(history, options);
        final Map<Chart, List<TrendPage.Drawn>> drawn = new LinkedHashMap<>();
        final Set<String> names = new LinkedHashSet<>();
        for (Chart chart : made.charts()) {
            final boolean quiet =
                    chart.standing() == Standing.QUIET || chart.standing() == Standing.TOO_FEW;
            if (!(chart.key().watched().isDetail() && quiet)) {
                drawn.put(chart, drawn(chart, names));
            }
        }
        final Map<String, byte[]> files = new LinkedHashMap<>();
        files.put(TABLE, TrendTable.of(history, made.charts()));
        files.put(PAGE, new TrendPage(history, made, options, drawn).bytes());
        drawn.values().stream()
                .flatMap(List::stream)
                .forEach(d -> files.put("figures/" + d.figure().id() + ".svg", d.svg()));
        return new Trend(
                files, TrendSummary.lines(history, made), TrendSummary.needsAction(history, made));
    }

    private static List<TrendPage.Drawn> drawn(Chart chart, Set<String> names) {
        final List<TrendPage.Drawn> drawn = new ArrayList<>();
        for (Figure figure : TrendFigures.of(chart)) {
            String id = figure.id();
            for (int i = 2; !names.add(id); i++) {
                id = figure.id() + "-" + i;
            }
            final Figure named = figure.named(id);
            drawn.add(new TrendPage.Drawn(named, ChartRenderer.svg(named)));
        }
        return drawn;
    }
}
