package splitledger.base;

import java.util.Comparator;

/**
 * Order of text by Unicode code point ({@code String.compareTo} compares UTF-16 units and differs
 * above U+FFFF).
 */
public final class CodePoints {
    /** Code point order; the empty text comes first. */
    public static final Comparator<String> ORDER = CodePoints::compare;

    private CodePoints() {}

    private static int compare(String a, String b) {
        final int[] left = a.codePoints().toArray();
        final int[] right = b.codePoints().toArray();
        for (int i = 0; i < Math.min(left.length, right.length); i++) {
            if (left[i] != right[i]) {
                return Integer.compare(left[i], right[i]);
            }
        }
        return Integer.compare(left.length, right.length);
    }
}
