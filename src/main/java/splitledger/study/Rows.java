package splitledger.study;

import java.util.Arrays;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;

/** An immutable choice of rows of an {@link InjectionTable}, by index, ascending. */
public final class Rows {
    /** No rows. */
    public static final Rows NONE = new Rows(new int[0]);

    private final int[] indexes;

    private Rows(int[] indexes) {
        this.indexes = indexes;
    }

    /** These rows; the array is copied and sorted. */
    public static Rows of(int... indexes) {
        final int[] sorted = indexes.clone();
        Arrays.sort(sorted);
        return new Rows(sorted);
    }

    /** How many. */
    public int size() {
        return indexes.length;
    }

    /** Whether there are none. */
    public boolean isEmpty() {
        return indexes.length == 0;
    }

    /** The i-th row's index in the table. */
    public int at(int i) {
        return indexes[i];
    }

    /** The indexes in order. */
    public IntStream stream() {
        return Arrays.stream(indexes);
    }

    /** Those that pass. */
    public Rows only(IntPredicate wanted) {
        return new Rows(Arrays.stream(indexes).filter(wanted).toArray());
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Rows rows && Arrays.equals(indexes, rows.indexes);
    }

    @Override
    public int hashCode() {
        return Arrays.hashCode(indexes);
    }

    @Override
    public String toString() {
        return "Rows" + Arrays.toString(indexes);
    }
}
