package splitledger.statistics;

/**
 * A number as the unevaluated sum of two doubles, about 31 digits (T. J. Dekker, Numer. Math. 18
 * (1971) 224, from memory; products by fused multiply-add).
 *
 * @param high the sum, rounded
 * @param low the rest
 */
record DoubleDouble(double high, double low) {
    static final DoubleDouble ZERO = new DoubleDouble(0, 0);

    static DoubleDouble of(double value) {
        return new DoubleDouble(value, 0);
    }

    /** Exact sum of two doubles. */
    private static DoubleDouble sum(double a, double b) {
        final double s = a + b;
        final double part = s - a;
        return new DoubleDouble(s, (a - (s - part)) + (b - part));
    }

    DoubleDouble plus(DoubleDouble other) {
        final DoubleDouble heads = sum(high, other.high);
        final DoubleDouble tails = sum(low, other.low);
        final DoubleDouble first = sum(heads.high, heads.low + tails.high);
        return sum(first.high, first.low + tails.low);
    }

    DoubleDouble minus(DoubleDouble other) {
        return plus(new DoubleDouble(-other.high, -other.low));
    }

    DoubleDouble times(DoubleDouble other) {
        final double product = high * other.high;
        final double rest =
                Math.fma(high, other.high, -product) + (high * other.low + low * other.high);
        return sum(product, rest);
    }

    DoubleDouble over(DoubleDouble other) {
        final double first = high / other.high;
        final DoubleDouble rest = minus(other.times(of(first)));
        final double second = rest.high / other.high;
        final double third = rest.minus(other.times(of(second))).high / other.high;
        return sum(first, second).plus(of(third));
    }

    DoubleDouble root() {
        if (high == 0) {
            return ZERO;
        }
        final double first = Math.sqrt(high);
        final DoubleDouble rest = minus(of(first).times(of(first)));
        return of(first).plus(of(rest.high / (2 * first)));
    }

    double value() {
        return high + low;
    }
}
