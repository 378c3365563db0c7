package splitledger.statistics;

/** Preconditions of the methods here: what was wrong, with its value and the rule. */
final class Checks {
    private Checks() {}

    static void sameLength(String what, int expected, int found) {
        if (expected != found) {
            throw new IllegalArgumentException(what + ": " + found + ", must be " + expected);
        }
    }

    static void allFinite(String what, double[] values) {
        for (int i = 0; i < values.length; i++) {
            if (!Double.isFinite(values[i])) {
                throw new IllegalArgumentException(
                        what + "[" + i + "] = " + values[i] + ", must be finite");
            }
        }
    }

    static double between(String what, double value, double low, double high) {
        if (!(value > low && value < high)) {
            throw new IllegalArgumentException(
                    what + " = " + value + ", must lie between " + low + " and " + high);
        }
        return value;
    }

    static double positive(String what, double value) {
        if (!(value > 0)) {
            throw new IllegalArgumentException(what + " = " + value + ", must be > 0");
        }
        return value;
    }
}
