package splitledger.study;

/**
 * How much of an evaluation is made. Numbers are the same whatever is left out.
 *
 * @param monteCarlo whether budgets are also propagated by Monte Carlo
 * @param figures whether figures are made
 * @param errorRates whether error rates are found by simulating the whole experiment again and
 *     again
 */
public record Extent(boolean monteCarlo, boolean figures, boolean errorRates) {
    /** Everything, as the reports need it. */
    public static final Extent FULL = new Extent(true, true, true);

    /** What the closed formulas give: for thousands of simulated studies. */
    public static final Extent FORMULAS = new Extent(false, false, false);

    /** Formulas and Monte Carlo, no figures, no error rates. */
    public static final Extent FORMULAS_AND_TRIALS = new Extent(true, false, false);
}
