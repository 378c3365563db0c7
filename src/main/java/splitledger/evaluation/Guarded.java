package splitledger.evaluation;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import splitledger.base.Numbers;
import splitledger.study.Trail;

/**
 * Numbers as a calculation by hand carries them: two guard digits beyond the place to which the
 * result is rounded, which is that of the second significant digit of its uncertainty (JCGM
 * 100:2008, 7.2.6).
 */
public final class Guarded {
    private static final int SIGNIFICANT = 2;
    private static final int GUARD = 2;

    private Guarded() {}

    /**
     * A value carried with two guard digits.
     *
     * @param uncertainty its standard uncertainty in the same unit; 0 or less for none, then seven
     *     significant digits are carried
     */
    public static String carried(double value, double uncertainty) {
        return uncertainty > 0 && !Double.isInfinite(uncertainty)
                ? at(value, uncertainty, SIGNIFICANT + GUARD)
                : Trail.digits(value);
    }

    /** A value rounded to the second significant digit of its uncertainty. */
    public static String rounded(double value, double uncertainty) {
        return at(value, uncertainty, SIGNIFICANT);
    }

    private static String at(double value, double uncertainty, int digits) {
        final BigDecimal place =
                new BigDecimal(Numbers.text(uncertainty))
                        .round(new MathContext(digits, RoundingMode.HALF_EVEN));
        // a round number such as 0.5 is written with its zeros
        final int scale = place.scale() + digits - place.precision();
        return new BigDecimal(Numbers.text(value))
                .setScale(scale, RoundingMode.HALF_EVEN)
                .setScale(Math.max(0, scale), RoundingMode.UNNECESSARY)
                .toPlainString();
    }
}
