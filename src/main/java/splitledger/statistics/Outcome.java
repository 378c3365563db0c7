package splitledger.statistics;

import java.util.function.Function;

/**
 * A result, or the reason why valid data cannot give one: never null, never a silent NaN.
 *
 * @param <T> what is computed
 */
public sealed interface Outcome<T> {

    /** A result. */
    record Computed<T>(T value) implements Outcome<T> {}

    /**
     * No result.
     *
     * @param reason code for files
     * @param detail in words, with the numbers met and needed
     */
    record NotComputed<T>(Reason reason, String detail) implements Outcome<T> {}

    /** Why data cannot give an answer. */
    enum Reason {
        TOO_FEW_POINTS("too-few-points"),
        TOO_FEW_LEVELS("too-few-levels"),
        TOO_FEW_PREPARATIONS("too-few-preparations"),
        TOO_FEW_INJECTIONS("too-few-injections"),
        TOO_FEW_BLANKS("too-few-blanks"),
        TOO_FEW_SETTINGS("too-few-settings"),
        TOO_FEW_SET_UPS("too-few-set-ups"),
        ONE_PREPARATION_A_LEVEL("one-preparation-a-level"),
        NO_SPREAD_IN_X("no-spread-in-x"),
        NO_SCATTER("no-scatter"),
        ZERO_AMOUNT("zero-amount"),
        UNBOUNDED_INTERVAL("unbounded-interval"),
        EXCLUSIVE_INTERVAL("exclusive-interval"),
        SLOPE_NOT_SIGNIFICANT("slope-not-significant"),
        NO_CALIBRATION("no-calibration"),
        NOT_DETECTED("not-detected"),
        NO_ROWS("no-rows"),
        NO_FINDING("no-finding"),
        NO_FINITE_VALUE("no-finite-value"),
        MEAN_NEAR_ZERO("mean-near-zero"),
        NOT_IN_MODEL("not-in-the-model"),
        NO_LIMIT_STATED("no-limit-stated"),
        OUTSIDE_LADDER("outside-ladder"),
        OUTSIDE_RANGE("outside-range"),
        NO_RESIDENCE_TIME("no-residence-time"),
        UNDECIDED("undecided"),
        NOT_HOMOGENEOUS("not-homogeneous"),
        NOT_DEFINED("not-defined-by-this-document");

        private final String code;

        Reason(String code) {
            this.code = code;
        }

        /** The name in files. */
        public String code() {
            return code;
        }
    }

    /** A result. */
    static <T> Outcome<T> of(T value) {
        return new Computed<>(value);
    }

    /** No result. */
    static <T> Outcome<T> not(Reason reason, String detail) {
        return new NotComputed<>(reason, detail);
    }

    /** Either way on. */
    default <R> R fold(
            Function<? super T, ? extends R> computed, Function<NotComputed<T>, ? extends R> not) {
        if (this instanceof Computed<T> c) {
            return computed.apply(c.value());
        }
        return not.apply((NotComputed<T>) this);
    }
}
