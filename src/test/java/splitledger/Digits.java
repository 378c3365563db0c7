package splitledger;

import static org.assertj.core.api.Assertions.assertThat;

/** How many decimal digits two numbers share. */
public final class Digits {
    /** More are not told apart: the certified values have 15. */
    private static final double MOST = 15;

    private Digits() {}

    /** -log10 of the relative error, at most 15; of the absolute error where 0 is expected. */
    public static double shared(double expected, double actual) {
        if (Double.isNaN(actual)) {
            return 0;
        }
        final double error =
                expected == 0 ? Math.abs(actual) : Math.abs(actual - expected) / Math.abs(expected);
        return error == 0 ? MOST : Math.max(0, Math.min(MOST, -StrictMath.log10(error)));
    }

    /** Asserts that at least so many digits agree. */
    public static void assertDigits(double digits, double expected, double actual, String what) {
        assertThat(shared(expected, actual))
                .as("digits of %s: expected %s, was %s", what, expected, actual)
                .isGreaterThanOrEqualTo(digits);
    }
}
