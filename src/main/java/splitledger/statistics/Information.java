package splitledger.statistics;

/**
 * Expected information of the restricted likelihood on (s0^2, s1^2): I_kl = 1/2 tr(P Z_k P Z_l), P
 * = V^-1 - V^-1 X (X' V^-1 X)^-1 X' V^-1, Z_0 = diag(share), Z_1 = diag(share mu^2) (Searle,
 * Casella and McCulloch, Variance Components, 1992, chapter 6, from memory). Its inverse is taken
 * as the covariance of the two estimates; a part that is 0 is known to be 0.
 */
final class Information {
    private final double[][] relativeParts;
    private final double[][] covariance = new double[2][2];

    /** Of a fit whose variances are the absolute ones. */
    Information(WeightedFit fit, ScatterLaw law, double[] means) {
        final int n = means.length;
        relativeParts = new double[2][n];
        for (int i = 0; i < n; i++) {
            final double v = law.variance(means[i]);
            relativeParts[0][i] = 1 / v;
            relativeParts[1][i] = means[i] * means[i] / v;
        }
        final double a = element(fit, 0, 0) / 2;
        final double b = element(fit, 0, 1) / 2;
        final double d = element(fit, 1, 1) / 2;
        switch (law.form()) {
            case CONSTANT -> covariance[0][0] = 1 / a;
            case PROPORTIONAL -> covariance[1][1] = 1 / d;
            default -> {
                final double determinant = a * d - b * b;
                covariance[0][0] = d / determinant;
                covariance[1][1] = a / determinant;
                covariance[0][1] = -b / determinant;
                covariance[1][0] = covariance[0][1];
            }
        }
    }

    private double element(WeightedFit fit, int k, int l) {
        final double[] one = relativeParts[k];
        final double[] other = relativeParts[l];
        double sum = 0;
        for (int i = 0; i < one.length; i++) {
            sum += one[i] * other[i] * (1 - 2 * fit.hat(i, i));
        }
        return sum + product(fit, one, other);
    }

    /** tr(Q' A Q Q' B Q) for diagonal A and B. */
    static double product(WeightedFit fit, double[] a, double[] b) {
        final int p = fit.law().parameters();
        double sum = 0;
        for (int k = 0; k < p; k++) {
            for (int l = 0; l < p; l++) {
                sum += fit.between(k, a, l) * fit.between(k, b, l);
            }
        }
        return sum;
    }

    /** Covariance of the estimates of parts k and l (0 constant, 1 proportional). */
    double covariance(int k, int l) {
        return covariance[k][l];
    }

    /**
     * Degrees of freedom of an estimated variance, 2 v^2 / (g' W g), W the covariance of the parts
     * (F. E. Satterthwaite, Biometrics Bull. 2 (1946) 110; with g as in Giesbrecht and Burns,
     * Biometrics 41 (1985) 477, from memory).
     *
     * @param variance the estimate v
     * @param byConstant its derivative by s0^2
     * @param byProportional its derivative by s1^2
     */
    double degreesOfFreedom(double variance, double byConstant, double byProportional) {
        final double scatter =
                byConstant * byConstant * covariance[0][0]
                        + 2 * byConstant * byProportional * covariance[0][1]
                        + byProportional * byProportional * covariance[1][1];
        // 1, the least there is, where nothing but rounding scatters
        return scatter > 0 && variance > 0 ? 2 * variance * variance / scatter : 1;
    }

    /** Derivative of the variance of a combination of coefficients by part k. */
    double derivative(WeightedFit fit, double[] rotated, int k) {
        double sum = 0;
        for (int i = 0; i < relativeParts[k].length; i++) {
            final double along = fit.along(rotated, i);
            sum += along * along * relativeParts[k][i];
        }
        return sum;
    }
}
