package splitledger.history;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Locale;

/** Numbers for reading. */
final class Shortly {
    private static final MathContext DIGITS = new MathContext(4);
    private static final int MOST_ZEROS = 8;

    private Shortly() {}

    /** Four significant digits at most; a dash for none. */
    static String number(double value) {
        if (Double.isNaN(value)) {
            return "–";
        }
        if (Double.isInfinite(value)) {
            return value > 0 ? "∞" : "−∞";
        }
        final BigDecimal rounded = new BigDecimal(value).round(DIGITS);
        if (rounded.signum() == 0) {
            return "0";
        }
        final BigDecimal shortest = rounded.stripTrailingZeros();
        final String text =
                Math.abs(shortest.scale()) > MOST_ZEROS
                        ? shortest.toString().toLowerCase(Locale.ROOT)
                        : shortest.toPlainString();
        return text.replaceFirst("^-", "−");
    }

    /** A number with its unit. */
    static String number(double value, String unit) {
        return unit.equals("1") || unit.isEmpty() ? number(value) : number(value) + " " + unit;
    }
}
