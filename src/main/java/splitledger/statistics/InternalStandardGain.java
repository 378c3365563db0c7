package splitledger.statistics;

/**
 * What dividing by an internal standard does to the scatter: the standard deviation of ln(A) -
 * ln(A_IS) over that of ln(A), both of the same injections. It helps if and only if the correlation
 * of the two logarithms exceeds sd(IS) / (2 sd(A)).
 *
 * @param ratio of the standard deviations; below 1 the standard helps
 * @param lower end of its interval
 * @param upper end of its interval
 * @param correlation of ln(A) with ln(A_IS)
 * @param needed correlation above which the standard helps
 */
public record InternalStandardGain(
        double ratio, double lower, double upper, double correlation, double needed) {

    /** What can be said. */
    public enum Effect {
        HELPS,
        HARMS,
        UNDECIDED
    }

    /**
     * From residuals of log areas (taken from the means of their preparations or groups). The
     * interval is exact for two correlated normal variables: the variances of x + w y and x - w y
     * are compared through their correlation (Pitman, Biometrika 31 (1939) 9; Morgan, ibid. 13).
     *
     * @param analyte residuals of ln(A)
     * @param standard residuals of ln(A_IS), row by row
     * @param degreesOfFreedom of the residuals, at least 3; rows - 1 if only the mean was taken off
     * @param coverage of the interval
     * @return the gain, {@code TOO_FEW_INJECTIONS}, or {@code NO_SCATTER} if either does not
     *     scatter
     */
    public static Outcome<InternalStandardGain> of(
            double[] analyte, double[] standard, double degreesOfFreedom, double coverage) {
        Checks.sameLength("standard", analyte.length, standard.length);
        Checks.allFinite("analyte", analyte);
        Checks.allFinite("standard", standard);
        if (degreesOfFreedom < 3) {
            return Outcome.not(
                    Outcome.Reason.TOO_FEW_INJECTIONS,
                    degreesOfFreedom + " degrees of freedom, 3 are needed");
        }
        final double[] ratio = analyte.clone();
        Matrices.addTo(ratio, -1, standard);
        final double aa = Matrices.dot(analyte, analyte);
        final double ss = Matrices.dot(standard, standard);
        final double rr = Matrices.dot(ratio, ratio);
        if (!(aa > 0 && ss > 0 && rr > 0)) {
            return Outcome.not(
                    Outcome.Reason.NO_SCATTER, "analyte, standard or their ratio does not scatter");
        }
        final double correlation = Matrices.dot(analyte, standard) / Math.sqrt(aa * ss);
        final double own = Matrices.dot(ratio, analyte) / Math.sqrt(aa * rr);
        final double t = Quantiles.coverageFactor(coverage, degreesOfFreedom - 1);
        final double k = 1 + 2 * (1 - own * own) * t * t / (degreesOfFreedom - 1);
        final double spread = Math.sqrt(k * k - 1);
        return Outcome.of(
                new InternalStandardGain(
                        Math.sqrt(rr / aa),
                        Math.sqrt(rr / aa / (k + spread)),
                        Math.sqrt(rr / aa * (k + spread)),
                        correlation,
                        Math.sqrt(ss / aa) / 2));
    }

    /** What the interval says. */
    public Effect effect() {
        if (upper < 1) {
            return Effect.HELPS;
        }
        return lower > 1 ? Effect.HARMS : Effect.UNDECIDED;
    }
}
