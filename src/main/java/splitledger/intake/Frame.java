package splitledger.intake;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
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
    private final SortedMap<String, String[]> labels = new TreeMap<>();
    private final SortedMap<String, double[]> numbers = new TreeMap<>();
    private final State[] states;
    private final List<String> fileNames;
    private final int[] files;
    private final int[] lines;

    /** A frame without columns; every area is absent, every place unknown. */
    Frame(List<String> injections, List<String> compounds, List<String> fileNames) {
        this.injections = List.copyOf(injections);
        this.compounds = List.copyOf(compounds);
        this.fileNames = List.copyOf(fileNames);
        final int size = injections.size() * compounds.size();
        states = new State[size];
        Arrays.fill(states, State.ABSENT);
        files = new int[size];
        lines = new int[size];
        final int k = compounds.size();
        labels.put(
                Columns.INJECTION,
                IntStream.range(0, size)
                        .mapToObj(i -> this.injections.get(i / k))
                        .toArray(String[]::new));
        labels.put(
                Columns.COMPOUND,
                IntStream.range(0, size)
                        .mapToObj(i -> this.compounds.get(i % k))
                        .toArray(String[]::new));
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

    /** The name of the file of a row. */
    String file(int row) {
        return fileNames.get(files[row]);
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
    String[] labels(String name) {
        return labels.computeIfAbsent(
                name,
                n -> {
                    final String[] empty = new String[size()];
                    Arrays.fill(empty, "");
                    return empty;
                });
    }

    /** A number column, made empty if it is not there yet. */
    double[] numbers(String name) {
        return numbers.computeIfAbsent(name, n -> filled(size()));
    }

    void state(int row, State state) {
        states[row] = state;
    }

    void place(int row, int file, int line) {
        files[row] = file;
        lines[row] = line;
    }

    /**
     * The table of the rows that pass, injections in run order where the column {@code order} tells
     * it (those without a number at the end), else as they stand.
     */
    InjectionTable table(IntPredicate kept) {
        final int[] rows = inRunOrder().filter(kept).toArray();
        final InjectionTable.Builder builder = InjectionTable.ofSize(rows.length);
        labels.forEach((name, column) -> builder.labels(name, encoded(column, rows)));
        numbers.forEach(
                (name, column) ->
                        builder.numbers(
                                name,
                                Doubles.of(
                                        Arrays.stream(rows)
                                                .mapToDouble(r -> column[r])
                                                .toArray())));
        return builder.states(Arrays.stream(rows).mapToObj(r -> states[r]).toList())
                .places(
                        fileNames,
                        InjectionTable.Codes.of(Arrays.stream(rows).map(r -> files[r]).toArray()),
                        InjectionTable.Codes.of(Arrays.stream(rows).map(r -> lines[r]).toArray()))
                .build();
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

    private static InjectionTable.Labels encoded(String[] column, int[] rows) {
        final Map<String, Integer> codes = new LinkedHashMap<>();
        final int[] coded = new int[rows.length];
        for (int i = 0; i < rows.length; i++) {
            final String label = column[rows[i]];
            final Integer before = codes.putIfAbsent(label, codes.size());
            coded[i] = before == null ? codes.size() - 1 : before;
        }
        return new InjectionTable.Labels(
                InjectionTable.Codes.of(coded), List.copyOf(codes.keySet()));
    }

    private static double[] filled(int size) {
        final double[] empty = new double[size];
        Arrays.fill(empty, Double.NaN);
        return empty;
    }
}
