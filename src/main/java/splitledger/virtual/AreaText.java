package splitledger.virtual;

import splitledger.base.Numbers;

/**
 * Numbers of few digits as text, quickly: the same text as {@link Numbers#text}. A decimal of at
 * most 15 digits that reads back as the number is the only one of its length, so that the first one
 * found, with the fewest decimals, is the shortest.
 */
final class AreaText {
    private static final double PLAIN_FROM = 1e-5;
    private static final double FIFTEEN_DIGITS = 1e15;
    private static final double[] POWERS = {
        1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12
    };

    private AreaText() {}

    /** Appends a finite number. */
    static void append(StringBuilder text, double value) {
        final double size = Math.abs(value);
        if (size < PLAIN_FROM || size >= FIFTEEN_DIGITS) {
            text.append(Numbers.text(value));
            return;
        }
        for (int decimals = 0; decimals < POWERS.length; decimals++) {
            final double whole = Math.rint(size * POWERS[decimals]);
            if (whole >= FIFTEEN_DIGITS) {
                break;
            }
            if (whole / POWERS[decimals] == size) {
                append(text, value < 0, (long) whole, decimals);
                return;
            }
        }
        text.append(Numbers.text(value));
    }

    private static void append(StringBuilder text, boolean negative, long whole, int decimals) {
        if (negative) {
            text.append('-');
        }
        final long power = (long) POWERS[decimals];
        text.append(whole / power);
        if (decimals > 0) {
            final int point = text.length();
            text.append(power + whole % power);
            text.setCharAt(point, '.');
        }
    }
}
