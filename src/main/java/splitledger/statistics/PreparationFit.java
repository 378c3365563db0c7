package splitledger.statistics;

import java.util.Arrays;

/**
 * Mean and scatter fitted to preparations that were injected unequally often: shares and fit in
 * turns until both stay. With equal numbers of injections the shares are all 1 and the fit is that
 * of the means.
 *
 * @param fit the fit; its law is that of a mean of m0 injections
 * @param share how the variance of a mean depends on its number of injections
 */
public record PreparationFit(ScatterFit fit, InjectionShare share) {
    private static final int ROUNDS = 30;
    private static final double CONVERGED = 1e-10;

    /**
     * Fits.
     *
     * @param fitter what is fitted
     * @param x amount of each preparation
     * @param y mean response of each
     * @param squares sum of squares of its injections about their mean
     * @param counts its injections, {@code >= 1}
     * @return the fit with m0 the harmonic mean of the counts; or the fitter's reason
     */
    public static Outcome<PreparationFit> of(
            ScatterFitter fitter, double[] x, double[] y, double[] squares, int[] counts) {
        final double usual = counts.length / Arrays.stream(counts).mapToDouble(m -> 1.0 / m).sum();
        final boolean equal = Arrays.stream(counts).distinct().count() == 1;
        double[] shares = new double[x.length];
        Arrays.fill(shares, 1);
        Outcome<PreparationFit> last = Outcome.not(Outcome.Reason.NO_ROWS, "no preparations");
        double before = -1;
        for (int round = 0; round < (equal ? 1 : ROUNDS); round++) {
            last =
                    fitter.fit(x, y, shares)
                            .fold(
                                    fit ->
                                            Outcome.of(
                                                    new PreparationFit(
                                                            fit,
                                                            InjectionShare.of(
                                                                    fit.law(),
                                                                    fitted(fit, x),
                                                                    squares,
                                                                    counts,
                                                                    usual))),
                                    not -> Outcome.not(not.reason(), not.detail()));
            final double lambda = last.fold(f -> f.share().lambda(), not -> Double.NaN);
            if (Double.isNaN(lambda) || Math.abs(lambda - before) <= CONVERGED * lambda) {
                break;
            }
            before = lambda;
            shares = last.fold(f -> f.share().of(counts), not -> new double[0]);
        }
        return last;
    }

    private static double[] fitted(ScatterFit fit, double[] x) {
        return Arrays.stream(x).map(fit::at).toArray();
    }
}
