package splitledger.intake;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;
import splitledger.base.Nearest;
import splitledger.base.Problem;
import splitledger.study.Place;
import splitledger.study.State;

/** Joins the columns of one table to the frame: by injection, or by other labels. */
final class Joining {
    private final Frame frame;
    private final RawTable table;
    private final TableSpec spec;
    private final Reading reading;
    private final boolean[] listed;

    private Joining(Frame frame, RawTable table, boolean[] listed, Reading reading) {
        this.frame = frame;
        this.table = table;
        spec = table.spec();
        this.listed = listed;
        this.reading = reading;
    }

    /**
     * Joins all tables: run lists first, then those on other labels. Run lists with the same
     * columns are parts of one list.
     *
     * @return whether the frame has the columns to join on
     */
    static boolean joinAll(Frame frame, List<RawTable> tables, Reading reading) {
        final Map<Set<String>, List<RawTable>> lists = new LinkedHashMap<>();
        tables.stream()
                .filter(t -> t.spec().isRunList())
                .forEach(t -> lists.computeIfAbsent(t.columns(), c -> new ArrayList<>()).add(t));
        boolean joined = true;
        for (List<RawTable> parts : lists.values()) {
            final boolean[] listed = new boolean[frame.injections().size()];
            for (RawTable part : parts) {
                joined &= join(frame, part, listed, reading);
            }
            new Joining(frame, parts.get(parts.size() - 1), listed, reading).tellLacking();
        }
        for (RawTable table : tables) {
            if (!table.spec().hasAreas() && !table.spec().isRunList()) {
                joined &= join(frame, table, new boolean[0], reading);
            }
        }
        return joined;
    }

    /**
     * Joins a table; what does not fit becomes a problem, or a flag where the table says so.
     *
     * @return whether the frame has the columns to join on
     */
    private static boolean join(Frame frame, RawTable table, boolean[] listed, Reading reading) {
        final Joining joining = new Joining(frame, table, listed, reading);
        if (!joining.hasKeys()) {
            return false;
        }
        joining.tellRepeats();
        joining.join();
        return true;
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

    private void tellRepeats() {
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
    }

    private List<String[]> keys() {
        return spec.joinsOn().stream().map(k -> table.labels(k).toArray()).toList();
    }

    private void join() {
        final int[] rightOf = new int[frame.size()];
        if (spec.isRunList()) {
            final int k = frame.compounds().size();
            final LabelTables.Match match =
                    LabelTables.match(
                            List.<String[]>of(frame.injections().toArray(String[]::new)), keys());
            tellExtra(match);
            for (int i = 0; i < listed.length; i++) {
                listed[i] |= match.rightOf(i) >= 0;
            }
            Arrays.setAll(rightOf, row -> match.rightOf(row / k));
        } else {
            final Combinations left = Combinations.of(frame, spec.joinsOn());
            final LabelTables.Match match = LabelTables.match(left.columns(), keys());
            tellUnused(match);
            tellLacking(match, left.columns());
            Arrays.setAll(rightOf, row -> match.rightOf(left.of(row)));
        }
        final Set<String> columns = new TreeSet<>(table.columns());
        spec.joinsOn().forEach(columns::remove);
        for (String column : columns) {
            if (column.equals(Columns.STATE)) {
                bringStates(rightOf);
            } else if (table.labels().containsKey(column)) {
                bringLabels(column, rightOf);
            } else {
                bringNumbers(column, rightOf);
            }
        }
    }

    /** Injections of the run list that no table of areas has. */
    private void tellExtra(LabelTables.Match match) {
        final Coded injections = table.labels(Columns.INJECTION);
        final List<String> extra = match.rightOnly().mapToObj(injections::at).toList();
        final int line = match.rightOnly().map(table::line).findFirst().orElse(0);
        unmatched(line, extra, "rows for ", " that no table of areas has");
    }

    /** Injections that neither this run list nor those of the same columns before it have. */
    private void tellLacking() {
        final List<String> lacking =
                IntStream.range(0, listed.length)
                        .filter(i -> !listed[i])
                        .mapToObj(i -> frame.injections().get(i))
                        .toList();
        unmatched(0, lacking, "no row for ", " of the tables of areas");
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
        final Coded from = table.labels(column);
        final Frame.Column into = frame.labels(column);
        final int[] codes = into.codes(from);
        final Map<Integer, Integer> clashes = new LinkedHashMap<>();
        for (int row = 0; row < rightOf.length; row++) {
            final int code = rightOf[row] < 0 ? 0 : codes[from.code(rightOf[row])];
            if (code == 0) {
                continue;
            }
            if (into.code(row) == 0) {
                into.put(row, code);
            } else if (into.code(row) != code) {
                clashes.putIfAbsent(rightOf[row], row);
            }
        }
        tellClash(column, clashes, from::at, into::at);
    }

    /** What a run list says of its rows goes for every peak that a table of areas has. */
    private void bringStates(int[] rightOf) {
        final Coded from = table.labels(Columns.STATE);
        final NumberCells cells = new NumberCells(spec.file(), reading);
        final boolean[] told = new boolean[from.size()];
        for (int row = 0; row < rightOf.length; row++) {
            final String word = rightOf[row] < 0 ? "" : from.at(rightOf[row]);
            if (word.isEmpty()) {
                continue;
            }
            final Optional<State> state = spec.states().state(word);
            if (state.isEmpty() && !told[rightOf[row]]) {
                told[rightOf[row]] = true;
                cells.tell(
                        table.line(rightOf[row]),
                        Columns.STATE,
                        "'" + word + "'",
                        "one of " + String.join(", ", StateWords.names()),
                        spec.states().hint(word));
            }
            if (state.isPresent()
                    && state.get() != State.MEASURED
                    && frame.state(row) != State.ABSENT) {
                frame.state(row, state.get());
            }
        }
        cells.tellRest();
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
        return String.join(" with ", parts);
    }
}
