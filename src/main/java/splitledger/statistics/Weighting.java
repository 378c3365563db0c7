package splitledger.statistics;

/**
 * How the variance of a response depends on x: {@code variance(x) = s^2 x^power}, weights {@code
 * 1/x^power}.
 */
public enum Weighting {
    NONE("none", 0, "the same scatter at every level"),
    INVERSE("1/x", 1, "variance proportional to the amount"),
    INVERSE_SQUARE("1/x^2", 2, "scatter proportional to the amount");

    private final String code;
    private final int power;
    private final String words;

    Weighting(String code, int power, String words) {
        this.code = code;
        this.power = power;
        this.words = words;
    }

    /** The name in files. */
    public String code() {
        return code;
    }

    /** What it assumes, in words. */
    public String words() {
        return words;
    }

    /** Variance at x relative to that at x = 1. */
    public double variance(double x) {
        return power == 0 ? 1 : power == 1 ? x : x * x;
    }

    /** The power of x in the variance. */
    public int power() {
        return power;
    }
}
