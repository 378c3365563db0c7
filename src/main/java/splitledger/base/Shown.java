package splitledger.base;

import java.util.Locale;

/**
 * Text from outside as it may be shown on a terminal or in a log: control characters, line ends and
 * marks that turn the direction of writing are written as escapes, and long texts are cut.
 */
public final class Shown {
    private static final int LONGEST = 1000;

    private Shown() {}

    /** The text, harmless. */
    public static String text(String outside) {
        final StringBuilder b = new StringBuilder();
        outside.codePoints()
                .limit(LONGEST)
                .forEach(
                        c -> {
                            if (acts(c)) {
                                b.append(String.format(Locale.ROOT, "\\u%04x", c));
                            } else {
                                b.appendCodePoint(c);
                            }
                        });
        return outside.codePointCount(0, outside.length()) > LONGEST ? b + "\u2026" : b.toString();
    }

    /**
     * Whether a text holds nothing that acts where it is shown: no control character but line ends
     * and tabs, and nothing that turns the direction of writing.
     */
    public static boolean isHarmless(String outside) {
        return outside.codePoints()
                .allMatch(c -> !acts(c) || c == '\n' || c == '\r' || c == '\t' || isMark(c));
    }

    /** Marks that occur in honest text: of direction, and of byte order. */
    private static boolean isMark(int c) {
        return c == 0x200E || c == 0x200F || c == 0xFEFF;
    }

    private static boolean acts(int c) {
        return Character.isISOControl(c)
                || (c >= 0xD800 && c <= 0xDFFF)
                || (c >= 0x200E && c <= 0x200F)
                || (c >= 0x2028 && c <= 0x202E)
                || (c >= 0x2066 && c <= 0x2069)
                || c == 0xFEFF;
    }
}
