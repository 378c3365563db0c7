package splitledger.statistics;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.util.FastMath;

/**
 * A chart of standard deviations, each with its own degrees of freedom. Where all come from one
 * variance, s(i)^2 over the pooled variance of the base's other values follows F with nu(i) and the
 * sum of the others' degrees of freedom; with many of these that is chi-square over nu(i), the
 * usual limit. (Limits of s charts: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.1, from
 * memory; F instead of chi-square because the pooled variance is estimated too.)
 */
public final class SpreadChart {
    /** Tail of a normal value beyond three standard deviations. */
    public static final double TAIL = Quantiles.tTail(3, Double.POSITIVE_INFINITY);

    private SpreadChart() {}

    /**
     * One value.
     *
     * @param z the normal deviate with the same tail; infinite for a value of 0
     * @param centre pooled standard deviation of the base's others
     * @param lower limit of the value
     * @param upper limit of the value
     */
    public record Step(double z, double centre, double lower, double upper) {}

    /**
     * All values.
     *
     * @param s standard deviations in order of time, {@code >= 0}
     * @param degreesOfFreedom of each, {@code > 0} and finite
     * @param base how many of the first ones say what is usual
     * @return not computed if fewer than two values, or if the base does not scatter
     */
    public static Outcome<List<Step>> of(double[] s, double[] degreesOfFreedom, int base) {
        if (s.length < 2 || base < 2) {
            return Outcome.not(Outcome.Reason.TOO_FEW_POINTS, "fewer than two values");
        }
        final List<Step> steps = new ArrayList<>();
        for (int i = 0; i < s.length; i++) {
            double sum = 0;
            double freedom = 0;
            for (int j = 0; j < Math.min(base, s.length); j++) {
                if (j != i) {
                    sum += degreesOfFreedom[j] * s[j] * s[j];
                    freedom += degreesOfFreedom[j];
                }
            }
            if (!(sum > 0)) {
                return Outcome.not(
                        Outcome.Reason.NO_SCATTER, "all others' standard deviations are 0");
            }
            steps.add(step(s[i], degreesOfFreedom[i], FastMath.sqrt(sum / freedom), freedom));
        }
        return Outcome.of(List.copyOf(steps));
    }

    private static Step step(double s, double own, double pooled, double others) {
        final double upper = FastMath.sqrt(Quantiles.f(1 - TAIL, own, others));
        final double lower = 1 / FastMath.sqrt(Quantiles.f(1 - TAIL, others, own));
        return new Step(
                deviate(s * s / (pooled * pooled), own, others),
                pooled,
                pooled * lower,
                pooled * upper);
    }

    private static double deviate(double f, double own, double others) {
        if (!(f > 0)) {
            return Double.NEGATIVE_INFINITY;
        }
        final double above = Quantiles.fTail(f, own, others);
        final double below = Quantiles.fTail(1 / f, others, own);
        final double tail = Math.min(above, below);
        if (!(tail > 0)) {
            return above < below ? Double.POSITIVE_INFINITY : Double.NEGATIVE_INFINITY;
        }
        final double z = -Quantiles.normal(tail);
        return above < below ? z : -z;
    }
}
