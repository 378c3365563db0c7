package splitledger.statistics;

/** How a mean response depends on the amount x. */
public enum MeanLaw {
    THROUGH_ORIGIN(1, "b x"),
    LINE(2, "a + b x"),
    QUADRATIC(3, "a + b x + c x^2");

    private final int parameters;
    private final String formula;

    MeanLaw(int parameters, String formula) {
        this.parameters = parameters;
        this.formula = formula;
    }

    /** How many coefficients it has; in the order of the formula. */
    public int parameters() {
        return parameters;
    }

    /** The formula in words of algebra. */
    public String formula() {
        return formula;
    }

    /** What the k-th coefficient multiplies at x: 1, x or x^2. */
    public double term(int k, double x) {
        final int power = this == THROUGH_ORIGIN ? 1 : k;
        return power == 0 ? 1 : power == 1 ? x : x * x;
    }

    /** All terms at x. */
    public double[] terms(double x) {
        final double[] terms = new double[parameters];
        for (int k = 0; k < parameters; k++) {
            terms[k] = term(k, x);
        }
        return terms;
    }

    /** Mean response at x. */
    public double at(double[] coefficients, double x) {
        double sum = 0;
        for (int k = parameters - 1; k >= 0; k--) {
            sum = sum * x + coefficients[k];
        }
        return this == THROUGH_ORIGIN ? sum * x : sum;
    }

    /** Slope of the mean response at x. */
    public double slopeAt(double[] coefficients, double x) {
        if (this == THROUGH_ORIGIN) {
            return coefficients[0];
        }
        return this == LINE ? coefficients[1] : coefficients[1] + 2 * coefficients[2] * x;
    }
}
