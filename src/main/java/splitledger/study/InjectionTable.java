package splitledger.study;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.IntPredicate;

/**
 * The injections as immutable columns: one row for each injection and compound, ordered by
 * injection (run order where the tables give one, else order of the file), then by compound as the
 * protocol lists them. Wide tables are laid out long on reading. Every row knows its file and line.
 */
public final class InjectionTable {
    /**
     * A column of labels; the empty label stands for an empty cell.
     *
     * @param codes one a row, index into {@code labels}
     * @param labels distinct labels
     */
    public record Labels(Codes codes, List<String> labels) {
        public Labels {
            labels = List.copyOf(labels);
        }

        /** The label of a row. */
        public String at(int row) {
            return labels.get(codes.at(row));
        }
    }

    /** An immutable array of label codes. */
    public static final class Codes {
        private final int[] codes;

        private Codes(int[] codes) {
            this.codes = codes;
        }

        /** These codes; the array is copied. */
        public static Codes of(int... codes) {
            return new Codes(codes.clone());
        }

        /** These codes; the caller gives the array away and changes it no more. */
        public static Codes handedOver(int[] codes) {
            return new Codes(codes);
        }

        /** The code of a row. */
        public int at(int row) {
            return codes[row];
        }

        /** How many rows. */
        public int size() {
            return codes.length;
        }
    }

    private final int size;
    private final SortedMap<String, Labels> labels;
    private final SortedMap<String, Doubles> numbers;
    private final byte[] states;
    private final Codes files;
    private final List<String> fileNames;
    private final Codes lines;

    private InjectionTable(Builder b) {
        size = b.size;
        labels = Collections.unmodifiableSortedMap(new TreeMap<>(b.labels));
        numbers = Collections.unmodifiableSortedMap(new TreeMap<>(b.numbers));
        states = b.states;
        files = b.files;
        fileNames = List.copyOf(b.fileNames);
        lines = b.lines;
    }

    /** Starts a table of so many rows. */
    public static Builder ofSize(int rows) {
        return new Builder(rows);
    }

    /** Number of rows (injection and compound). */
    public int size() {
        return size;
    }

    /** Whether there is a label or number column of this name. */
    public boolean has(String column) {
        return labels.containsKey(column) || numbers.containsKey(column);
    }

    /** Names of all columns, in order of name. */
    public List<String> columns() {
        final List<String> names = new ArrayList<>(labels.keySet());
        names.addAll(numbers.keySet());
        Collections.sort(names);
        return List.copyOf(names);
    }

    /** A row's label; empty if the column is not there or the cell is empty. */
    public String label(String column, int row) {
        final Labels found = labels.get(column);
        return found == null ? "" : found.at(row);
    }

    /** A row's number; NaN if the column is not there or the cell is empty. */
    public double number(String column, int row) {
        final Doubles found = numbers.get(column);
        return found == null ? Double.NaN : found.at(row);
    }

    /** A label column, if it is there. */
    public Optional<Labels> labels(String column) {
        return Optional.ofNullable(labels.get(column));
    }

    /** A number column, if it is there. */
    public Optional<Doubles> numbers(String column) {
        return Optional.ofNullable(numbers.get(column));
    }

    /** The injection of a row. */
    public String injection(int row) {
        return label("injection", row);
    }

    /** The compound of a row. */
    public String compound(int row) {
        return label("compound", row);
    }

    /** The signed area of a row, as the data system gave it; NaN unless a number stood there. */
    public double area(int row) {
        return number("area", row);
    }

    /** Whether two rows have the same label. */
    public boolean sameLabel(String column, int row, int other) {
        final Labels own = labels.get(column);
        return own == null || own.codes().at(row) == own.codes().at(other);
    }

    /** What the row's area cell says. */
    public State state(int row) {
        return State.of(states[row]);
    }

    /** File and line of a row. */
    public Place place(int row) {
        return new Place(fileNames.get(files.at(row)), lines.at(row), "");
    }

    /** The rows that meet every condition. */
    public Rows rows(Where where) {
        final RowTests tests = new RowTests(this);
        IntPredicate all = row -> true;
        for (Where.Condition condition : where.conditions()) {
            all = all.and(tests.of(condition));
        }
        return all().only(all);
    }

    /** All rows. */
    public Rows all() {
        final int[] indexes = new int[size];
        for (int i = 0; i < size; i++) {
            indexes[i] = i;
        }
        return Rows.of(indexes);
    }

    /** The same table with a number column replaced, or added. */
    public InjectionTable withNumbers(String name, Doubles column) {
        final Builder builder = new Builder(size);
        builder.labels.putAll(labels);
        builder.numbers.putAll(numbers);
        return builder.numbers(name, column).states(states).places(fileNames, files, lines).build();
    }

    /** Collects the columns of one table. */
    public static final class Builder {
        private final int size;
        private final SortedMap<String, Labels> labels = new TreeMap<>();
        private final SortedMap<String, Doubles> numbers = new TreeMap<>();
        private byte[] states = new byte[0];
        private Codes files = Codes.of();
        private List<String> fileNames = List.of();
        private Codes lines = Codes.of();

        private Builder(int size) {
            this.size = size;
        }

        /** Adds a label column. */
        public Builder labels(String name, Labels column) {
            same(name, column.codes().size());
            labels.put(name, column);
            return this;
        }

        /** Adds a number column; NaN marks an empty cell. */
        public Builder numbers(String name, Doubles column) {
            same(name, column.size());
            numbers.put(name, column);
            return this;
        }

        /** Sets the state of every row's area cell. */
        public Builder states(List<State> column) {
            final byte[] indexes = new byte[column.size()];
            for (int row = 0; row < indexes.length; row++) {
                indexes[row] = column.get(row).index();
            }
            return states(indexes);
        }

        /**
         * Sets the state of every row's area cell, by {@link State#index()}; the caller gives the
         * array away.
         */
        public Builder states(byte[] column) {
            same("states", column.length);
            states = column;
            return this;
        }

        /** Sets file (index into the names) and line of every row. */
        public Builder places(List<String> names, Codes fileOfRow, Codes lineOfRow) {
            same("files", fileOfRow.size());
            same("lines", lineOfRow.size());
            fileNames = names;
            files = fileOfRow;
            lines = lineOfRow;
            return this;
        }

        /**
         * The table.
         *
         * @throws IllegalStateException if injection, compound, area, states or places are missing
         */
        public InjectionTable build() {
            final boolean whole =
                    labels.containsKey("injection")
                            && labels.containsKey("compound")
                            && numbers.containsKey("area")
                            && states.length == size
                            && lines.size() == size;
            if (!whole) {
                throw new IllegalStateException(
                        "injection, compound, area, states or places are missing");
            }
            return new InjectionTable(this);
        }

        private void same(String name, int length) {
            Objects.requireNonNull(name, "name");
            if (length != size) {
                throw new IllegalArgumentException(
                        name + " has " + length + " rows, the table " + size);
            }
        }
    }
}
