package splitledger.statistics;

import java.util.OptionalInt;
import java.util.function.IntPredicate;
import org.apache.commons.math3.special.Gamma;
import org.apache.commons.math3.util.FastMath;

/**
 * How many observations a wanted figure takes, from a standard deviation that is known beforehand.
 * Every size is the smallest for which the exact expression holds, not a normal approximation of
 * it.
 */
public final class SampleSizes {
    /** No size beyond this is searched for. */
    public static final int MOST = 100_000;

    /** What an estimated standard deviation is worth, by its degrees of freedom. */
    public static final Source SPREAD_OF_SD =
            new Source("JCGM 100:2008 (GUM)", "E.4.3 and table E.1");

    /** Critical value and detection limit from blanks with estimated scatter. */
    public static final Source DETECTION =
            new Source("Currie, Pure Appl. Chem. 67 (1995) 1699, from memory", "noncentral t");

    private SampleSizes() {}

    /**
     * Observations whose mean has a confidence interval no wider than wanted: the smallest n from 2
     * on with t((1 + coverage)/2, n - 1) sd / sqrt(n) at most {@code halfWidth}.
     *
     * @param sd of one observation, above 0
     * @param halfWidth wanted, in the unit of {@code sd}, above 0
     * @param coverage between 0 and 1
     * @return empty if more than {@link #MOST} are needed
     */
    public static OptionalInt forMean(double sd, double halfWidth, double coverage) {
        positive("sd", sd);
        positive("halfWidth", halfWidth);
        return smallest(
                2,
                n -> Quantiles.coverageFactor(coverage, n - 1.0) * sd / Math.sqrt(n) <= halfWidth);
    }

    /**
     * Degrees of freedom after which a standard deviation is known from above within a factor: the
     * fewest nu with sqrt(nu / chi-square(1 - confidence, nu)) at most {@code factor}.
     *
     * @param factor upper bound over estimate, above 1
     * @param confidence of the bound, one-sided, between 0 and 1
     */
    public static OptionalInt forSd(double factor, double confidence) {
        if (!(factor > 1)) {
            throw new IllegalArgumentException("factor = " + factor + ", must be > 1");
        }
        return smallest(1, nu -> sdFactor(nu, confidence) <= factor);
    }

    /** Upper confidence bound of a standard deviation over its estimate, one-sided. */
    public static double sdFactor(double degreesOfFreedom, double confidence) {
        return Math.sqrt(degreesOfFreedom / Quantiles.chiSquare(1 - confidence, degreesOfFreedom));
    }

    /**
     * Relative standard deviation of an estimated standard deviation of normal data, over its own
     * expectation: sqrt(1/c4^2 - 1), c4 = sqrt(2/nu) Gamma((nu + 1)/2) / Gamma(nu/2); see {@link
     * #SPREAD_OF_SD}.
     *
     * @param degreesOfFreedom above 0
     */
    public static double spreadOfSd(double degreesOfFreedom) {
        final double nu = positive("degreesOfFreedom", degreesOfFreedom);
        final double c4 =
                Math.sqrt(2 / nu)
                        * FastMath.exp(Gamma.logGamma((nu + 1) / 2) - Gamma.logGamma(nu / 2));
        return Math.sqrt(Math.max(0, 1 / (c4 * c4) - 1));
    }

    /**
     * Probability that an estimated standard deviation stays at or below a multiple of the true
     * one: P(chi-square(nu) at most nu ratio^2).
     *
     * @param ratio limit over true standard deviation, at least 0
     * @param degreesOfFreedom above 0; infinite: 0 or 1
     */
    public static double chanceBelow(double ratio, double degreesOfFreedom) {
        if (Double.isInfinite(degreesOfFreedom)) {
            return ratio >= 1 ? 1 : 0;
        }
        return ratio <= 0
                ? 0
                : Gamma.regularizedGammaP(
                        degreesOfFreedom / 2, degreesOfFreedom * ratio * ratio / 2);
    }

    /**
     * Power of the two-sided t test between two groups of the same size: noncentral t with 2n - 2
     * degrees of freedom and shift difference / (sd sqrt(2/n)), both rejecting sides counted.
     *
     * @param n observations a group, at least 2
     */
    public static double powerOfDifference(double sd, double difference, int n, double risk) {
        final double df = 2.0 * n - 2;
        final double shift = Math.abs(difference) / (positive("sd", sd) * Math.sqrt(2.0 / n));
        final double t = Quantiles.t(1 - risk / 2, df);
        return 1 - NoncentralT.cumulative(t, df, shift) + NoncentralT.cumulative(-t, df, shift);
    }

    /** Observations a group that find a difference with this power, see powerOfDifference. */
    public static OptionalInt forDifference(
            double sd, double difference, double risk, double power) {
        positive("difference", Math.abs(difference));
        return smallest(2, n -> powerOfDifference(sd, difference, n, risk) >= power);
    }

    /**
     * Detection limit from n blanks, a sample measured m times, scatter the same at both: shift
     * delta(alpha, beta, n - 1) of noncentral t, times sd sqrt(1/m + 1/n); see {@link #DETECTION}.
     *
     * @param sd of one blank, in units of amount
     * @param blanks n, at least 2
     * @param measured m, at least 1
     * @param alpha risk of a false positive
     * @param beta risk of a false negative
     */
    public static double detectionLimit(
            double sd, int blanks, int measured, double alpha, double beta) {
        final double df = blanks - 1.0;
        final double shift = NoncentralT.shift(Quantiles.t(1 - alpha, df), df, beta);
        return shift * sd * Math.sqrt(1.0 / measured + 1.0 / blanks);
    }

    /**
     * Blanks with which a study finds a detection limit at or below the wanted one with this
     * probability, the scatter of the blanks being estimated.
     *
     * @param least fewest blanks that are asked for
     * @param most blanks beyond which none are asked for
     */
    public static OptionalInt blanks(
            double sd, double wanted, int measured, Risks risks, int least, int most) {
        positive("sd", sd);
        positive("wanted", wanted);
        for (int n = Math.max(2, least); n <= most; n++) {
            if (chanceOfLimit(sd, wanted, n, measured, risks) >= risks.chance()) {
                return OptionalInt.of(n);
            }
        }
        return OptionalInt.empty();
    }

    /** Probability that a study with these blanks finds a detection limit at or below another. */
    public static double chanceOfLimit(
            double sd, double wanted, int blanks, int measured, Risks risks) {
        final double limit = detectionLimit(sd, blanks, measured, risks.alpha(), risks.beta());
        return chanceBelow(wanted / limit, blanks - 1.0);
    }

    /**
     * What a detection limit shall keep.
     *
     * @param alpha risk of a false positive
     * @param beta risk of a false negative
     * @param chance that the study gives the wanted limit
     */
    public record Risks(double alpha, double beta, double chance) {}

    /** Smallest number from {@code low} on that will do, for a rule that stays true once it is. */
    private static OptionalInt smallest(int low, IntPredicate enough) {
        int high = low;
        while (!enough.test(high)) {
            if (high >= MOST) {
                return OptionalInt.empty();
            }
            high = Math.min(MOST, 2 * high);
        }
        int below = Math.max(low - 1, high / 2 - 1);
        while (high - below > 1) {
            final int middle = (high + below) / 2;
            if (enough.test(middle)) {
                high = middle;
            } else {
                below = middle;
            }
        }
        return OptionalInt.of(high);
    }

    private static double positive(String name, double value) {
        if (!(value > 0)) {
            throw new IllegalArgumentException(name + " = " + value + ", must be > 0");
        }
        return value;
    }
}
