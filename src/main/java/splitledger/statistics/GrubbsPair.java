package splitledger.statistics;

import org.apache.commons.math3.special.Gamma;
import org.apache.commons.math3.util.FastMath;

/**
 * Exact law of the ratio of sums of squares without and with the two largest of n normal values.
 *
 * <p>Write u = sin(a) for the distance of the last of m values from the mean of the others, scaled
 * so that the sum of squares without it is (1 - u^2) times the one with it. The density of a is
 * proportional to cos(a)^(m-3), independent of the shape of the others. With F_m(g) the
 * distribution of (largest - mean)/sqrt(SS) of m values, which reaches g = u sqrt((m-1)/m):
 *
 * <p>F_m(g) = m integral of density(a) F_{m-1}(tan(a) sqrt(m/(m-1))) da up to that a,
 *
 * <p>P(ratio &gt; r) = n integral of density(a) F_{n-1}(min(tan(a) sqrt(n/(n-1)), sqrt((n-2)/(n-1))
 * sqrt(1 - r/cos(a)^2))) da over cos(a)^2 &gt; r. (The recursion of Grubbs, Ann. Math. Stat. 21
 * (1950) 27, in our own notation.) It starts from F_3, which is linear in a, (a - pi/6) 3/pi.
 * Integrals are trapezoids over {@value #POINTS} steps, each law scaled to end at 1.
 */
final class GrubbsPair {
    private static final int POINTS = 2400;
    private static final double QUARTER = FastMath.PI / 2;

    private GrubbsPair() {}

    /** Probability that the ratio is at most r. */
    static double probability(double r, int n) {
        if (r <= 0) {
            return 0;
        }
        double[] law = ofThree();
        for (int m = 4; m < n; m++) {
            law = next(law, m);
        }
        final double end = FastMath.acos(Math.sqrt(Math.min(1, r)));
        final double constant = n * constant(n);
        final double ratio = Math.sqrt((n - 2.0) / (n - 1));
        double sum = 0;
        for (int i = 0; i <= POINTS; i++) {
            final double a = end * i / POINTS;
            final double cos = FastMath.cos(a);
            final double bound =
                    Math.min(
                            FastMath.tan(a) * Math.sqrt(n / (n - 1.0)),
                            ratio * Math.sqrt(Math.max(0, 1 - r / (cos * cos))));
            final double value = FastMath.pow(cos, n - 3) * at(law, n - 1, bound);
            sum += i == 0 || i == POINTS ? value / 2 : value;
        }
        return Math.max(0, Math.min(1, 1 - constant * sum * end / POINTS));
    }

    /** Density of a is this times cos(a)^(m-3). */
    private static double constant(int m) {
        return FastMath.exp(Gamma.logGamma((m - 1) / 2.0) - Gamma.logGamma((m - 2) / 2.0))
                / Math.sqrt(FastMath.PI);
    }

    private static double[] ofThree() {
        final double[] law = new double[POINTS + 1];
        for (int i = POINTS / 3; i <= POINTS; i++) {
            law[i] = (i - POINTS / 3) / (POINTS * 2.0 / 3);
        }
        return law;
    }

    /** Distribution over the angle whose sine is g sqrt(m/(m-1)). */
    private static double[] next(double[] before, int m) {
        final double[] law = new double[POINTS + 1];
        final double stretch = Math.sqrt(m / (m - 1.0));
        double last = 0;
        for (int i = 1; i <= POINTS; i++) {
            final double a = QUARTER * i / POINTS;
            final double value =
                    i == POINTS
                            ? 0
                            : FastMath.pow(FastMath.cos(a), m - 3)
                                    * at(before, m - 1, FastMath.tan(a) * stretch);
            law[i] = law[i - 1] + (last + value) / 2;
            last = value;
        }
        final double end = law[POINTS];
        for (int i = 0; i <= POINTS; i++) {
            law[i] /= end;
        }
        return law;
    }

    private static double at(double[] law, int m, double g) {
        final double sine = g * Math.sqrt(m / (m - 1.0));
        if (!(sine < 1)) {
            return 1;
        }
        final double place = FastMath.asin(Math.max(0, sine)) / QUARTER * POINTS;
        final int i = (int) place;
        return law[i] + (place - i) * (law[Math.min(POINTS, i + 1)] - law[i]);
    }
}
