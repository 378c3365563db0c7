package splitledger.intake;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.IntFunction;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;
import splitledger.study.State;

/** Lays a wide table out long. */
final class Melting {
    private Melting() {}

    static RawTable longOf(
            TableSpec spec,
            int[] lines,
            SortedMap<String, String[]> labels,
            SortedMap<String, double[]> numbers,
            Map<String, Growing.Peaks> peaks) {
        final List<String> compounds = List.copyOf(peaks.keySet());
        final List<double[]> areas = new ArrayList<>();
        final List<List<State>> states = new ArrayList<>();
        peaks.values()
                .forEach(
                        p -> {
                            areas.add(p.areas());
                            states.add(p.states());
                        });
        final LabelTables.Melted melted = LabelTables.melt(lines.length, compounds.size());
        final int[] row = IntStream.range(0, melted.size()).map(melted::row).toArray();
        final int[] column = IntStream.range(0, melted.size()).map(melted::column).toArray();
        final SortedMap<String, String[]> longLabels = new TreeMap<>();
        labels.forEach((name, from) -> longLabels.put(name, texts(row.length, i -> from[row[i]])));
        longLabels.put(Columns.COMPOUND, texts(row.length, i -> compounds.get(column[i])));
        final SortedMap<String, double[]> longNumbers = new TreeMap<>();
        numbers.forEach(
                (name, from) -> longNumbers.put(name, numbers(row.length, i -> from[row[i]])));
        longNumbers.put(Columns.AREA, numbers(row.length, i -> areas.get(column[i])[row[i]]));
        return new RawTable(
                spec,
                Arrays.stream(row).map(r -> lines[r]).toArray(),
                longLabels,
                longNumbers,
                IntStream.range(0, row.length)
                        .mapToObj(i -> states.get(column[i]).get(row[i]))
                        .toArray(State[]::new));
    }

    private static String[] texts(int size, IntFunction<String> cell) {
        return IntStream.range(0, size).mapToObj(cell).toArray(String[]::new);
    }

    private static double[] numbers(int size, IntToDoubleFunction cell) {
        return IntStream.range(0, size).mapToDouble(cell).toArray();
    }
}
