package splitledger.base;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.RoundingMode;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Label;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.LongRange;

class NumbersProperties {

    @Property(tries = 3000)
    @Label("every finite number reads back as itself")
    void readsBack(@ForAll("doubles") double value) {
        assertThat(Double.parseDouble(Numbers.text(value))).isEqualTo(value == 0 ? 0.0 : value);
    }

    @Property(tries = 3000)
    @Label("the digits are those of a search through all shorter decimals")
    void agreesWithTheSearch(@ForAll("doubles") double value) {
        assertThat(new BigDecimal(Numbers.text(value)))
                .as("%s", value)
                .isEqualByComparingTo(searched(value));
    }

    @Example
    @Label("so they are at every power of two and beside it, where the gaps are uneven")
    void agreesAtPowersOfTwo() {
        for (int exponent = Double.MIN_EXPONENT - 52; exponent <= Double.MAX_EXPONENT; exponent++) {
            final double power = Math.scalb(1.0, exponent);
            for (double value : new double[] {Math.nextDown(power), power, Math.nextUp(power)}) {
                if (value != 0) {
                    assertThat(new BigDecimal(Numbers.text(value)))
                            .as("near 2^%d", exponent)
                            .isEqualByComparingTo(searched(value));
                }
            }
        }
    }

    @Example
    @Label("so they are at the powers of ten and at one-digit numbers")
    void agreesAtPowersOfTen() {
        for (int exponent = -323; exponent <= 308; exponent++) {
            for (int digit = 1; digit <= 9; digit++) {
                final double value = Double.parseDouble(digit + "e" + exponent);
                if (value < Double.POSITIVE_INFINITY) {
                    assertThat(new BigDecimal(Numbers.text(value)))
                            .isEqualByComparingTo(searched(value));
                }
            }
        }
    }

    @Example
    @Label("so they are at the smallest numbers that a double can be")
    void agreesAtTheSmallest() {
        for (int i = 1; i <= 1000; i++) {
            final double value = i * Double.MIN_VALUE;
            assertThat(new BigDecimal(Numbers.text(value)))
                    .as("%s", value)
                    .isEqualByComparingTo(searched(value));
        }
    }

    @Property(tries = 5000)
    @Label("so they are for numbers of the size that results have")
    void agreesForResults(
            @ForAll @LongRange(min = 1) long bits,
            @ForAll @IntRange(min = -40, max = 40) int exponent) {
        final double value = Math.scalb((double) bits, exponent - 62);
        assertThat(new BigDecimal(Numbers.text(value)))
                .as("%s", value)
                .isEqualByComparingTo(searched(value));
    }

    @Property(tries = 1000)
    @Label("the text is a plain decimal or d.ddde-n, never with a needless zero")
    void hasOneOfTwoForms(@ForAll("doubles") double value) {
        assertThat(Numbers.text(value))
                .matches("-?(0|[1-9]\\d*)(\\.\\d*[1-9])?|-?[1-9](\\.\\d*[1-9])?e-?[1-9]\\d*");
    }

    /**
     * The definition, tried out on exact decimals: the decimals of n digits around the value, n
     * from 1 on, until one lies among those that round to the value; of two the nearer.
     */
    private static BigDecimal searched(double value) {
        if (value < 0) {
            return searched(-value).negate();
        }
        if (value == 0) {
            return BigDecimal.ZERO;
        }
        final BigDecimal exact = new BigDecimal(value);
        final BigDecimal two = BigDecimal.valueOf(2);
        final BigDecimal least = exact.add(new BigDecimal(Math.nextDown(value))).divide(two);
        // above the largest double the half-way point is that to the next power of two
        final BigDecimal most = exact.add(new BigDecimal(Math.ulp(value)).divide(two));
        final boolean even = (Double.doubleToLongBits(value) & 1) == 0;
        for (int digits = 1; ; digits++) {
            final int scale = digits - (exact.precision() - exact.scale());
            final BigDecimal below = exact.setScale(scale, RoundingMode.FLOOR);
            final BigDecimal above = exact.setScale(scale, RoundingMode.CEILING);
            final boolean belowFits = fits(below, least, most, even);
            final boolean aboveFits = fits(above, least, most, even);
            if (belowFits && aboveFits) {
                final int nearer = exact.subtract(below).compareTo(above.subtract(exact));
                // equally near: the even last digit, as everywhere in arithmetic
                return nearer < 0 || (nearer == 0 && !below.unscaledValue().testBit(0))
                        ? below
                        : above;
            }
            if (belowFits || aboveFits) {
                return belowFits ? below : above;
            }
        }
    }

    private static boolean fits(BigDecimal x, BigDecimal least, BigDecimal most, boolean even) {
        return even
                ? x.compareTo(least) >= 0 && x.compareTo(most) <= 0
                : x.compareTo(least) > 0 && x.compareTo(most) < 0;
    }

    /** Every bit pattern of a finite double, and short decimals as a chemist writes them. */
    @Provide
    Arbitrary<Double> doubles() {
        final Arbitrary<Double> any =
                Arbitraries.longs()
                        .map(Double::longBitsToDouble)
                        .filter(d -> !d.isNaN() && !d.isInfinite());
        final Arbitrary<Double> decimals =
                Arbitraries.longs()
                        .between(-99_999_999, 99_999_999)
                        .flatMap(
                                n ->
                                        Arbitraries.integers()
                                                .between(-20, 20)
                                                .map(e -> Double.parseDouble(n + "e" + e)));
        return Arbitraries.oneOf(any, decimals);
    }
}
