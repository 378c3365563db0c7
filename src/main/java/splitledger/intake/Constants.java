package splitledger.intake;

import java.util.Arrays;
import java.util.Map;
import java.util.SortedMap;

/** Columns that the protocol gives to all rows of a file ({@code set: {day: 2}}). */
final class Constants {
    private final TableSpec spec;
    private final Wanted wanted;
    private final NumberCells cells;

    Constants(TableSpec spec, Wanted wanted, NumberCells cells) {
        this.spec = spec;
        this.wanted = wanted;
        this.cells = cells;
    }

    /** Adds them to the columns of a file. */
    void fill(int rows, SortedMap<String, Coded> labels, SortedMap<String, double[]> numbers) {
        for (Map.Entry<String, TableSpec.Heading> e : spec.export().set().entrySet()) {
            final String name = e.getKey();
            final String text = e.getValue().text();
            if (!wanted.numbers().contains(name)) {
                labels.put(name, Coded.constant(rows, text));
                continue;
            }
            final double value = Cells.number(text);
            if (Double.isNaN(value)) {
                cells.tell(0, name, "'" + text + "'", "a number", Cells.hint(text));
            }
            final double[] column = new double[rows];
            Arrays.fill(column, value);
            numbers.put(name, column);
        }
    }
}
