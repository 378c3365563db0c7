package splitledger.base;

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
        final double size = Math.abs(value);
        final ShortestDecimal shortest = ShortestDecimal.of(size);
        final String digits = Long.toString(shortest.digits());
        final StringBuilder b = new StringBuilder();
        if (value < 0) {
            b.append('-');
        }
        final int point = digits.length() + shortest.exponent();
        if (size >= PLAIN_FROM && size < PLAIN_BELOW) {
            return plain(b, digits, point);
        }
        return scientific(b, digits, point - 1);
    }

    /** Never a whole number: those are written before. */
    private static String plain(StringBuilder b, String digits, int point) {
        if (point > 0) {
            return b.append(digits, 0, point)
                    .append('.')
                    .append(digits, point, digits.length())
                    .toString();
        }
        return b.append("0.").append("0".repeat(-point)).append(digits).toString();
    }

    private static String scientific(StringBuilder b, String digits, int exponent) {
        b.append(digits.charAt(0));
        if (digits.length() > 1) {
            b.append('.').append(digits, 1, digits.length());
        }
        return b.append('e').append(exponent).toString();
    }
}
