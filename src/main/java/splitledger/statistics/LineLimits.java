package splitledger.statistics;

import java.util.function.DoubleUnaryOperator;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.ScatterLaw.Form;

/**
 * Limits of detection and quantification from a calibration line and its law of scatter, all in
 * amount units. V(x) = share s^2(a + b x) + variance of the line is the variance of a response at x
 * about the line, sd0 = sqrt(V(0)), nu its degrees of freedom. A share is the variance of the
 * sample's mean response relative to the law.
 *
 * <ul>
 *   <li>ISO 11843-2 (from memory): critical value t(1-alpha, nu) sd0 / b; minimum detectable value
 *       by its definition, the amount that is missed with probability beta; with the same scatter
 *       everywhere delta(nu, alpha, beta) sd0' / b, with sd0' of the line at 0
 *   <li>Hubaux and Vos, Anal. Chem. 42 (1970) 849 (from memory): where the lower prediction limit
 *       meets the critical response
 *   <li>DIN 32645 (from memory), constant scatter only: detection limit twice the critical value;
 *       quantification limit where k times the two-sided half-width is the amount
 *   <li>ICH Q2 (from memory): 3.3 and 10 times sigma / b
 * </ul>
 */
public final class LineLimits {
    /** Two-sided coverage whose upper end leaves 5 % above. */
    private static final double ONE_SIDED = 0.90;

    private static final double FAR = 1e9;
    private static final double CLOSE = 1e-14;

    private final ScatterFit fit;
    private final double share;
    private final double slope;
    private final double sdAtZero;
    private final double freedom;

    private LineLimits(ScatterFit fit, double share, double freedom) {
        this.fit = fit;
        this.share = share;
        this.slope = Math.abs(fit.coefficient(1));
        this.sdAtZero = Math.sqrt(variance(0));
        this.freedom = freedom;
    }

    /**
     * Limits of a line whose law of scatter was found from the data: nu is so small that t(0.95,
     * nu) is the coverage factor of {@link AmountPredictor} for a blank, which also averages over
     * laws of scatter. With Satterthwaite's alone, blanks were above the critical value at alpha =
     * 5 % in 4.9 to 7.6 % of 2,000 simulated studies (lines of 6 levels x 3, 5 x 2, 8 x 1 from 0.5
     * to 20; s0 0.05 without, 0.095 and 0.015 with s1 3 %), with this in 2.2 to 6.5 % (6 x 3: 4.5
     * to 4.9 %).
     *
     * @param share variance of a sample's mean response relative to the law, above 0
     * @param coverage at which the slope must differ from 0
     * @return as {@link #of}
     */
    public static Outcome<LineLimits> averaged(ScatterFit fit, double share, double coverage) {
        return of(fit, share, coverage)
                .fold(
                        own -> {
                            final AmountPredictor predictor = AmountPredictor.of(fit, ONE_SIDED);
                            final double nu = predictor.freedomFor(predictor.factorAt(0, share));
                            return Outcome.of(new LineLimits(fit, share, nu));
                        },
                        not -> Outcome.not(not.reason(), not.detail()));
    }

    /**
     * Limits of a line with Satterthwaite's degrees of freedom for V(0): n - 2 for a given law.
     *
     * @param share variance of a sample's mean response relative to the law, above 0
     * @param coverage at which the slope must differ from 0
     * @return the limits; {@code NOT_DEFINED} for another curve, {@code SLOPE_NOT_SIGNIFICANT}
     */
    public static Outcome<LineLimits> of(ScatterFit fit, double share, double coverage) {
        if (fit.mean() != MeanLaw.LINE) {
            return Outcome.not(Reason.NOT_DEFINED, "these limits are defined for a line only");
        }
        final double t = Quantiles.coverageFactor(coverage, Math.max(1, fit.coefficientFreedom(1)));
        final double ratio = Math.abs(fit.coefficient(1)) / Math.sqrt(fit.covariance(1, 1));
        if (!(ratio > t)) {
            return Outcome.not(
                    Reason.SLOPE_NOT_SIGNIFICANT,
                    "the slope is not told from 0 (|t| = "
                            + (float) ratio
                            + ", needs "
                            + (float) t
                            + ")");
        }
        return Outcome.of(
                new LineLimits(fit, share, fit.freedomOf(fit.mean().terms(0), share, fit.at(0))));
    }

    private double variance(double x) {
        return share * fit.law().variance(fit.at(x)) + fit.meanVariance(x);
    }

    /** Variance of a response at x about the intercept: the slope's error is not in it. */
    private double netVariance(double x) {
        return share * fit.law().variance(fit.at(x)) + fit.covariance(0, 0);
    }

    private Limit limit(double value) {
        return limit(value, freedom);
    }

    private Limit limit(double value, double nu) {
        final double relative = Math.sqrt(fit.covariance(1, 1)) / slope;
        return new Limit(value, nu, 1 / (1 / nu + 2 * relative * relative));
    }

    /** Degrees of freedom nu of V(0). */
    public double freedom() {
        return freedom;
    }

    /** Critical value at false-positive risk alpha. */
    public Limit criticalValue(double alpha) {
        return limit(Quantiles.t(1 - alpha, freedom) * sdAtZero / slope);
    }

    /** Twice the critical value (DIN 32645 for alpha = beta; the short form of ISO 11843-2). */
    public Limit twiceCritical(double alpha) {
        return criticalValue(alpha).times(2);
    }

    /**
     * Minimum detectable value: the net response is normal about b x with variance share s^2(a + b
     * x) + V_a, the critical value scatters as its standard deviation does, so the response over it
     * is noncentral t: {@code P(T(nu, b x / sd(x)) <= t sd(0)/sd(x)) = beta}.
     *
     * @return the amount; {@code UNBOUNDED_INTERVAL} if proportional scatter is so large that no
     *     amount is missed so seldom
     */
    public Outcome<Limit> detectable(double alpha, double beta) {
        final double t = Quantiles.t(1 - alpha, freedom);
        final DoubleUnaryOperator missed =
                x -> {
                    final double sd = Math.sqrt(netVariance(x));
                    return NoncentralT.cumulative(
                                    t * sdAtZero / sd, freedom, slope * Math.abs(x) / sd)
                            - beta;
                };
        return crossing(missed, t * sdAtZero / slope);
    }

    /** Where a lower prediction limit meets the critical response; see the class. */
    public Outcome<Limit> hubauxVos(double alpha, double beta) {
        final double critical = Quantiles.t(1 - alpha, freedom) * sdAtZero;
        final DoubleUnaryOperator above =
                x -> {
                    final double nu =
                            Math.max(1, fit.freedomOf(fit.mean().terms(x), share, fit.at(x)));
                    return critical
                            + Quantiles.t(1 - beta, nu) * Math.sqrt(variance(x))
                            - slope * x;
                };
        return crossing(above, critical / slope);
    }

    /**
     * Quantification limit of DIN 32645: {@code x = k t(1 - risk/2, n - 2) sqrt(V(x)) / b}, solved
     * for x in closed form (a quadratic equation).
     *
     * @param k reciprocal of the relative half-width, usually 3
     * @param risk of the two-sided half-width
     */
    public Outcome<Limit> dinQuantification(double k, double risk) {
        if (fit.law().form() != Form.CONSTANT) {
            return Outcome.not(
                    Reason.NOT_DEFINED, "DIN 32645 knows the same scatter at every level only");
        }
        final double c = k * Quantiles.t(1 - risk / 2, freedom) / slope;
        final double c2 = c * c;
        final double quadratic = 1 - c2 * fit.covariance(1, 1);
        if (!(quadratic > 0)) {
            return Outcome.not(
                    Reason.UNBOUNDED_INTERVAL, "no amount has so small a relative half-width");
        }
        // x^2 = c^2 [V(0) + 2 x C_ab + x^2 V_b]
        final double half = c2 * fit.covariance(0, 1);
        final double root = Math.sqrt(half * half + quadratic * c2 * sdAtZero * sdAtZero);
        final double value =
                half > 0 ? (half + root) / quadratic : c2 * sdAtZero * sdAtZero / (root - half);
        return Outcome.of(limit(value));
    }

    /**
     * Factor times the scatter of single responses at the amount, over the slope (ICH Q2, residual
     * standard deviation).
     *
     * @param amount where the scatter is taken: 0, or the lowest level
     */
    public Limit byScatter(double factor, double amount) {
        final VarianceEstimate v = fit.scatter(amount);
        return limit(factor * v.sd() / slope, v.degreesOfFreedom());
    }

    /** Factor times the standard deviation of the intercept, over the slope (ICH Q2). */
    public Limit byIntercept(double factor) {
        return limit(factor * Math.sqrt(fit.covariance(0, 0)) / slope, fit.coefficientFreedom(0));
    }

    /** Where a falling function reaches 0. */
    private Outcome<Limit> crossing(DoubleUnaryOperator falling, double begin) {
        double low = 0;
        double high = begin;
        while (falling.applyAsDouble(high) > 0) {
            low = high;
            high *= 2;
            if (high > FAR * begin) {
                return Outcome.not(
                        Reason.UNBOUNDED_INTERVAL,
                        "responses scatter so much that no amount is surely seen");
            }
        }
        return Outcome.of(limit(BracketedRoot.of(falling, low, high, CLOSE * high)));
    }
}
