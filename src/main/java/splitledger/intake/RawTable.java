package splitledger.intake;

import java.util.Collections;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import splitledger.study.State;

/**
 * The wanted columns of one file, long: a table of areas has a row for each injection and compound
 * (compound empty for a peak that is not in the study), a table that joins has its own rows. Arrays
 * are handed over, not copied.
 */
final class RawTable {
    private final TableSpec spec;
    private final int[] lines;
    private final int rows;
    private final SortedMap<String, Coded> labels;
    private final SortedMap<String, double[]> numbers;
    private final byte[] states;

    /**
     * A table.
     *
     * @param lines line of each row; behind them this and all other arrays may go on
     * @param rows how many rows
     * @param labels label columns by name; empty text for an empty cell
     * @param numbers number columns by name; NaN for an empty cell
     * @param states of the areas, as numbers; empty for a table without
     */
    RawTable(
            TableSpec spec,
            int[] lines,
            int rows,
            SortedMap<String, Coded> labels,
            SortedMap<String, double[]> numbers,
            byte[] states) {
        this.spec = spec;
        this.lines = lines;
        this.rows = rows;
        this.labels = Collections.unmodifiableSortedMap(new TreeMap<>(labels));
        this.numbers = Collections.unmodifiableSortedMap(new TreeMap<>(numbers));
        this.states = states;
    }

    TableSpec spec() {
        return spec;
    }

    int rows() {
        return rows;
    }

    int line(int row) {
        return lines[row];
    }

    State state(int row) {
        return State.of(states[row]);
    }

    SortedMap<String, Coded> labels() {
        return labels;
    }

    SortedMap<String, double[]> numbers() {
        return numbers;
    }

    /** A label column that must be there. */
    Coded labels(String name) {
        final Coded column = labels.get(name);
        if (column == null) {
            throw new IllegalStateException("no label column " + name);
        }
        return column;
    }

    /** Names of all columns. */
    SortedSet<String> columns() {
        final SortedSet<String> names = new TreeSet<>(labels.keySet());
        names.addAll(numbers.keySet());
        return names;
    }
}
