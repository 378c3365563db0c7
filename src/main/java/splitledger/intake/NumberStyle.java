package splitledger.intake;

import java.util.Optional;

/**
 * How a table writes numbers: its decimal mark and, if it has one, its thousands mark.
 *
 * @param decimal dot or comma
 * @param thousands dot, comma, space (narrow and no-break ones too), apostrophe, or {@link #NONE}
 * @param dotAsks whether a number such as 1.234 may be a thousand as well, so that it must be asked
 */
record NumberStyle(char decimal, char thousands, boolean dotAsks) {
    /** No thousands mark. */
    static final char NONE = 0;

    /** The style of a table that says nothing else. */
    static final NumberStyle DOT = new NumberStyle('.', NONE, false);

    private static final int SAFE_DIGITS = 18;
    private static final long EXACT = 1L << 53;
    private static final int GROUP = 3;
    private static final double[] POWERS = {
        1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16,
        1e17, 1e18, 1e19, 1e20, 1e21, 1e22
    };

    /** The number of a text; NaN if it is none of this style, or too large for a double. */
    double number(String text) {
        return number(text.toCharArray(), 0, text.length());
    }

    /**
     * The number between two positions: sign, digits (in groups of three where the style has a
     * thousands mark), the decimal mark, digits, an exponent, and nothing else. Digits that a
     * double holds exactly, times an exact power of ten, are rounded once and so correctly; all
     * others go through {@link Double#parseDouble}.
     *
     * @return the number; NaN if it is none of this style, or too large for a double
     */
    double number(char[] text, int from, int to) {
        int at = from;
        final boolean negative = at < to && text[at] == '-';
        if (negative || (at < to && text[at] == '+')) {
            at++;
        }
        long mantissa = 0;
        int digits = 0;
        int scale = 0;
        int group = 0;
        boolean grouped = false;
        boolean fraction = false;
        for (; at < to; at++) {
            final char c = text[at];
            if (c >= '0' && c <= '9') {
                if (digits < SAFE_DIGITS) {
                    mantissa = 10 * mantissa + (c - '0');
                }
                digits++;
                group++;
                scale += fraction ? 1 : 0;
            } else if (c == decimal && !fraction) {
                if (grouped && group != GROUP) {
                    return Double.NaN;
                }
                fraction = true;
            } else if (isThousands(c) && !fraction && fits(group, grouped)) {
                grouped = true;
                group = 0;
            } else {
                break;
            }
        }
        if (digits == 0 || (grouped && !fraction && group != GROUP)) {
            return Double.NaN;
        }
        final int power = at < to ? exponent(text, at, to) : 0;
        if (power == Integer.MIN_VALUE) {
            return Double.NaN;
        }
        final int shift = power - scale;
        if (digits > SAFE_DIGITS || mantissa > EXACT || shift < -22 || shift > 22) {
            return slow(text, from, to);
        }
        final double size = shift < 0 ? mantissa / POWERS[-shift] : mantissa * POWERS[shift];
        return negative ? -size : size;
    }

    private boolean isThousands(char c) {
        if (thousands == NONE) {
            return false;
        }
        return c == thousands
                || (thousands == ' ' && (c == '\u00a0' || c == '\u202f' || c == '\u2009'))
                || (thousands == '\'' && c == '\u2019');
    }

    private static boolean fits(int group, boolean grouped) {
        return grouped ? group == GROUP : group > 0 && group <= GROUP;
    }

    /** The exponent that fills the rest; {@code MIN_VALUE} if the rest is none. */
    private static int exponent(char[] text, int start, int to) {
        int at = start;
        if (text[at] != 'e' && text[at] != 'E') {
            return Integer.MIN_VALUE;
        }
        at++;
        final boolean negative = at < to && text[at] == '-';
        if (negative || (at < to && text[at] == '+')) {
            at++;
        }
        if (at == to) {
            return Integer.MIN_VALUE;
        }
        int value = 0;
        for (; at < to; at++) {
            if (text[at] < '0' || text[at] > '9') {
                return Integer.MIN_VALUE;
            }
            value = Math.min(100_000, 10 * value + (text[at] - '0'));
        }
        return negative ? -value : value;
    }

    private double slow(char[] text, int from, int to) {
        if (to - from > Limits.NUMBER_CHARS) {
            return Double.NaN;
        }
        final StringBuilder plain = new StringBuilder();
        for (int i = from; i < to; i++) {
            if (text[i] == decimal) {
                plain.append('.');
            } else if (!isThousands(text[i])) {
                plain.append(text[i]);
            }
        }
        final double value = Double.parseDouble(plain.toString());
        return Double.isInfinite(value) ? Double.NaN : value;
    }

    /** Whether a text could be read both with its mark as decimal and as thousands mark. */
    static boolean isOpen(String text, char mark) {
        final String[] groups = unsigned(text).split(java.util.regex.Pattern.quote("" + mark), -1);
        return groups.length == 2
                && groups[0].matches("[1-9][0-9]{0,2}")
                && groups[1].matches("[0-9]{3}");
    }

    /** The style in which a text is a number and which no other style shares; empty if none is. */
    static Optional<NumberStyle> shownBy(String text) {
        final String plain = unsigned(text);
        final boolean dot = plain.indexOf('.') >= 0;
        final boolean comma = plain.indexOf(',') >= 0;
        if (!dot && !comma) {
            final char mark = groupMark(plain);
            final NumberStyle style = new NumberStyle('.', mark, false);
            return mark != NONE && isNumber(style, text) ? Optional.of(style) : Optional.empty();
        }
        if (dot && comma) {
            final char last = plain.lastIndexOf('.') > plain.lastIndexOf(',') ? '.' : ',';
            final NumberStyle style = new NumberStyle(last, last == '.' ? ',' : '.', false);
            return isNumber(style, text) ? Optional.of(style) : Optional.empty();
        }
        final char mark = dot ? '.' : ',';
        final NumberStyle asDecimal = new NumberStyle(mark, groupMark(plain), false);
        if (isNumber(asDecimal, text)) {
            return isOpen(text, mark) ? Optional.empty() : Optional.of(asDecimal);
        }
        final NumberStyle asThousands = new NumberStyle(dot ? ',' : '.', mark, false);
        return isNumber(asThousands, text) ? Optional.of(asThousands) : Optional.empty();
    }

    private static boolean isNumber(NumberStyle style, String text) {
        return text.length() <= Limits.NUMBER_CHARS && !Double.isNaN(style.number(text));
    }

    private static char groupMark(String plain) {
        for (int i = 0; i < plain.length(); i++) {
            final char c = plain.charAt(i);
            if (c == ' ' || c == '\u00a0' || c == '\u202f' || c == '\u2009') {
                return ' ';
            }
            if (c == '\'' || c == '\u2019') {
                return '\'';
            }
        }
        return NONE;
    }

    private static String unsigned(String text) {
        final boolean signed = text.startsWith("-") || text.startsWith("+");
        return signed ? text.substring(1) : text;
    }

    /** The marks in words. */
    String words() {
        final String mark = "'" + decimal + "' as decimal mark";
        return switch (thousands) {
            case NONE -> mark;
            case ' ' -> mark + ", spaces between thousands";
            default -> mark + ", " + thousands + " between thousands";
        };
    }
}
