package splitledger.intake;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** The different combinations of labels that some columns of a frame have together. */
final class Combinations {
    private final int[] of;
    private final List<String[]> columns;

    private Combinations(int[] of, List<String[]> columns) {
        this.of = of;
        this.columns = columns;
    }

    /** Finds them, in order of their first row. */
    static Combinations of(Frame frame, List<String> names) {
        final int[] of = new int[frame.size()];
        for (String name : names) {
            final Frame.Column column = frame.labels(name);
            final Map<Long, Integer> codes = new HashMap<>();
            for (int row = 0; row < of.length; row++) {
                final long pair = ((long) of[row] << Integer.SIZE) | column.code(row);
                final Integer before = codes.putIfAbsent(pair, codes.size());
                of[row] = before == null ? codes.size() - 1 : before;
            }
        }
        final List<Integer> first = new ArrayList<>();
        for (int row = 0; row < of.length; row++) {
            if (of[row] == first.size()) {
                first.add(row);
            }
        }
        final List<String[]> columns = new ArrayList<>();
        for (String name : names) {
            final Frame.Column column = frame.labels(name);
            columns.add(first.stream().map(column::at).toArray(String[]::new));
        }
        return new Combinations(of, columns);
    }

    /** The combination of a row. */
    int of(int row) {
        return of[row];
    }

    /** The labels of each combination, column by column. */
    List<String[]> columns() {
        return columns;
    }
}
