package splitledger.report;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import splitledger.report.Page.ResultColumn;
import splitledger.report.Page.ResultLine;
import splitledger.report.Page.ResultRow;
import splitledger.report.Page.ResultsAcross;

/** Results of several compounds in one table: samples down, compounds across. */
final class ResultsSideBySide {
    private static final int MOST_COLUMNS = 4;

    private ResultsSideBySide() {}

    /**
     * The table, if two to four compounds have results in one unit each, most of them for the same
     * samples.
     */
    static Optional<ResultsAcross> of(Map<String, List<ResultRow>> byCompound) {
        final Map<String, List<Optional<ResultRow>>> lines = new LinkedHashMap<>();
        final List<ResultColumn> columns = new ArrayList<>();
        int count = 0;
        for (var e : byCompound.entrySet()) {
            for (ResultRow row : e.getValue()) {
                final List<Optional<ResultRow>> line =
                        lines.computeIfAbsent(row.which(), w -> new ArrayList<>());
                fill(line, columns.size());
                line.add(Optional.of(row));
                count++;
            }
            columns.add(column(e.getKey(), e.getValue()));
        }
        final boolean suits =
                columns.size() >= 2
                        && columns.size() <= MOST_COLUMNS
                        && 2 * count > lines.size() * columns.size()
                        && byCompound.values().stream().allMatch(ResultsSideBySide::oneUnit);
        if (!suits) {
            return Optional.empty();
        }
        final List<ResultLine> all = new ArrayList<>();
        lines.forEach(
                (which, line) -> {
                    fill(line, columns.size());
                    all.add(new ResultLine(which, List.copyOf(line)));
                });
        return Optional.of(new ResultsAcross(List.copyOf(columns), List.copyOf(all)));
    }

    private static boolean oneUnit(List<ResultRow> rows) {
        return rows.stream().map(ResultRow::unit).distinct().count() == 1;
    }

    private static ResultColumn column(String compound, List<ResultRow> rows) {
        final Set<String> factors = new LinkedHashSet<>();
        rows.stream()
                .map(ResultRow::factor)
                .filter(k -> !k.isEmpty())
                .sorted((a, b) -> new BigDecimal(a).compareTo(new BigDecimal(b)))
                .forEach(factors::add);
        final List<String> sorted = List.copyOf(factors);
        final String factor =
                sorted.size() < 2
                        ? String.join("", sorted)
                        : sorted.get(0) + " to " + sorted.get(sorted.size() - 1);
        return new ResultColumn(
                compound,
                rows.isEmpty() ? "" : rows.get(0).unit(),
                factor,
                Cells.width(rows.stream().map(ResultRow::value).toList()),
                Cells.width(rows.stream().map(ResultRow::expanded).toList()));
    }

    private static void fill(List<Optional<ResultRow>> line, int upTo) {
        while (line.size() < upTo) {
            line.add(Optional.empty());
        }
    }
}
