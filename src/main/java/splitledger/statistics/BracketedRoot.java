package splitledger.statistics;

import java.util.function.DoubleUnaryOperator;

/**
 * Where a continuous function crosses 0 between two places of different sign: false position with
 * the Illinois rule (the end that stays twice counts half), and halving whenever three steps have
 * not made the bracket eight times smaller.
 */
final class BracketedRoot {
    private static final int ROUNDS = 200;

    private BracketedRoot() {}

    /**
     * Finds it.
     *
     * @param low one end
     * @param high the other, above low
     * @param close width of the bracket at which it ends
     * @return a place inside the last bracket
     */
    static double of(DoubleUnaryOperator f, double low, double high, double close) {
        double a = low;
        double b = high;
        double fa = f.applyAsDouble(a);
        double fb = f.applyAsDouble(b);
        if (fa == 0 || fb == 0) {
            return fa == 0 ? a : b;
        }
        double before = b - a;
        int side = 0;
        for (int round = 1; round <= ROUNDS && b - a > close; round++) {
            double next = b - fb * (b - a) / (fb - fa);
            final boolean slow = round % 3 == 0 && b - a > before / 8;
            if (round % 3 == 0) {
                before = b - a;
            }
            if (slow || !(next > a && next < b)) {
                next = a + (b - a) / 2;
            }
            if (next == a || next == b) {
                break;
            }
            final double at = f.applyAsDouble(next);
            if (at == 0) {
                return next;
            }
            if (at < 0 == fa < 0) {
                a = next;
                fa = at;
                fb = side < 0 ? fb / 2 : fb;
                side = -1;
            } else {
                b = next;
                fb = at;
                fa = side > 0 ? fa / 2 : fa;
                side = 1;
            }
        }
        return Math.abs(fa) < Math.abs(fb) ? a : b;
    }
}
