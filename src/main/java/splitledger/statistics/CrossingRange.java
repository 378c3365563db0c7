package splitledger.statistics;

import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;

/**
 * Where a rising curve of known uncertainty crosses 0, never looked for outside the range in which
 * it was measured: all x with {@code |h(x)| <= k u(x)}, u being that at x itself (Fieller's
 * argument: E. C. Fieller, J. R. Stat. Soc. B 16 (1954) 175, from memory). An end that the range
 * does not hold is open.
 *
 * @param value where h crosses 0; empty if not within the range
 * @param lower where h + k u crosses 0, or the upper end of the range if the crossing lies above it
 *     for sure; empty if the set is open below
 * @param upper where h - k u crosses 0, or the lower end of the range if the crossing lies below it
 *     for sure; empty if the set is open above
 * @param below whether h is above 0 in all of the range: the crossing lies below it
 */
public record CrossingRange(
        OptionalDouble value, OptionalDouble lower, OptionalDouble upper, boolean below) {
    private static final double CLOSE = 1e-13;

    /**
     * Looks for it.
     *
     * @param curve h, rising
     * @param uncertainty k u, {@code >= 0}
     * @param low lower end of the range
     * @param high its upper end
     */
    public static CrossingRange of(
            DoubleUnaryOperator curve, DoubleUnaryOperator uncertainty, double low, double high) {
        final DoubleUnaryOperator most = x -> curve.applyAsDouble(x) + uncertainty.applyAsDouble(x);
        final DoubleUnaryOperator least =
                x -> curve.applyAsDouble(x) - uncertainty.applyAsDouble(x);
        final OptionalDouble lower =
                most.applyAsDouble(high) < 0 ? OptionalDouble.of(high) : crossing(most, low, high);
        final OptionalDouble upper =
                least.applyAsDouble(low) > 0 ? OptionalDouble.of(low) : crossing(least, low, high);
        return new CrossingRange(
                crossing(curve, low, high), lower, upper, curve.applyAsDouble(low) > 0);
    }

    private static OptionalDouble crossing(DoubleUnaryOperator f, double low, double high) {
        if (f.applyAsDouble(low) > 0 || f.applyAsDouble(high) < 0) {
            return OptionalDouble.empty();
        }
        return OptionalDouble.of(BracketedRoot.of(f, low, high, CLOSE * Math.abs(high)));
    }
}
