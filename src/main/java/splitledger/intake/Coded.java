package splitledger.intake;

import java.util.List;
import java.util.stream.IntStream;

/** A column of labels as codes into its distinct labels. Arrays are handed over, not copied. */
final class Coded {
    private final int[] codes;
    private final int size;
    private final List<String> labels;

    /**
     * A column.
     *
     * @param codes one a row; behind them the array may go on
     * @param size how many rows
     * @param labels distinct, in order of their first row; empty text for an empty cell
     */
    Coded(int[] codes, int size, List<String> labels) {
        this.codes = codes;
        this.size = size;
        this.labels = List.copyOf(labels);
    }

    /** A column that has the same label in every row. */
    static Coded constant(int rows, String label) {
        return new Coded(new int[rows], rows, List.of(label));
    }

    int size() {
        return size;
    }

    int code(int row) {
        return codes[row];
    }

    String at(int row) {
        return labels.get(codes[row]);
    }

    List<String> labels() {
        return labels;
    }

    /**
     * The codes themselves, each replaced; this column is of no use afterwards.
     *
     * @param replacement new code by old code
     */
    int[] taken(int[] replacement) {
        for (int row = 0; row < size; row++) {
            codes[row] = replacement[codes[row]];
        }
        return codes;
    }

    /** The same with something before every label but the empty one. */
    Coded prefixed(String prefix) {
        return prefix.isEmpty()
                ? this
                : new Coded(
                        codes,
                        size,
                        labels.stream().map(l -> l.isEmpty() ? l : prefix + l).toList());
    }

    /** Each row so many times. */
    Coded each(int times) {
        final int[] all = new int[size * times];
        for (int i = 0; i < all.length; i++) {
            all[i] = codes[i / times];
        }
        return new Coded(all, all.length, labels);
    }

    /** The labels row by row. */
    String[] toArray() {
        return IntStream.range(0, size).mapToObj(this::at).toArray(String[]::new);
    }
}
