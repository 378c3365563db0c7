package splitledger.statistics;

/**
 * What a series of values in the order of injection shows: a step, and whether neighbours are
 * alike. Flags only.
 */
public final class SeriesFlags {
    private static final int LEAST_ON_A_SIDE = 2;
    private static final int LEAST_FOR_NEIGHBOURS = 8;

    private SeriesFlags() {}

    /**
     * The most likely step.
     *
     * @param before how many values lie before it
     * @param difference mean after less mean before
     * @param p at most this is the probability of such a step somewhere in independent normal
     *     values
     */
    public record Step(int before, double difference, double p) {}

    /**
     * The split into two means with the largest |t|. p is its two-sided tail of t(n-2) times the
     * number of splits looked at, at most 1 (Bonferroni: never too small, about three times too
     * large at n = 30; no permutations).
     *
     * @param x at least 6 values in order; each side keeps at least 2
     * @return the step, {@code TOO_FEW_POINTS}, or {@code NO_SCATTER} if all are equal
     */
    public static Outcome<Step> step(double... x) {
        Checks.allFinite("x", x);
        final int n = x.length;
        if (n < 3 * LEAST_ON_A_SIDE) {
            return Outcome.not(Outcome.Reason.TOO_FEW_POINTS, n + " values, 6 are needed");
        }
        final Moments all = Moments.ofAll(x);
        if (!(all.squares() > 0)) {
            return Outcome.not(Outcome.Reason.NO_SCATTER, "all values are equal");
        }
        double head = 0;
        double most = -1;
        int at = 0;
        double difference = 0;
        for (int k = 1; k <= n - LEAST_ON_A_SIDE; k++) {
            head += x[k - 1] - all.mean();
            final double between = head * head * n / ((double) k * (n - k));
            if (k >= LEAST_ON_A_SIDE && between > most) {
                most = between;
                at = k;
                difference = -head * n / ((double) k * (n - k));
            }
        }
        final double rest = Math.max(0, all.squares() - most);
        final double t = Math.sqrt(most * (n - 2) / rest);
        final double tail = Double.isInfinite(t) ? 0 : Quantiles.tTwoSidedTail(t, n - 2);
        final int splits = n - 2 * LEAST_ON_A_SIDE + 1;
        return Outcome.of(new Step(at, difference, Math.min(1, splits * tail)));
    }

    /**
     * How alike neighbours are.
     *
     * @param lagOne autocorrelation of neighbours
     * @param p two-sided, of independent values
     * @param effectiveCount of independent values that would give the mean the same uncertainty, at
     *     most the number of values
     * @param inflation factor by which the standard error of the mean is too small if the values
     *     are taken as independent, {@code >= 1}
     */
    public record Neighbours(double lagOne, double p, double effectiveCount, double inflation) {}

    /**
     * Autocorrelation of neighbours, r = sum e_i e_{i+1} / sum e_i^2. Under independence its mean
     * is -1/n and its variance (n-2)^2/(n^2 (n-1)), exact for normal values up to the ends (Moran,
     * Biometrika 35 (1948) 255, from memory); p by the normal law. For the mean, a chain of first
     * order with rho = r + (1 + 3 r)/n (Marriott and Pope, Biometrika 41 (1954) 390, from memory),
     * not below 0 and at most 0.95: n_eff = n / (1 + 2 sum (1 - k/n) rho^k).
     *
     * @param x at least 8 values in order
     * @return the result, {@code TOO_FEW_POINTS}, or {@code NO_SCATTER} if all are equal
     */
    public static Outcome<Neighbours> neighbours(double... x) {
        Checks.allFinite("x", x);
        final int n = x.length;
        if (n < LEAST_FOR_NEIGHBOURS) {
            return Outcome.not(
                    Outcome.Reason.TOO_FEW_POINTS,
                    n + " values, " + LEAST_FOR_NEIGHBOURS + " are needed");
        }
        final Moments all = Moments.ofAll(x);
        if (!(all.squares() > 0)) {
            return Outcome.not(Outcome.Reason.NO_SCATTER, "all values are equal");
        }
        double sum = 0;
        for (int i = 0; i + 1 < n; i++) {
            sum += (x[i] - all.mean()) * (x[i + 1] - all.mean());
        }
        final double r = sum / all.squares();
        final double z = (r + 1.0 / n) * n * Math.sqrt(n - 1.0) / (n - 2);
        final double rho = Math.min(0.95, Math.max(0, r + (1 + 3 * r) / n));
        double factor = 1;
        double power = 1;
        for (int k = 1; k < n; k++) {
            power *= rho;
            factor += 2 * (1 - (double) k / n) * power;
        }
        return Outcome.of(
                new Neighbours(
                        r,
                        Quantiles.tTwoSidedTail(z, Double.POSITIVE_INFINITY),
                        n / factor,
                        Math.sqrt(factor)));
    }
}
