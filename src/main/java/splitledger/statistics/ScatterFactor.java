package splitledger.statistics;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * A factor that rows are labelled with (day, analyst, preparation, ...): a whole number a row, from
 * 0 on, in the order in which the labels first occur. Immutable.
 */
public final class ScatterFactor {
    private final String name;
    private final int[] codes;
    private final int levels;

    private ScatterFactor(String name, int[] codes, int levels) {
        this.name = name;
        this.codes = codes;
        this.levels = levels;
    }

    /**
     * A factor from labels.
     *
     * @param name for example {@code day}
     * @param labels one a row, at least one
     */
    public static ScatterFactor of(String name, List<String> labels) {
        final Map<String, Integer> seen = new LinkedHashMap<>();
        final int[] codes = new int[labels.size()];
        for (int i = 0; i < codes.length; i++) {
            final int next = seen.size();
            codes[i] = seen.computeIfAbsent(labels.get(i), l -> next);
        }
        return new ScatterFactor(name, codes, seen.size());
    }

    /**
     * A factor from whole numbers; any will do, equal numbers are equal labels.
     *
     * @param name for example {@code day}
     * @param labels one a row, at least one; not modified
     */
    public static ScatterFactor of(String name, int... labels) {
        return of(name, Arrays.stream(labels).mapToObj(Integer::toString).toList());
    }

    /** Every combination of labels that occurs is one label of the new factor. */
    ScatterFactor with(ScatterFactor other, String newName) {
        Checks.sameLength("rows of " + other.name, codes.length, other.codes.length);
        final Map<Long, Integer> seen = new LinkedHashMap<>();
        final int[] both = new int[codes.length];
        for (int i = 0; i < both.length; i++) {
            final int next = seen.size();
            both[i] = seen.computeIfAbsent((long) codes[i] << 32 | other.codes[i], l -> next);
        }
        return new ScatterFactor(newName, both, seen.size());
    }

    /** The same labels under another name. */
    ScatterFactor named(String newName) {
        return new ScatterFactor(newName, codes, levels);
    }

    /** Whether each of these labels occurs under one label of the other factor only. */
    public boolean isNestedIn(ScatterFactor other) {
        return with(other, name).levels == levels;
    }

    /** Whether both divide the rows in the same way. */
    public boolean dividesLike(ScatterFactor other) {
        return levels == other.levels && isNestedIn(other);
    }

    /** Name. */
    public String name() {
        return name;
    }

    /** How many labels. */
    public int levels() {
        return levels;
    }

    /** How many rows. */
    public int rows() {
        return codes.length;
    }

    /** Label of a row, from 0 to {@code levels() - 1}. */
    public int code(int row) {
        return codes[row];
    }

    @Override
    public String toString() {
        return name + " (" + levels + ")";
    }
}
