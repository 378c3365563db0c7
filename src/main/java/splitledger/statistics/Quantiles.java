package splitledger.statistics;

import org.apache.commons.math3.distribution.ChiSquaredDistribution;
import org.apache.commons.math3.distribution.FDistribution;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.distribution.RealDistribution;
import org.apache.commons.math3.distribution.TDistribution;
import org.apache.commons.math3.special.Gamma;
import org.apache.commons.math3.util.FastMath;

/**
 * Quantiles and tail probabilities of the usual laws. Commons Math finds quantiles to about 3e-10;
 * Newton steps on the smaller tail bring them to about 1e-12 relative. For many degrees of freedom,
 * where its distribution function of t loses digits, t is turned into a normal deviate (G. W. Hill,
 * Commun. ACM 13 (1970) 617, from memory; good to 1e-12 from 300 on).
 */
public final class Quantiles {
    private static final double LOG_FAR = 50;
    private static final int HALVINGS = 70;
    private static final NormalDistribution STANDARD = new NormalDistribution(null, 0, 1);

    private static final double MANY = 300;
    private static final double FEW = 3;
    private static final double FAR_TAIL = 1e-4;
    private static final int NEWTON_STEPS = 12;
    private static final double CONVERGED = 2e-16;

    private Quantiles() {}

    /** Quantile of the standard normal law; {@code p} between 0 and 1, ends excluded. */
    public static double normal(double p) {
        return p > 0.5
                ? -normal(1 - p)
                : polished(STANDARD, STANDARD.inverseCumulativeProbability(checked(p)), p);
    }

    /**
     * Quantile of Student's t.
     *
     * @param p between 0 and 1, ends excluded
     * @param degreesOfFreedom {@code > 0}, whole or not, may be infinite
     */
    public static double t(double p, double degreesOfFreedom) {
        if (p > 0.5) {
            return -t(1 - p, degreesOfFreedom);
        }
        if (Double.isInfinite(degreesOfFreedom) || p == 0.5) {
            return normal(p);
        }
        final TDistribution law = new TDistribution(null, degreesOfFreedom, 1e-12);
        double x =
                degreesOfFreedom < FEW || p < FAR_TAIL
                        ? law.inverseCumulativeProbability(checked(p))
                        : expanded(normal(p), degreesOfFreedom);
        for (int i = 0; i < NEWTON_STEPS; i++) {
            final double step = (tTail(-x, degreesOfFreedom) - p) / law.density(x);
            x -= step;
            if (!(Math.abs(step) > CONVERGED * Math.abs(x))) {
                break;
            }
        }
        return x;
    }

    /** Quantile of t from that of the normal law, Cornish-Fisher to 1/nu^2: where Newton starts. */
    private static double expanded(double z, double degreesOfFreedom) {
        final double z2 = z * z;
        return z
                * (1
                        + ((z2 + 1) / 4 + ((5 * z2 + 16) * z2 + 3) / (96 * degreesOfFreedom))
                                / degreesOfFreedom);
    }

    /** Density of Student's t; {@code degreesOfFreedom > 0}, may be infinite. */
    public static double tDensity(double x, double degreesOfFreedom) {
        return Double.isInfinite(degreesOfFreedom)
                ? STANDARD.density(x)
                : new TDistribution(null, degreesOfFreedom).density(x);
    }

    /** Factor k of a two-sided t interval with this coverage. */
    public static double coverageFactor(double coverage, double degreesOfFreedom) {
        return t(0.5 + coverage / 2, degreesOfFreedom);
    }

    /** Quantile of chi-square; {@code degreesOfFreedom > 0}, whole or not. */
    public static double chiSquare(double p, double degreesOfFreedom) {
        final ChiSquaredDistribution law =
                new ChiSquaredDistribution(null, degreesOfFreedom, 1e-12);
        // first term of the series of the distribution function: never above the quantile, and
        // all of it where the quantile is smaller than the solver can see
        final double least =
                2
                        * FastMath.exp(
                                (FastMath.log(checked(p))
                                                + Gamma.logGamma(degreesOfFreedom / 2 + 1))
                                        * 2
                                        / degreesOfFreedom);
        return polished(law, Math.max(least, law.inverseCumulativeProbability(p)), p);
    }

    /**
     * Quantile of F: the value that is not exceeded with probability p.
     *
     * @param p between 0 and 1, ends excluded
     */
    public static double f(double p, double numerator, double denominator) {
        double low = -LOG_FAR;
        double high = LOG_FAR;
        for (int i = 0; i < HALVINGS; i++) {
            final double middle = (low + high) / 2;
            if (fTail(FastMath.exp(middle), numerator, denominator) > 1 - p) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return FastMath.exp((low + high) / 2);
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
        if (degreesOfFreedom > MANY) {
            return STANDARD.cumulativeProbability(-deviate(t, degreesOfFreedom));
        }
        return new TDistribution(null, degreesOfFreedom).cumulativeProbability(-t);
    }

    /** The normal deviate with the same tail as t. */
    private static double deviate(double t, double degreesOfFreedom) {
        if (Double.isInfinite(degreesOfFreedom)) {
            return t;
        }
        final double a = degreesOfFreedom - 0.5;
        final double b = 48 * a * a;
        final double w2 = a * FastMath.log1p(t * t / degreesOfFreedom);
        final double second =
                (((4 * w2 + 33) * w2 + 240) * w2 + 855) / (10 * b * (b + 0.8 * w2 * w2 + 100));
        return Math.copySign(Math.sqrt(w2) * (1 + (w2 + 3) / b - second), t);
    }

    private static double checked(double p) {
        if (!(p > 0 && p < 1)) {
            throw new IllegalArgumentException("p = " + p + ", must lie between 0 and 1");
        }
        return p;
    }

    private static double polished(RealDistribution law, double start, double p) {
        double x = start;
        for (int i = 0; i < NEWTON_STEPS; i++) {
            final double density = law.density(x);
            if (!(density > 0)) {
                return x;
            }
            final double step = (law.cumulativeProbability(x) - p) / density;
            if (!(Math.abs(step) > CONVERGED * Math.abs(x))) {
                return x;
            }
            x -= step;
        }
        return x;
    }
}
