package splitledger.intake;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import splitledger.study.Doubles;
import splitledger.study.InjectionTable;
import splitledger.study.State;

/**
 * The whole grid of injections and compounds while tables are being joined to it: row i belongs to
 * injection i / K and compound i % K, K being the number of compounds.
 */
final class Frame {
    private final List<String> injections;
    private final List<String> compounds;
    private final SortedMap<String, Column> labels = new TreeMap<>();
    private final SortedMap<String, double[]> numbers = new TreeMap<>();
    private final byte[] states;
    private final List<String> fileNames;
    private final int[] files;
    private final int[] lines;

    /** A label column that is being filled; code 0 is the empty label. */
    static final class Column {
        private final int[] codes;
        private final List<String> labels = new ArrayList<>(List.of(""));
        private final Map<String, Integer> known = new HashMap<>();

        private Column(int size) {
            this(new int[size]);
        }

        private Column(int[] codes) {
            this.codes = codes;
        }

        /** The code of a label. */
        int code(String label) {
            for (int code = known.size(); code < labels.size(); code++) {
                known.put(labels.get(code), code);
            }
            final Integer before = known.putIfAbsent(label, labels.size());
            if (before == null) {
                labels.add(label);
                return labels.size() - 1;
            }
            return before;
        }

        /** The codes of the labels of another column, by its own codes. */
        int[] codes(Coded other) {
            return codes(other.labels());
        }

        /** The codes of different labels. */
        int[] codes(List<String> different) {
            if (labels.size() > 1) {
                return different.stream().mapToInt(this::code).toArray();
            }
            final int[] of = new int[different.size()];
            for (int i = 0; i < of.length; i++) {
                if (!different.get(i).isEmpty()) {
                    of[i] = labels.size();
                    labels.add(different.get(i));
                }
            }
            return of;
        }

        private Column with(int[] others) {
            final Column column = new Column(others);
            column.labels.clear();
            column.labels.addAll(labels);
            return column;
        }

        void put(int row, int code) {
            codes[row] = code;
        }

        int code(int row) {
            return codes[row];
        }

        /** How many different labels, the empty one too. */
        int distinct() {
            return labels.size();
        }

        String label(int code) {
            return labels.get(code);
        }

        String at(int row) {
            return labels.get(codes[row]);
        }
    }

    /** A frame without columns; every area is absent, every place unknown. */
    Frame(List<String> injections, List<String> compounds, List<String> fileNames) {
        this.injections = List.copyOf(injections);
        this.compounds = List.copyOf(compounds);
        this.fileNames = List.copyOf(fileNames);
        final int k = compounds.size();
        if ((long) injections.size() * k > Limits.GRID) {
            throw new RowCells.TooLargeException();
        }
        final int size = injections.size() * k;
        states = new byte[size];
        Arrays.fill(states, State.ABSENT.index());
        files = new int[size];
        lines = new int[size];
        final Column injection = labels(Columns.INJECTION);
        final Column compound = labels(Columns.COMPOUND);
        final int[] ofInjection = injection.codes(this.injections);
        final int[] ofCompound = compound.codes(this.compounds);
        for (int i = 0; i < size; i++) {
            injection.put(i, ofInjection[i / k]);
            compound.put(i, ofCompound[i % k]);
        }
        numbers.put(Columns.AREA, filled(size));
    }

    int size() {
        return states.length;
    }

    List<String> injections() {
        return injections;
    }

    List<String> compounds() {
        return compounds;
    }

    boolean has(String column) {
        return labels.containsKey(column) || numbers.containsKey(column);
    }

    SortedSet<String> columns() {
        final SortedSet<String> names = new TreeSet<>(labels.keySet());
        names.addAll(numbers.keySet());
        return names;
    }

    /** A label column, made empty if it is not there yet. */
    Column labels(String name) {
        return labels.computeIfAbsent(name, n -> new Column(size()));
    }

    /** A number column, made empty if it is not there yet. */
    double[] numbers(String name) {
        return numbers.computeIfAbsent(name, n -> filled(size()));
    }

    /** Makes the cells of a table, which has a row for each of this frame, a column of it. */
    void adopt(String name, Coded column) {
        final Column own = new Column(new int[0]);
        final int[] codes = own.codes(column);
        labels.put(name, own.with(column.taken(codes)));
    }

    /** The same with numbers. */
    void adopt(String name, double[] column) {
        numbers.put(name, column);
    }

    void state(int row, State state) {
        states[row] = state.index();
    }

    State state(int row) {
        return State.of(states[row]);
    }

    void place(int row, int file, int line) {
        files[row] = file;
        lines[row] = line;
    }

    /** Gives every injection a preparation of its own. */
    void eachInjectionPrepared() {
        final Column from = labels(Columns.INJECTION);
        final Column into = labels(Columns.PREPARATION);
        for (int i = 0; i < size(); i++) {
            into.put(i, into.code(from.at(i)));
        }
    }

    /**
     * The table of the rows that pass, injections in run order where the column {@code order} tells
     * it (those without a number at the end), else as they stand. The frame is of no use
     * afterwards: where all rows stay as they are, its arrays become those of the table.
     *
     * @param kept the rows that pass; empty if all do
     */
    InjectionTable table(Optional<IntPredicate> kept) {
        final boolean asTheyAre = kept.isEmpty() && !numbers.containsKey(Columns.ORDER);
        final int[] rows =
                asTheyAre ? new int[0] : inRunOrder().filter(kept.orElse(row -> true)).toArray();
        final InjectionTable.Builder builder =
                InjectionTable.ofSize(asTheyAre ? size() : rows.length);
        if (asTheyAre) {
            labels.forEach((name, column) -> builder.labels(name, encoded(column, column.codes)));
            numbers.forEach((name, column) -> builder.numbers(name, Doubles.handedOver(column)));
            return builder.states(states)
                    .places(
                            fileNames,
                            InjectionTable.Codes.handedOver(files),
                            InjectionTable.Codes.handedOver(lines))
                    .build();
        }
        labels.forEach(
                (name, column) ->
                        builder.labels(name, encoded(column, picked(column.codes, rows))));
        numbers.forEach((name, column) -> builder.numbers(name, picked(column, rows)));
        final byte[] said = new byte[rows.length];
        for (int i = 0; i < rows.length; i++) {
            said[i] = states[rows[i]];
        }
        return builder.states(said)
                .places(
                        fileNames,
                        InjectionTable.Codes.handedOver(picked(files, rows)),
                        InjectionTable.Codes.handedOver(picked(lines, rows)))
                .build();
    }

    private static Doubles picked(double[] column, int[] rows) {
        final double[] values = new double[rows.length];
        for (int i = 0; i < rows.length; i++) {
            values[i] = column[rows[i]];
        }
        return Doubles.handedOver(values);
    }

    private static int[] picked(int[] column, int[] rows) {
        final int[] values = new int[rows.length];
        for (int i = 0; i < rows.length; i++) {
            values[i] = column[rows[i]];
        }
        return values;
    }

    private IntStream inRunOrder() {
        final double[] order = numbers.get(Columns.ORDER);
        final int k = compounds.size();
        if (order == null || k == 0) {
            return IntStream.range(0, size());
        }
        final List<Integer> sorted = new ArrayList<>();
        IntStream.range(0, injections.size()).forEach(sorted::add);
        sorted.sort((a, b) -> Double.compare(order[a * k], order[b * k]));
        return sorted.stream().flatMapToInt(i -> IntStream.range(i * k, i * k + k));
    }

    /** Codes changed to the order in which the labels occur. */
    private static InjectionTable.Labels encoded(Column column, int[] codes) {
        final int[] again = new int[column.distinct()];
        Arrays.fill(again, -1);
        final List<String> met = new ArrayList<>();
        for (int i = 0; i < codes.length; i++) {
            final int code = codes[i];
            if (again[code] < 0) {
                again[code] = met.size();
                met.add(column.label(code));
            }
            codes[i] = again[code];
        }
        return new InjectionTable.Labels(InjectionTable.Codes.handedOver(codes), met);
    }

    private static double[] filled(int size) {
        final double[] empty = new double[size];
        Arrays.fill(empty, Double.NaN);
        return empty;
    }
}
