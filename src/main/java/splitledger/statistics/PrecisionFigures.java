package splitledger.statistics;

import org.apache.commons.math3.util.FastMath;

/**
 * What follows from standard deviations: relative ones, the repeatability limit, limits from
 * pharmacopoeias, predicted ones.
 */
public final class PrecisionFigures {
    /** Where the limit of area repeatability comes from. */
    public static final Source REPEATABILITY_LIMIT =
            new Source("European Pharmacopoeia, general chapter 2.2.46", "repeatability");

    /** Where the predicted standard deviations come from. */
    public static final Source PREDICTED =
            new Source("M. Thompson, Analyst 125 (2000) 385", "from memory");

    private static final double K = 0.349;
    private static final double LOW = 1.2e-7;
    private static final double HIGH = 0.138;

    private PrecisionFigures() {}

    /**
     * A ratio with its interval.
     *
     * @param value standard deviation / mean, not in percent
     * @param standardUncertainty to first order
     * @param lower end of the interval
     * @param upper end of the interval; infinite if the mean may be 0
     */
    public record Relative(double value, double standardUncertainty, double lower, double upper) {}

    /**
     * Standard deviation divided by the mean, with the uncertainty of both: the interval recovers
     * the variances of both estimates from their own intervals (Donner and Zou, Stat. Methods Med.
     * Res. 21 (2012) 347, from memory). The two are taken as independent, which they are in
     * balanced normal data.
     *
     * @param sd with its interval
     * @param mean of the same rows, not 0
     * @param meanUncertainty {@code >= 0}
     * @param meanDf degrees of freedom of that uncertainty
     * @param coverage of the interval of sd
     * @return the ratio, or {@code MEAN_NEAR_ZERO} if the interval of the mean holds 0
     */
    public static Outcome<Relative> relative(
            ScatterComponent sd,
            double mean,
            double meanUncertainty,
            double meanDf,
            double coverage) {
        final double x = Math.abs(mean);
        final double half =
                meanUncertainty > 0
                        ? Quantiles.coverageFactor(coverage, meanDf) * meanUncertainty
                        : 0;
        if (!(x > half)) {
            return Outcome.not(
                    Outcome.Reason.MEAN_NEAR_ZERO,
                    "the mean " + mean + " is not told from 0 (+- " + half + ")");
        }
        final double s = sd.sd();
        final double value = s / x;
        final double ofSd = sd.sdUncertainty() / x;
        final double ofMean = value * meanUncertainty / x;
        final double u = Math.sqrt(ofSd * ofSd + ofMean * ofMean);
        final double low = (x - half) * (x + half);
        final double lower =
                (s * x - root(s * x, sd.sdLower() * (2 * s - sd.sdLower()) * low)) / low;
        final double upper =
                (s * x + root(s * x, sd.sdUpper() * (2 * s - sd.sdUpper()) * low)) / low;
        return Outcome.of(new Relative(value, u, Math.max(0, lower), upper));
    }

    private static double root(double product, double rest) {
        return Math.sqrt(Math.max(0, product * product - rest));
    }

    /**
     * Difference that two results of the same conditions exceed with probability 1 - coverage: t
     * sqrt(2) s, with t of the degrees of freedom of s (2.77 s for coverage 0.95 and many).
     */
    public static double repeatabilityLimit(VarianceEstimate repeatability, double coverage) {
        return Quantiles.coverageFactor(coverage, repeatability.degreesOfFreedom())
                * Math.sqrt(2)
                * repeatability.sd();
    }

    /**
     * Largest relative standard deviation of the areas of repeated injections of a reference
     * solution in an assay, in percent: K B sqrt(n) / t(90 %, n-1), K = 0.349 (t two-sided).
     *
     * @param injections 3 to 6
     * @param b upper limit of the content less 100 %, in percent, {@code > 0}
     * @return the limit, or {@code NOT_DEFINED} for other numbers of injections
     */
    public static Outcome<Double> areaRepeatabilityLimit(int injections, double b) {
        Checks.positive("b", b);
        if (injections < 3 || injections > 6) {
            return Outcome.not(
                    Outcome.Reason.NOT_DEFINED,
                    injections + " injections; the limit is given for 3 to 6");
        }
        final double t = Quantiles.coverageFactor(0.90, injections - 1);
        return Outcome.of(K * b * Math.sqrt(injections) / t);
    }

    /**
     * Reproducibility standard deviation predicted from the mass fraction c alone: 0.22 c below
     * 1.2e-7, 0.02 c^0.8495 up to 0.138 (Horwitz), 0.01 sqrt(c) above. A yardstick across
     * laboratories, not what one laboratory achieves.
     *
     * @param massFraction above 0, at most 1
     * @return standard deviation as a mass fraction
     */
    public static double predictedSd(double massFraction) {
        if (!(massFraction > 0 && massFraction <= 1)) {
            throw new IllegalArgumentException(
                    "massFraction = " + massFraction + ", must lie above 0 and not above 1");
        }
        if (massFraction < LOW) {
            return 0.22 * massFraction;
        }
        return massFraction > HIGH
                ? 0.01 * Math.sqrt(massFraction)
                : 0.02 * FastMath.pow(massFraction, 0.8495);
    }
}
