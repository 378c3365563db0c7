package splitledger.base;

import java.math.BigInteger;

/**
 * The decimal of fewest digits that reads back as a double, and among those the nearest (of two as
 * near the even one). Integer arithmetic alone: the three ends of the interval that reads back are
 * compared as multiples of a power of ten, with 126 bits of that power. Source: R. Giulietti, The
 * Schubfach way to render doubles (2020), from memory; every step is compared with exact arithmetic
 * in the tests.
 *
 * @param digits the digits without trailing zeros, above 0
 * @param exponent the power of ten that {@code digits} are to be multiplied by
 */
record ShortestDecimal(long digits, int exponent) {
    private static final int FRACTION_BITS = 52;
    private static final int BIAS = 1075;
    private static final int LEAST_POWER = -324;
    private static final int MOST_POWER = 292;
    private static final long LOW_63 = (1L << 63) - 1;
    private static final int BITS = 126;

    /** floor(log10(2^q)) = q LOG_2 >> 41, and likewise; exact over all exponents of a double. */
    private static final long LOG10_OF_2 = 661_971_961_083L;

    private static final long LOG10_OF_3_4 = -274_743_187_321L;
    private static final long LOG2_OF_10 = 913_124_641_741L;
    private static final int LOG10_SHIFT = 41;
    private static final int LOG2_SHIFT = 38;

    /**
     * The decimal of a double.
     *
     * @param value finite and above 0
     */
    static ShortestDecimal of(double value) {
        final long bits = Double.doubleToRawLongBits(value);
        final int field = (int) (bits >>> FRACTION_BITS);
        final long fraction = bits & ((1L << FRACTION_BITS) - 1);
        final long c = field == 0 ? fraction : fraction | 1L << FRACTION_BITS;
        final int q = Math.max(field, 1) - BIAS;
        return of(c, q, fraction == 0 && field > 1);
    }

    /**
     * @param uneven whether the neighbour below is only half as far as the one above
     */
    private static ShortestDecimal of(long c, int q, boolean uneven) {
        final int k = (int) ((q * LOG10_OF_2 + (uneven ? LOG10_OF_3_4 : 0)) >> LOG10_SHIFT);
        final int h = q + (int) ((-k * LOG2_OF_10) >> LOG2_SHIFT) + 2;
        final long high = Powers.HIGH[k - LEAST_POWER];
        final long low = Powers.LOW[k - LEAST_POWER];
        final long four = 4 * c;
        final long odd = c & 1;
        final long value = multiple(high, low, four << h);
        final long from = multiple(high, low, (four - (uneven ? 1 : 2)) << h) + odd;
        final long to = multiple(high, low, (four + 2) << h) - odd;
        final long s = value >> 2;
        final long tens = s / 10 * 10;
        final boolean tensBelow = from <= tens << 2;
        final boolean tensAbove = (tens + 10) << 2 <= to;
        if (s >= 10 && tensBelow != tensAbove) {
            return stripped(tensBelow ? tens : tens + 10, k);
        }
        final boolean below = from <= s << 2;
        final boolean above = (s + 1) << 2 <= to;
        if (below != above) {
            return stripped(below ? s : s + 1, k);
        }
        final long past = value - ((2 * s + 1) << 1);
        return stripped(past < 0 || (past == 0 && (s & 1) == 0) ? s : s + 1, k);
    }

    /** The product's upper bits, the last of them set if anything is cut off. */
    private static long multiple(long high, long low, long factor) {
        final long carried = Math.multiplyHigh(low, factor);
        final long lower = high * factor;
        final long upper = Math.multiplyHigh(high, factor);
        final long z = (lower >>> 1) + carried;
        return upper + (z >>> 63) | ((z & LOW_63) + LOW_63) >>> 63;
    }

    private static ShortestDecimal stripped(long digits, int exponent) {
        long d = digits;
        int e = exponent;
        while (d % 10 == 0) {
            d /= 10;
            e++;
        }
        return new ShortestDecimal(d, e);
    }

    /** Powers 10^-k, each as floor(10^-k 2^r) + 1 of 126 bits, in two words of 63. */
    private static final class Powers {
        static final long[] HIGH = new long[MOST_POWER - LEAST_POWER + 1];
        static final long[] LOW = new long[HIGH.length];

        static {
            BigInteger power = BigInteger.ONE;
            for (int n = 0; n <= Math.max(-LEAST_POWER, MOST_POWER); n++) {
                if (-n >= LEAST_POWER) {
                    final int shift = BITS - power.bitLength();
                    put(-n, power.shiftLeft(shift));
                }
                if (n > 0 && n <= MOST_POWER) {
                    final int shift = BITS - 1 + power.bitLength();
                    final BigInteger inverse = BigInteger.ONE.shiftLeft(shift).divide(power);
                    put(n, inverse.shiftRight(inverse.bitLength() - BITS));
                }
                power = power.multiply(BigInteger.TEN);
            }
        }

        private static void put(int k, BigInteger floor) {
            final BigInteger g = floor.add(BigInteger.ONE);
            HIGH[k - LEAST_POWER] = g.shiftRight(63).longValueExact();
            LOW[k - LEAST_POWER] = g.longValue() & LOW_63;
        }
    }
}
