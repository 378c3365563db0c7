package splitledger.statistics;

import org.apache.commons.math3.util.FastMath;

/**
 * P(-t to t) of Student's t for whole degrees of freedom by the finite series in cos(theta), theta
 * = atan(t/sqrt(nu)) (Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.3 and 26.7.4,
 * from memory). Many times quicker than the incomplete beta function; good to about 1e-14 absolute.
 */
final class StudentContent {
    /** The series has nu/2 terms; beyond this the general function is as quick. */
    private static final int MOST = 200;

    private final int freedom;

    StudentContent(int freedom) {
        this.freedom = freedom;
    }

    /** The probability with the sign of t. */
    double between(double t) {
        if (freedom > MOST) {
            return Math.copySign(1 - Quantiles.tTwoSidedTail(t, freedom), t);
        }
        final double cos2 = freedom / (freedom + t * t);
        final double sin = t / Math.sqrt(freedom + t * t);
        double term = 1;
        double sum = 0;
        if (freedom % 2 == 0) {
            for (int k = 0; k < freedom; k += 2) {
                sum += term;
                term *= cos2 * (k + 1) / (k + 2);
            }
            return sin * sum;
        }
        for (int k = 1; k < freedom; k += 2) {
            sum += term;
            term *= cos2 * (k + 1) / (k + 2);
        }
        return 2 / Math.PI * (FastMath.atan(t / Math.sqrt(freedom)) + sin * Math.sqrt(cos2) * sum);
    }
}
