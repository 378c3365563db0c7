package splitledger.statistics;

import splitledger.statistics.Outcome.Computed;
import splitledger.statistics.Outcome.NotComputed;
import splitledger.statistics.Outcome.Reason;

/**
 * The number that must be added to the ratios so that the response goes with 1 / (r + offset): the
 * exponent is held at 1, since both at once cannot be told apart. Least squares on the logarithm;
 * the interval holds every offset whose sum of squares is above the least by no more than t^2 s^2
 * (F cut-offs of the profile; Bates and Watts, Nonlinear Regression Analysis, 1988, from memory).
 *
 * @param value least squares
 * @param standardUncertainty from the curvature at the value
 * @param lower end of the interval
 * @param upper end of the interval
 * @param residualSquares least sum of squares
 * @param degreesOfFreedom set-ups less blocks less 1
 */
public record RatioOffset(
        double value,
        double standardUncertainty,
        double lower,
        double upper,
        double residualSquares,
        double degreesOfFreedom) {
    /** How near to minus the smallest ratio an offset may come, and how far up, in that ratio. */
    private static final double NEAREST = -0.95;

    private static final double FARTHEST = 20;
    private static final int STEPS = 200;
    private static final int HALVINGS = 100;

    /**
     * Fits.
     *
     * @param coverage of the interval
     * @return the offset; {@code TOO_FEW_SET_UPS} without degrees of freedom, {@code
     *     UNBOUNDED_INTERVAL} if the responses leave it open
     */
    public static Outcome<RatioOffset> of(RatioFit fit, double coverage) {
        final Outcome<GeneralLeastSquares> line = fit.line();
        if (line instanceof NotComputed<GeneralLeastSquares> not) {
            return Outcome.not(not.reason(), not.detail());
        }
        final double df = ((Computed<GeneralLeastSquares>) line).value().degreesOfFreedom();
        final double low = NEAREST * fit.least();
        final double high = FARTHEST * fit.least();
        final double best = best(fit, low, high);
        final double least = fit.squaresAt(best);
        final double t = Quantiles.coverageFactor(coverage, df);
        final double limit = least * (1 + t * t / df);
        if (fit.squaresAt(low) < limit || fit.squaresAt(high) < limit) {
            return Outcome.not(
                    Reason.UNBOUNDED_INTERVAL,
                    "the responses leave the offset of the ratio open on one side at least");
        }
        return Outcome.of(
                new RatioOffset(
                        best,
                        fit.atOffset(best).uncertainty(1),
                        end(fit, best, low, limit),
                        end(fit, best, high, limit),
                        least,
                        df));
    }

    private static double best(RatioFit fit, double low, double high) {
        // a grid that is dense near 0, then Gauss-Newton
        double best = 0;
        for (int i = 0; i <= STEPS; i++) {
            final double share = (double) i / STEPS;
            final double at = low + (high - low) * share * share;
            if (fit.squaresAt(at) < fit.squaresAt(best)) {
                best = at;
            }
        }
        for (int i = 0; i < HALVINGS; i++) {
            double step = fit.atOffset(best).coefficients().get(0);
            while (best + step <= low || best + step >= high) {
                step /= 2;
            }
            while (Math.abs(step) > 1e-15 && fit.squaresAt(best + step) > fit.squaresAt(best)) {
                step /= 2;
            }
            if (!(Math.abs(step) > 1e-13 * Math.max(1, Math.abs(best)))) {
                break;
            }
            best += step;
        }
        return best;
    }

    private static double end(RatioFit fit, double inside, double outside, double limit) {
        double in = inside;
        double out = outside;
        for (int i = 0; i < HALVINGS; i++) {
            final double middle = (in + out) / 2;
            if (fit.squaresAt(middle) <= limit) {
                in = middle;
            } else {
                out = middle;
            }
        }
        return in;
    }
}
