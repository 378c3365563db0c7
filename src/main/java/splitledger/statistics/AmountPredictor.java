package splitledger.statistics;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.util.FastMath;
import splitledger.statistics.InversePrediction.Beside;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.ScatterLaw.Form;

/**
 * Amounts from responses by a fit with two-component scatter. The coverage factor is the larger of
 * two: Student's with Satterthwaite's degrees of freedom at the estimated scatter, and the one that
 * an average over laws of scatter asks for ({@link ScatterAverage}). Each fails where the other
 * holds; numbers in {@link ScatterFit}. Immutable.
 */
public final class AmountPredictor {
    private static final double FEWEST = 1;
    private static final double MOST_FREE = 1e6;
    private static final double LEAST = 0.2;
    private static final double MOST = 1e7;
    private static final double NEAREST = 1e-11;

    private final ScatterFit fit;
    private final double coverage;
    private final Optional<ScatterAverage> average;

    private AmountPredictor(ScatterFit fit, double coverage, Optional<ScatterAverage> average) {
        this.fit = fit;
        this.coverage = coverage;
        this.average = average;
    }

    /**
     * For a fit whose law of scatter was found from the data.
     *
     * @param coverage between 0 and 1
     */
    public static AmountPredictor of(ScatterFit fit, double coverage) {
        return new AmountPredictor(fit, coverage, Optional.of(new ScatterAverage(fit)));
    }

    /** For a fit whose law of scatter was given: t with n - p degrees of freedom. */
    public static AmountPredictor withGivenLaw(ScatterFit fit, double coverage) {
        if (fit.law().form() == Form.BOTH) {
            throw new IllegalArgumentException("a law with both parts is estimated, not given");
        }
        return new AmountPredictor(fit, coverage, Optional.empty());
    }

    /** Coverage factor for coefficient k. */
    public double coefficientFactor(int k) {
        final double[] unit = new double[fit.mean().parameters()];
        unit[k] = 1;
        return factor(unit, fit.coefficient(k), 0);
    }

    /** Coverage factor for a new response at x about the fitted mean; share 0: the mean alone. */
    public double factorAt(double x, double share) {
        return factor(fit.mean().terms(x), fit.at(x), share);
    }

    private double factor(double[] combination, double centre, double share) {
        final double freedom = Math.max(FEWEST, fit.freedomOf(combination, share, centre));
        final double t = Quantiles.coverageFactor(coverage, freedom);
        if (average.isEmpty()) {
            return t;
        }
        final double sd =
                Math.sqrt(
                        fit.weighted().variance(combination) + share * fit.law().variance(centre));
        if (!(sd > 0)) {
            // no scatter at all at this place: no factor widens it
            return t;
        }
        final double wide =
                average.get().halfWidth(centre, combination, share, coverage, t * sd) / sd;
        return Math.max(t, wide);
    }

    /** Degrees of freedom for which t has this coverage factor; infinite at the normal one. */
    public double freedomFor(double factor) {
        final double tail = (1 - coverage) / 2;
        if (!(Quantiles.tTail(factor, MOST) < tail)) {
            return Double.POSITIVE_INFINITY;
        }
        if (Quantiles.tTail(factor, LEAST) <= tail) {
            return LEAST;
        }
        return FastMath.exp(
                BracketedRoot.of(
                        logNu -> Quantiles.tTail(factor, FastMath.exp(logNu)) - tail,
                        FastMath.log(LEAST),
                        FastMath.log(MOST),
                        NEAREST));
    }

    /**
     * Interval of the standard deviation of responses at an amount: from the lower to the upper end
     * of two, the chi-square interval with Satterthwaite's degrees of freedom and the average over
     * laws of scatter.
     *
     * @return lower and upper end, in the response unit
     */
    public SdInterval sdInterval(double x) {
        final VarianceEstimate v = fit.scatter(x);
        // a variance of 0 scatters with nothing that degrees of freedom could tell
        final VarianceEstimate own =
                new VarianceEstimate(
                        v.variance(),
                        v.degreesOfFreedom() > FEWEST
                                ? Math.min(MOST_FREE, v.degreesOfFreedom())
                                : FEWEST);
        final double lower = own.sdLower(coverage);
        final double upper = own.sdUpper(coverage);
        final double tail = (1 - coverage) / 2;
        final double mean = fit.at(x);
        return average.map(
                        a ->
                                new SdInterval(
                                        Math.min(lower, Math.sqrt(a.varianceQuantile(mean, tail))),
                                        Math.max(
                                                upper,
                                                Math.sqrt(a.varianceQuantile(mean, 1 - tail)))))
                .orElseGet(() -> new SdInterval(lower, upper));
    }

    /**
     * Ends of an interval of a standard deviation.
     *
     * @param lower in the response unit
     * @param upper likewise
     */
    public record SdInterval(double lower, double upper) {}

    /**
     * The amount of a sample.
     *
     * @param response its mean response
     * @param share variance of that mean relative to the law, {@code >= 0}
     * @return the amount; {@code NO_FINITE_VALUE} for a slope of 0 or a response that the curve
     *     does not reach, {@code UNBOUNDED_INTERVAL} if the set is no interval
     */
    public Outcome<AmountPrediction> amount(double response, double share) {
        return fit.mean() == MeanLaw.QUADRATIC
                ? CurvedInverse.of(fit, this, response, share)
                : byLine(response, share, Beside.NOTHING, OptionalDouble.empty());
    }

    /**
     * The amount of a sample by a line that errors of the calibrants' amounts move too.
     *
     * @param response its mean response
     * @param share variance of that mean relative to the law, {@code >= 0}
     * @param beside what they add to the line's variances
     * @param factor coverage factor of all together
     * @return as {@link #amount(double, double)}; {@code NOT_DEFINED} for a curve
     */
    public Outcome<AmountPrediction> amount(
            double response, double share, Beside beside, double factor) {
        return fit.mean() == MeanLaw.QUADRATIC
                ? Outcome.not(Reason.NOT_DEFINED, "needs a line")
                : byLine(response, share, beside, OptionalDouble.of(factor));
    }

    /**
     * The amount of a sample by a curve that errors of the calibrants' amounts move too.
     *
     * @param beside what they add to the variance of the curve at an amount
     * @param factor coverage factor of all together
     * @return as {@link #amount(double, double)}; {@code NOT_DEFINED} for a line
     */
    public Outcome<AmountPrediction> amount(
            double response, double share, DoubleUnaryOperator beside, double factor) {
        return fit.mean() == MeanLaw.QUADRATIC
                ? CurvedInverse.of(fit, this, response, share, beside, OptionalDouble.of(factor))
                : Outcome.not(Reason.NOT_DEFINED, "needs a curve");
    }

    /**
     * Amount by standard additions: minus the x at which the line meets 0, {@code a/b}. Only the
     * line scatters, the 0 does not; x are the amounts added.
     */
    public Outcome<AmountPrediction> byAddition() {
        return byAddition(Beside.NOTHING, OptionalDouble.empty());
    }

    /**
     * Amount by standard additions where errors of the amounts added move the line too.
     *
     * @param beside what they add to the line's variances
     * @param factor coverage factor of all together
     */
    public Outcome<AmountPrediction> byAddition(Beside beside, double factor) {
        return byAddition(beside, OptionalDouble.of(factor));
    }

    private Outcome<AmountPrediction> byAddition(Beside beside, OptionalDouble factor) {
        if (fit.mean() != MeanLaw.LINE) {
            return Outcome.not(Reason.NOT_DEFINED, "standard addition needs a line");
        }
        return byLine(0, 0, beside, factor)
                .fold(
                        p ->
                                Outcome.of(
                                        new AmountPrediction(
                                                -p.amount(),
                                                p.standardUncertainty(),
                                                p.lineUncertainty(),
                                                p.responseUncertainty(),
                                                p.degreesOfFreedom(),
                                                p.factor(),
                                                -p.upper(),
                                                -p.lower())),
                        not -> Outcome.not(not.reason(), not.detail()));
    }

    private Outcome<AmountPrediction> byLine(
            double response, double share, Beside beside, OptionalDouble given) {
        final boolean origin = fit.mean() == MeanLaw.THROUGH_ORIGIN;
        final int last = origin ? 0 : 1;
        final double slope = fit.coefficient(last);
        if (slope == 0) {
            return Outcome.not(Reason.NO_FINITE_VALUE, "the slope is 0");
        }
        final double x0 = (response - (origin ? 0 : fit.coefficient(0))) / slope;
        final double slopeVariance = fit.covariance(last, last) + beside.slope();
        final double covariance =
                (origin ? 0 : fit.covariance(0, 1)) + beside.covariance() + x0 * slopeVariance;
        final double k = given.isPresent() ? given.getAsDouble() : factorAt(x0, share);
        final double lineVariance = fit.meanVariance(x0) + beside.variance(x0);
        final double scatter = share * fit.law().variance(response);
        return FiellerSet.of(
                        x0,
                        response,
                        slope,
                        lineVariance,
                        covariance,
                        slopeVariance,
                        fit.law(),
                        share,
                        k)
                .fold(
                        set -> Outcome.of(prediction(x0, slope, lineVariance, scatter, k, set)),
                        not -> Outcome.not(not.reason(), not.detail()));
    }

    /** Puts a prediction together; the slope is that at x0. */
    AmountPrediction prediction(
            double x0,
            double slope,
            double lineVariance,
            double scatter,
            double factor,
            FiellerSet set) {
        final double b = Math.abs(slope);
        return new AmountPrediction(
                x0,
                Math.sqrt(lineVariance + scatter) / b,
                Math.sqrt(lineVariance) / b,
                Math.sqrt(scatter) / b,
                freedomFor(factor),
                factor,
                set.lower(),
                set.upper());
    }
}
