package splitledger.statistics;

import java.util.List;

/**
 * Whether several estimates can all have the same mean. Each has a normal error; their covariance
 * matrix is the sum of parts, each in proportion to a variance of its own that is estimated with
 * its own degrees of freedom. The weighted sum of squares about the common mean is compared with F
 * as in S. Johansen, Biometrika 67 (1980) 85 (from memory): with A = sum of [tr((P V_i)^2) + tr(P
 * V_i)^2] / (2 nu_i) over the parts, where P is the inverse of the covariance matrix less its part
 * along the common mean, and f = K - 1,
 *
 * <p>F = Q / (f + 2 A - 6 A / (f + 2)), with f and f (f + 2) / (3 A) degrees of freedom.
 *
 * <p>For independent means of groups this is the analysis of variance of B. L. Welch, Biometrika 38
 * (1951) 330 (from memory), which takes no equal variances for granted.
 *
 * @param statistic F
 * @param numerator degrees of freedom, K - 1
 * @param denominator degrees of freedom; infinite if every part is known
 * @param p probability of so large an F if the means are equal
 */
public record EqualMeans(double statistic, double numerator, double denominator, double p) {

    /** One part of the covariance matrix. */
    public static final class Part {
        private final double[][] covariance;
        private final double degreesOfFreedom;

        /**
         * One part.
         *
         * @param covariance symmetric, a row an estimate; copied
         * @param degreesOfFreedom of its variance, above 0, may be infinite
         */
        public Part(double[][] covariance, double degreesOfFreedom) {
            Checks.positive("degreesOfFreedom", degreesOfFreedom);
            this.covariance = copy(covariance);
            this.degreesOfFreedom = degreesOfFreedom;
        }
    }

    /**
     * Tests.
     *
     * @param values the estimates
     * @param parts of their covariance matrix, each as large as {@code values}
     * @return the test; {@code TOO_FEW_LEVELS} below 2 estimates, {@code NO_SCATTER} if the
     *     covariance matrix is singular
     */
    public static Outcome<EqualMeans> of(double[] values, List<Part> parts) {
        final int n = values.length;
        Checks.allFinite("values", values);
        if (n < 2) {
            return Outcome.not(
                    Outcome.Reason.TOO_FEW_LEVELS, "needs 2 levels to compare, found " + n);
        }
        final double[][] v = new double[n][n];
        for (Part part : parts) {
            Checks.sameLength("covariance", n, part.covariance.length);
            for (int i = 0; i < n; i++) {
                Matrices.addTo(v[i], 1, part.covariance[i]);
            }
        }
        final double[][] factor = copy(v);
        if (Double.isNaN(Matrices.cholesky(factor))) {
            return Outcome.not(
                    Outcome.Reason.NO_SCATTER,
                    "what scatters at the levels leaves nothing to compare them by");
        }
        final double[][] p = aboutTheMean(Matrices.inverse(factor));
        final double q = Matrices.dot(values, Matrices.times(p, values));
        double a = 0;
        for (Part part : parts) {
            final double[][] product = product(p, part.covariance);
            a +=
                    (trace(product(product, product)) + square(trace(product)))
                            / 2
                            / part.degreesOfFreedom;
        }
        final double f = n - 1;
        final double statistic = Math.max(0, q) / (f + 2 * a - 6 * a / (f + 2));
        final double denominator = a > 0 ? f * (f + 2) / (3 * a) : Double.POSITIVE_INFINITY;
        return Outcome.of(
                new EqualMeans(
                        statistic,
                        f,
                        denominator,
                        Quantiles.fTail(statistic, f, limited(denominator))));
    }

    /** Beyond this many degrees of freedom F is that of a known variance. */
    private static double limited(double degreesOfFreedom) {
        return Math.min(1e9, degreesOfFreedom);
    }

    /** W - W 1 1' W / (1' W 1). */
    private static double[][] aboutTheMean(double[][] w) {
        final int n = w.length;
        final double[] sums = new double[n];
        double all = 0;
        for (int i = 0; i < n; i++) {
            for (double one : w[i]) {
                sums[i] += one;
            }
            all += sums[i];
        }
        final double[][] p = copy(w);
        for (int i = 0; i < n; i++) {
            Matrices.addTo(p[i], -sums[i] / all, sums);
        }
        return p;
    }

    private static double[][] product(double[][] a, double[][] b) {
        final int n = a.length;
        final double[][] c = new double[n][n];
        for (int i = 0; i < n; i++) {
            for (int k = 0; k < n; k++) {
                Matrices.addTo(c[i], a[i][k], b[k]);
            }
        }
        return c;
    }

    private static double trace(double[][] a) {
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            sum += a[i][i];
        }
        return sum;
    }

    private static double square(double x) {
        return x * x;
    }

    private static double[][] copy(double[][] a) {
        final double[][] b = new double[a.length][];
        for (int i = 0; i < a.length; i++) {
            b[i] = a[i].clone();
        }
        return b;
    }
}
