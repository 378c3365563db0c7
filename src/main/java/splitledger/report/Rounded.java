package splitledger.report;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import splitledger.base.Numbers;

/**
 * The one place where numbers are rounded, for pages only: the uncertainty to two significant
 * digits, the value to the same place (JCGM 100:2008, 7.2.6), halves to the even digit. Very large
 * and very small pairs share a power of ten.
 *
 * @param value digits of the value, minus as {@code −}
 * @param uncertainty digits of the uncertainty; empty if there is none to state
 * @param power the power of ten that both are to be multiplied by; 0 for none
 */
record Rounded(String value, String uncertainty, int power) {
    private static final int DIGITS = 2;
    private static final int DIGITS_ALONE = 4;
    private static final int DIGITS_EXACT = 6;
    private static final int MOST_DIGITS_BEFORE = 7;
    private static final int SMALLEST_EXPONENT = -4;
    private static final String SUPERSCRIPTS = "⁰¹²³⁴⁵⁶⁷⁸⁹";

    /**
     * A value with its (standard or expanded) uncertainty in the same unit.
     *
     * @param uncertainty {@code >= 0}; of 0 the value keeps six significant digits at most
     * @throws IllegalArgumentException if either is not finite or the uncertainty is negative
     */
    static Rounded of(double value, double uncertainty) {
        if (!(uncertainty >= 0)) {
            throw new IllegalArgumentException(
                    "uncertainty = " + uncertainty + ", must be 0 or more");
        }
        final BigDecimal v = exact(value);
        if (uncertainty == 0) {
            final Rounded alone = alone(value, DIGITS_EXACT);
            return new Rounded(alone.value(), "0", alone.power());
        }
        final BigDecimal u = significant(exact(uncertainty), DIGITS);
        return scaled(v, u, u.scale());
    }

    /** A number at the place to which {@code like} was rounded, to stand in line with it. */
    static Rounded at(double number, double likeUncertainty) {
        if (!(likeUncertainty > 0)) {
            return of(number, 0);
        }
        final Rounded pair = of(number, likeUncertainty);
        return new Rounded(pair.value(), "", pair.power());
    }

    /** A number without uncertainty, to four significant digits at most. */
    static Rounded alone(double number) {
        return alone(number, DIGITS_ALONE);
    }

    /** A number without uncertainty, to so many significant digits at most. */
    static Rounded alone(double number, int digits) {
        final BigDecimal exact = exact(number);
        final BigDecimal v = exact.precision() > digits ? significant(exact, digits) : exact;
        final Rounded pair = scaled(v, BigDecimal.ZERO, Math.max(v.scale(), 0));
        return new Rounded(pair.value(), "", pair.power());
    }

    /** The value with its power of ten. */
    String valueText() {
        return value + powerText();
    }

    /** The uncertainty with its power of ten. */
    String uncertaintyText() {
        return uncertainty.isEmpty() || "0".equals(uncertainty)
                ? uncertainty
                : uncertainty + powerText();
    }

    /** The power as {@code × 10ⁿ}; empty for none. */
    String powerText() {
        if (power == 0) {
            return "";
        }
        final StringBuilder b = new StringBuilder(" × 10");
        for (char c : Integer.toString(power).toCharArray()) {
            b.append(c == '-' ? '⁻' : SUPERSCRIPTS.charAt(c - '0'));
        }
        return b.toString();
    }

    private static Rounded scaled(BigDecimal v, BigDecimal u, int scale) {
        final BigDecimal larger = v.abs().max(u.abs());
        final int exponent = larger.signum() == 0 ? 0 : larger.precision() - larger.scale() - 1;
        final boolean plain = exponent < MOST_DIGITS_BEFORE && exponent >= SMALLEST_EXPONENT;
        final int power = plain ? 0 : exponent;
        final int places = scale + power;
        return new Rounded(
                text(v.movePointLeft(power), places),
                u.signum() == 0 ? "0" : text(u.movePointLeft(power), places),
                power);
    }

    private static String text(BigDecimal number, int places) {
        final BigDecimal rounded = number.setScale(places, RoundingMode.HALF_EVEN);
        final BigDecimal shown = places < 0 ? rounded.setScale(0) : rounded;
        return shown.toPlainString().replace('-', '−');
    }

    /** To so many significant digits, keeping a digit that carrying adds (0.0996 to 0.10). */
    private static BigDecimal significant(BigDecimal number, int digits) {
        final BigDecimal rounded = number.round(new MathContext(digits, RoundingMode.HALF_EVEN));
        final int missing = digits - rounded.precision();
        return missing > 0 ? rounded.setScale(rounded.scale() + missing) : rounded;
    }

    /** The number as its shortest text reads, so that 0.125 is a half and not a little less. */
    private static BigDecimal exact(double number) {
        if (Double.isInfinite(number)) {
            throw new IllegalArgumentException("number = " + number + ", must be finite");
        }
        return new BigDecimal(Numbers.text(number));
    }
}
