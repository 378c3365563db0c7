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
        final int both = Math.min(a.length(), b.length());
        for (int i = 0; i < both; i++) {
            final char left = a.charAt(i);
            final char right = b.charAt(i);
            if (left != right) {
                return Integer.compare(rank(left), rank(right));
            }
        }
        return Integer.compare(a.length(), b.length());
    }

    /** The place of a UTF-16 unit when halves of code points above U+FFFF come last. */
    private static int rank(char unit) {
        return Character.isSurrogate(unit) ? unit + (Character.MAX_VALUE + 1) : unit;
    }
}
