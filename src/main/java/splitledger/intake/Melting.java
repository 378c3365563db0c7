package splitledger.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
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
        final int size = melted.size();
        final SortedMap<String, String[]> longLabels = new TreeMap<>();
        labels.forEach(
                (name, from) ->
                        longLabels.put(
                                name,
                                IntStream.range(0, size)
                                        .mapToObj(i -> from[melted.row(i)])
                                        .toArray(String[]::new)));
        longLabels.put(
                Columns.COMPOUND,
                IntStream.range(0, size)
                        .mapToObj(i -> compounds.get(melted.column(i)))
                        .toArray(String[]::new));
        final SortedMap<String, double[]> longNumbers = new TreeMap<>();
        numbers.forEach(
                (name, from) ->
                        longNumbers.put(
                                name,
                                IntStream.range(0, size)
                                        .mapToDouble(i -> from[melted.row(i)])
                                        .toArray()));
        longNumbers.put(
                Columns.AREA,
                IntStream.range(0, size)
                        .mapToDouble(i -> areas.get(melted.column(i))[melted.row(i)])
                        .toArray());
        return new RawTable(
                spec,
                IntStream.range(0, size).map(i -> lines[melted.row(i)]).toArray(),
                longLabels,
                longNumbers,
                IntStream.range(0, size)
                        .mapToObj(i -> states.get(melted.column(i)).get(melted.row(i)))
                        .toArray(State[]::new));
    }
}
