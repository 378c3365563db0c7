package splitledger.base;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;

/**
 * The one writer of numbers for CSV and JSON: the fewest decimal digits that read back as the same
 * double, and among those the nearest. ({@code Double.toString} of Java 17 is not always shortest
 * and differs from later versions.)
 */
public final class Numbers {
    private static final double PLAIN_FROM = 1e-5;
    private static final double PLAIN_BELOW = 1e15;

    private Numbers() {}

    /**
     * Shortest round-trip text: {@code 5e-324}, {@code 0.1}, {@code 12}, {@code 1.5e-7}; no {@code
     * ".0"}, {@code -0} as {@code 0}, positive infinity as {@code inf}.
     *
     * @throws IllegalArgumentException for NaN and negative infinity, which no output may hold
     */
    public static String text(double value) {
        if (value == Double.POSITIVE_INFINITY) {
            return "inf";
        }
        if (Double.isNaN(value) || Double.isInfinite(value)) {
            throw new IllegalArgumentException(
                    "value = " + value + ", must be a number or positive infinity");
        }
        if (value == Math.rint(value) && Math.abs(value) < PLAIN_BELOW) {
            return Long.toString((long) value);
        }
        final BigDecimal shortest = shortest(value).stripTrailingZeros();
        final double size = Math.abs(value);
        if (size >= PLAIN_FROM && size < PLAIN_BELOW) {
            return shortest.toPlainString();
        }
        return scientific(shortest);
    }

    private static BigDecimal shortest(double value) {
        final BigDecimal exact = new BigDecimal(value);
        int digits = new BigDecimal(Double.toString(value)).stripTrailingZeros().precision();
        BigDecimal best = atPrecision(exact, value, digits);
        while (digits > 1) {
            digits--;
            final BigDecimal shorter = atPrecision(exact, value, digits);
            if (shorter.doubleValue() != value) {
                break;
            }
            best = shorter;
        }
        return best;
    }

    /**
     * The nearest decimal of so many digits; where that does not read back, the neighbour on the
     * other side.
     */
    private static BigDecimal atPrecision(BigDecimal exact, double value, int digits) {
        final BigDecimal nearest = exact.round(new MathContext(digits, RoundingMode.HALF_EVEN));
        if (nearest.doubleValue() == value) {
            return nearest;
        }
        final RoundingMode other =
                nearest.compareTo(exact) > 0 ? RoundingMode.FLOOR : RoundingMode.CEILING;
        return exact.round(new MathContext(digits, other));
    }

    private static String scientific(BigDecimal shortest) {
        final String digits = shortest.unscaledValue().abs().toString();
        final int exponent = shortest.precision() - shortest.scale() - 1;
        final StringBuilder b = new StringBuilder();
        if (shortest.signum() < 0) {
            b.append('-');
        }
        b.append(digits.charAt(0));
        if (digits.length() > 1) {
            b.append('.').append(digits, 1, digits.length());
        }
        return b.append('e').append(exponent).toString();
    }
}
