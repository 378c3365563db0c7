package splitledger.statistics;

import org.apache.commons.math3.distribution.ChiSquaredDistribution;
import org.apache.commons.math3.distribution.FDistribution;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.distribution.RealDistribution;
import org.apache.commons.math3.distribution.TDistribution;

/**
 * Quantiles and tail probabilities of the usual laws. Commons Math finds quantiles to about 3e-10;
 * two Newton steps on its distribution function bring them to about 1e-14 relative.
 */
public final class Quantiles {
    /**
     * Above this many degrees of freedom t is taken as normal; the quantiles differ by less than
     * 1e-9 relative.
     */
    private static final double NORMAL_FROM = 1e9;

    private static final int NEWTON_STEPS = 3;

    private Quantiles() {}

    /** Quantile of the standard normal law; {@code p} between 0 and 1, ends excluded. */
    public static double normal(double p) {
        return polished(new NormalDistribution(null, 0, 1), p);
    }

    /**
     * Quantile of Student's t.
     *
     * @param p between 0 and 1, ends excluded
     * @param degreesOfFreedom {@code > 0}, whole or not, may be infinite
     */
    public static double t(double p, double degreesOfFreedom) {
        if (p < 0.5) {
            return -t(1 - p, degreesOfFreedom);
        }
        return degreesOfFreedom >= NORMAL_FROM
                ? normal(p)
                : polished(new TDistribution(null, degreesOfFreedom, 1e-12), p);
    }

    /** Factor k of a two-sided t interval with this coverage. */
    public static double coverageFactor(double coverage, double degreesOfFreedom) {
        return t(0.5 + coverage / 2, degreesOfFreedom);
    }

    /** Quantile of chi-square; {@code degreesOfFreedom > 0}, whole or not. */
    public static double chiSquare(double p, double degreesOfFreedom) {
        return polished(new ChiSquaredDistribution(null, degreesOfFreedom, 1e-12), p);
    }

    /** Probability that F is at least this large. */
    public static double fTail(double f, double numerator, double denominator) {
        // the lower tail of 1/F keeps small probabilities exact
        return f <= 0
                ? 1
                : new FDistribution(null, denominator, numerator).cumulativeProbability(1 / f);
    }

    /** Probability that |t| is at least this large. */
    public static double tTwoSidedTail(double t, double degreesOfFreedom) {
        return 2 * tTail(Math.abs(t), degreesOfFreedom);
    }

    /** Probability that t is at least this large. */
    public static double tTail(double t, double degreesOfFreedom) {
        return degreesOfFreedom >= NORMAL_FROM
                ? new NormalDistribution(null, 0, 1).cumulativeProbability(-t)
                : new TDistribution(null, degreesOfFreedom).cumulativeProbability(-t);
    }

    private static double polished(RealDistribution law, double p) {
        if (!(p > 0 && p < 1)) {
            throw new IllegalArgumentException("p = " + p + ", must lie between 0 and 1");
        }
        double x = law.inverseCumulativeProbability(p);
        for (int i = 0; i < NEWTON_STEPS; i++) {
            final double density = law.density(x);
            if (!(density > 0)) {
                return x;
            }
            final double next = x - (law.cumulativeProbability(x) - p) / density;
            if (Double.isNaN(next) || next == x) {
                return x;
            }
            x = next;
        }
        return x;
    }
}
