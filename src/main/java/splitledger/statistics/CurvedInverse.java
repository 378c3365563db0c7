package splitledger.statistics;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import splitledger.statistics.Outcome.Reason;

/**
 * Inverse prediction by a quadratic calibration. The amount is the root of a + b x + c x^2 = y0 on
 * the branch where the calibrants lie; the ends of the interval are where {@code |y0 - f(x)| = k
 * sqrt(share s^2(f(x)) + var f(x))}, looked for on that branch only (bisection from the amount
 * outwards to the turning point, and beyond the calibrants as far as the curve goes).
 */
final class CurvedInverse {
    private static final int HALVINGS = 200;
    private static final double FAR = 1e6;

    private CurvedInverse() {}

    static Outcome<AmountPrediction> of(
            ScatterFit fit, AmountPredictor predictor, double response, double share) {
        return of(fit, predictor, response, share, x -> 0, OptionalDouble.empty());
    }

    /** With a variance of the curve on top, and perhaps a given coverage factor. */
    static Outcome<AmountPrediction> of(
            ScatterFit fit,
            AmountPredictor predictor,
            double response,
            double share,
            DoubleUnaryOperator beside,
            OptionalDouble given) {
        final double x0 = root(fit, response);
        if (Double.isNaN(x0)) {
            return Outcome.not(
                    Reason.NO_FINITE_VALUE, "the curve does not reach the response " + response);
        }
        final double b = fit.coefficient(1);
        final double c = fit.coefficient(2);
        final double slope = b + 2 * c * x0;
        final double k = given.isPresent() ? given.getAsDouble() : predictor.factorAt(x0, share);
        final DoubleUnaryOperator excess =
                x -> {
                    final double f = fit.at(x);
                    final double off = f - response;
                    return off * off
                            - k
                                    * k
                                    * (share * fit.law().variance(f)
                                            + fit.meanVariance(x)
                                            + beside.applyAsDouble(x));
                };
        final double turn = c == 0 ? Double.POSITIVE_INFINITY : -b / (2 * c);
        final double reach = FAR * (Math.abs(x0) + fit.largestAmount());
        final Optional<Double> lower = end(excess, x0, Math.max(-reach, turn < x0 ? turn : -reach));
        final Optional<Double> upper = end(excess, x0, Math.min(reach, turn > x0 ? turn : reach));
        if (lower.isEmpty() || upper.isEmpty()) {
            return Outcome.not(
                    Reason.UNBOUNDED_INTERVAL,
                    "the interval reaches the turning point of the curve or has no end");
        }
        return Outcome.of(
                predictor.prediction(
                        x0,
                        slope,
                        fit.meanVariance(x0) + beside.applyAsDouble(x0),
                        share * fit.law().variance(response),
                        k,
                        new FiellerSet(lower.get(), upper.get())));
    }

    /**
     * The root of a + b x + c x^2 = response at which the curve runs as it does in the calibrants'
     * middle; NaN if there is none.
     */
    static double root(ScatterFit fit, double response) {
        final double b = fit.coefficient(1);
        final double c = fit.coefficient(2);
        final double d = fit.coefficient(0) - response;
        final double discriminant = b * b - 4 * c * d;
        if (!(discriminant > 0)) {
            return Double.NaN;
        }
        final double slope = Math.copySign(Math.sqrt(discriminant), b + 2 * c * fit.middleAmount());
        // (slope - b) / (2c) = -2d / (b + slope): the form that adds numbers of one sign
        return b * slope > 0 ? -2 * d / (b + slope) : (slope - b) / (2 * c);
    }

    /** Where the excess turns positive between the amount and a limit. */
    private static Optional<Double> end(DoubleUnaryOperator excess, double from, double limit) {
        double inside = from;
        double step = Math.copySign(1e-6 * (Math.abs(from) + 1e-300), limit - from);
        double outside = from;
        while (!(excess.applyAsDouble(outside) > 0)) {
            if (outside == limit) {
                return Optional.empty();
            }
            inside = outside;
            final double next = from + step;
            outside = step > 0 ? Math.min(next, limit) : Math.max(next, limit);
            step *= 1.5;
        }
        for (int i = 0; i < HALVINGS; i++) {
            final double middle = inside + (outside - inside) / 2;
            if (middle == inside || middle == outside) {
                break;
            }
            if (excess.applyAsDouble(middle) > 0) {
                outside = middle;
            } else {
                inside = middle;
            }
        }
        return Optional.of(outside);
    }
}
