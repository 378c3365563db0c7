package splitledger.intake;

import java.util.List;
import java.util.stream.IntStream;

/** A column of labels as codes into its distinct labels. Arrays are handed over, not copied. */
final class Coded {
    private final int[] codes;
    private final List<String> labels;

    /**
     * A column.
     *
     * @param codes one a row
     * @param labels distinct, in order of their first row; empty text for an empty cell
     */
    Coded(int[] codes, List<String> labels) {
        this.codes = codes;
        this.labels = List.copyOf(labels);
    }

    /** A column that has the same label in every row. */
    static Coded constant(int rows, String label) {
        return new Coded(new int[rows], List.of(label));
    }

    int size() {
        return codes.length;
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

    /** The same with something before every label but the empty one. */
    Coded prefixed(String prefix) {
        return prefix.isEmpty()
                ? this
                : new Coded(codes, labels.stream().map(l -> l.isEmpty() ? l : prefix + l).toList());
    }

    /** Each row so many times. */
    Coded each(int times) {
        final int[] all = new int[codes.length * times];
        for (int i = 0; i < all.length; i++) {
            all[i] = codes[i / times];
        }
        return new Coded(all, labels);
    }

    /** The labels row by row. */
    String[] toArray() {
        return IntStream.of(codes).mapToObj(labels::get).toArray(String[]::new);
    }
}
