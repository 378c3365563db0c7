package splitledger.statistics;

/**
 * Limits from blanks: n independent blanks of standard deviation s in amount units (over the
 * slope), a sample of m results compared with their mean, sd0 = s sqrt(1/m + 1/n), nu = n - 1.
 *
 * <p>Currie (Anal. Chem. 40 (1968) 586; IUPAC, Pure Appl. Chem. 67 (1995) 1699, from memory):
 * critical value t(1-alpha, nu) sd0, detection limit delta(nu, alpha, beta) sd0. DIN 32645 blank
 * method (from memory): the same critical value, detection limit twice it.
 *
 * @param deviation sd0
 * @param degreesOfFreedom nu
 * @param relativeSlope u(b)/b of the slope used
 */
public record BlankLimits(double deviation, double degreesOfFreedom, double relativeSlope) {

    /**
     * From amounts found in blanks.
     *
     * @param blanks their count, mean and squares; at least 2
     * @param results m
     */
    public static Outcome<BlankLimits> of(Moments blanks, double results, double relativeSlope) {
        if (blanks.count() < 2) {
            return Outcome.not(
                    Outcome.Reason.TOO_FEW_BLANKS, "needs 2 blanks, found " + blanks.count());
        }
        if (!(blanks.squares() > 0)) {
            return Outcome.not(Outcome.Reason.NO_SCATTER, "all blanks are equal");
        }
        return Outcome.of(
                new BlankLimits(
                        blanks.sd() * Math.sqrt(1 / results + 1.0 / blanks.count()),
                        blanks.count() - 1.0,
                        relativeSlope));
    }

    private Limit limit(double factor) {
        return new Limit(
                factor * deviation,
                degreesOfFreedom,
                1 / (1 / degreesOfFreedom + 2 * relativeSlope * relativeSlope));
    }

    /** Critical value at false-positive risk alpha. */
    public Limit criticalValue(double alpha) {
        return limit(Quantiles.t(1 - alpha, degreesOfFreedom));
    }

    /** Amount that is missed with probability beta, if scatter there is that of blanks. */
    public Limit detectable(double alpha, double beta) {
        return limit(
                NoncentralT.shift(
                        Quantiles.t(1 - alpha, degreesOfFreedom), degreesOfFreedom, beta));
    }

    /** Factor times the standard deviation (Currie's quantification limit: 10). */
    public Limit multiple(double factor) {
        return limit(factor);
    }

    /** Twice the critical value. */
    public Limit twiceCritical(double alpha) {
        return criticalValue(alpha).times(2);
    }
}
