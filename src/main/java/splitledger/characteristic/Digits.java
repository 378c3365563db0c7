package splitledger.characteristic;

import java.math.BigDecimal;
import java.math.MathContext;
import splitledger.base.Numbers;

/** Numbers in sentences. */
public final class Digits {
    private Digits() {}

    /** Two significant digits. */
    public static String two(double value) {
        return of(value, 2);
    }

    /** Three significant digits. */
    public static String three(double value) {
        return of(value, 3);
    }

    /** Four significant digits. */
    public static String four(double value) {
        return of(value, 4);
    }

    private static String of(double value, int digits) {
        return Double.isNaN(value) || Double.isInfinite(value)
                ? Double.toString(value)
                : Numbers.text(new BigDecimal(value).round(new MathContext(digits)).doubleValue());
    }
}
