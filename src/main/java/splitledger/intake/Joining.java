package splitledger.intake;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;
import splitledger.base.Nearest;
import splitledger.base.Problem;
import splitledger.study.Place;

/** Joins the columns of one table to the frame: by injection, or by other labels. */
final class Joining {
    private final Frame frame;
    private final RawTable table;
    private final TableSpec spec;
    private final Reading reading;

    private Joining(Frame frame, RawTable table, Reading reading) {
        this.frame = frame;
        this.table = table;
        spec = table.spec();
        this.reading = reading;
    }

    /** Joins a table; what does not fit becomes a problem, or a flag where the table says so. */
    static void join(Frame frame, RawTable table, Reading reading) {
        final Joining joining = new Joining(frame, table, reading);
        if (joining.hasKeys() && joining.hasNoRepeats()) {
            joining.join();
        }
    }

    private boolean hasKeys() {
        boolean all = true;
        for (String key : spec.joinsOn()) {
            if (!frame.has(key)) {
                all = false;
                reading.problem(
                        spec.place(),
                        "a join on '" + key + "', a column that no table before this one has",
                        "a column of the tables before",
                        Nearest.hint(key, frame.columns()));
            }
        }
        return all;
    }

    private boolean hasNoRepeats() {
        final List<LabelTables.Repeat> repeats = LabelTables.repeats(keys());
        for (LabelTables.Repeat repeat :
                repeats.subList(0, Math.min(Reading.LISTED, repeats.size()))) {
            reading.problem(
                    new Problem(
                            spec.file(),
                            table.line(repeat.second()),
                            String.join(", ", spec.joinsOn()),
                            words(repeat.second()) + " a second time",
                            "one row for each " + String.join(" and ", spec.joinsOn()),
                            "it stands in line "
                                    + table.line(repeat.first())
                                    + " already: keep one of them"));
        }
        return repeats.isEmpty();
    }

    private List<String[]> keys() {
        return spec.joinsOn().stream().map(table::labels).toList();
    }

    private void join() {
        final int[] rightOf;
        if (spec.isRunList()) {
            final int k = frame.compounds().size();
            final LabelTables.Match match =
                    LabelTables.match(
                            List.<String[]>of(frame.injections().toArray(String[]::new)), keys());
            tellUnmatched(match);
            rightOf = new int[frame.size()];
            Arrays.setAll(rightOf, row -> match.rightOf(row / k));
        } else {
            final List<String[]> left = spec.joinsOn().stream().map(frame::labels).toList();
            final LabelTables.Match match = LabelTables.match(left, keys());
            tellUnused(match);
            tellLacking(match, left);
            rightOf = IntStream.range(0, frame.size()).map(match::rightOf).toArray();
        }
        final Set<String> columns = new TreeSet<>(table.columns());
        spec.joinsOn().forEach(columns::remove);
        for (String column : columns) {
            if (table.labels().containsKey(column)) {
                bringLabels(column, rightOf);
            } else {
                bringNumbers(column, rightOf);
            }
        }
    }

    private void tellUnmatched(LabelTables.Match match) {
        final List<String> lacking =
                match.leftOnly().mapToObj(i -> frame.injections().get(i)).toList();
        final List<String> extra =
                match.rightOnly().mapToObj(r -> table.labels(Columns.INJECTION)[r]).toList();
        final int line = match.rightOnly().map(table::line).findFirst().orElse(0);
        unmatched(0, lacking, "no row for ", " of the tables of areas");
        unmatched(line, extra, "rows for ", " that no table of areas has");
    }

    private void unmatched(int line, List<String> names, String before, String after) {
        if (names.isEmpty()) {
            return;
        }
        final String found =
                before
                        + names.size()
                        + (names.size() == 1 ? " injection" : " injections")
                        + after
                        + ": "
                        + Reading.listed(names);
        if (spec.ignoreUnmatched()) {
            reading.flag(new Place(spec.file(), line, Columns.INJECTION), Columns.INJECTION, found);
        } else {
            reading.problem(
                    new Problem(
                            spec.file(),
                            line,
                            Columns.INJECTION,
                            found,
                            "the same injections in both",
                            "mend the labels, or say unmatched: ignore at this table if they do not"
                                    + " belong together"));
        }
    }

    private void tellUnused(LabelTables.Match match) {
        final List<String> unused = match.rightOnly().mapToObj(this::words).toList();
        if (!unused.isEmpty()) {
            reading.flag(
                    new Place(spec.file(), table.line(match.rightOnly().findFirst().orElse(0)), ""),
                    String.join(", ", spec.joinsOn()),
                    "rows that belong to no injection: " + Reading.listed(unused));
        }
    }

    private void tellLacking(LabelTables.Match match, List<String[]> left) {
        final Set<String> lacking = new LinkedHashSet<>();
        match.leftOnly()
                .filter(row -> left.stream().noneMatch(c -> c[row].isEmpty()))
                .forEach(row -> lacking.add(words(left, row)));
        if (!lacking.isEmpty()) {
            reading.flag(
                    new Place(spec.file(), 0, ""),
                    String.join(", ", spec.joinsOn()),
                    "no row for " + Reading.listed(List.copyOf(lacking)));
        }
    }

    private void bringLabels(String column, int[] rightOf) {
        final String[] from = table.labels(column);
        final String[] into = frame.labels(column);
        final Map<Integer, Integer> clashes = new LinkedHashMap<>();
        for (int row = 0; row < rightOf.length; row++) {
            if (rightOf[row] < 0 || from[rightOf[row]].isEmpty()) {
                continue;
            }
            if (into[row].isEmpty()) {
                into[row] = from[rightOf[row]];
            } else if (!into[row].equals(from[rightOf[row]])) {
                clashes.putIfAbsent(rightOf[row], row);
            }
        }
        tellClash(column, clashes, r -> from[r], r -> into[r]);
    }

    private void bringNumbers(String column, int[] rightOf) {
        final double[] from = table.numbers().getOrDefault(column, new double[0]);
        final double[] into = frame.numbers(column);
        final Map<Integer, Integer> clashes = new LinkedHashMap<>();
        for (int row = 0; row < rightOf.length; row++) {
            if (rightOf[row] < 0 || Double.isNaN(from[rightOf[row]])) {
                continue;
            }
            if (Double.isNaN(into[row])) {
                into[row] = from[rightOf[row]];
            } else if (into[row] != from[rightOf[row]]) {
                clashes.putIfAbsent(rightOf[row], row);
            }
        }
        tellClash(
                column,
                clashes,
                r -> splitledger.base.Numbers.text(from[r]),
                r -> splitledger.base.Numbers.text(into[r]));
    }

    private void tellClash(
            String column,
            Map<Integer, Integer> clashes,
            java.util.function.IntFunction<String> from,
            java.util.function.IntFunction<String> into) {
        if (clashes.isEmpty()) {
            return;
        }
        final Map.Entry<Integer, Integer> first = clashes.entrySet().iterator().next();
        reading.problem(
                new Problem(
                        spec.file(),
                        table.line(first.getKey()),
                        column,
                        "'"
                                + from.apply(first.getKey())
                                + "' where another table says '"
                                + into.apply(first.getValue())
                                + "' ("
                                + clashes.size()
                                + (clashes.size() == 1 ? " row" : " rows")
                                + " in all)",
                        "one value for a cell",
                        "take the column out of one table, or map it to another name"));
    }

    private String words(int row) {
        return words(keys(), row);
    }

    private String words(List<String[]> columns, int row) {
        final List<String> parts = new ArrayList<>();
        for (int i = 0; i < columns.size(); i++) {
            parts.add(spec.joinsOn().get(i) + " '" + columns.get(i)[row] + "'");
        }
        return String.join(", ", parts);
    }
}
