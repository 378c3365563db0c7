package splitledger.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;

/** Lays a wide table out long: row by row, its compounds in the order of their columns. */
final class Melting {
    private Melting() {}

    static RawTable longOf(
            TableSpec spec,
            int[] lines,
            int rows,
            SortedMap<String, Coded> labels,
            SortedMap<String, double[]> numbers,
            Map<String, Growing.Peaks> peaks) {
        final List<String> compounds = List.copyOf(peaks.keySet());
        final int k = compounds.size();
        if ((long) rows * k > Limits.GRID) {
            throw new RowCells.TooLargeException();
        }
        final int size = rows * k;
        final SortedMap<String, Coded> longLabels = new TreeMap<>();
        labels.forEach((name, from) -> longLabels.put(name, from.each(k)));
        final int[] compound = new int[size];
        final int[] longLines = new int[size];
        for (int i = 0; i < size; i++) {
            compound[i] = i % k;
            longLines[i] = lines[i / k];
        }
        longLabels.put(Columns.COMPOUND, new Coded(compound, size, compounds));
        final SortedMap<String, double[]> longNumbers = new TreeMap<>();
        numbers.forEach((name, from) -> longNumbers.put(name, each(from, rows, k)));
        final double[] areas = new double[size];
        final byte[] states = new byte[size];
        final List<Growing.Peaks> columns = new ArrayList<>(peaks.values());
        for (int c = 0; c < k; c++) {
            final double[] own = columns.get(c).taken();
            final byte[] said = columns.get(c).states();
            for (int r = 0; r < rows; r++) {
                areas[r * k + c] = own[r];
                states[r * k + c] = said[r];
            }
        }
        longNumbers.put(Columns.AREA, areas);
        return new RawTable(spec, longLines, size, longLabels, longNumbers, states);
    }

    private static double[] each(double[] from, int rows, int times) {
        final double[] all = new double[rows * times];
        for (int i = 0; i < all.length; i++) {
            all[i] = from[i / times];
        }
        return all;
    }
}
