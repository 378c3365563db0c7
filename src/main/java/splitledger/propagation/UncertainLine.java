package splitledger.propagation;

import splitledger.statistics.InversePrediction;
import splitledger.statistics.MeanLaw;
import splitledger.statistics.Outcome;

/**
 * A fitted calibration whose coefficients carry their roots, so that intercept, slope and every
 * amount predicted from them correlate by construction.
 *
 * <p>The scatter of preparations about the fit is one pool: the coefficients take their size from
 * it and so does the response of an unknown. A pure calibration budget has the degrees of freedom
 * of that pool. Where the law of scatter is estimated, how well it is known differs from place to
 * place: {@link #near} gives the same calibration with the degrees of freedom that hold at an
 * amount.
 */
public sealed interface UncertainLine permits WeightedLine, ScatterLine {

    /**
     * An amount with all its parts.
     *
     * @param exact interval by Fieller's argument and first-order parts
     * @param response the mean response with the parts of its scatter
     * @param amount the amount of that response
     */
    record Predicted(InversePrediction exact, Uncertain response, Uncertain amount) {}

    /** Unit of the amounts. */
    String amountUnit();

    /** Unit of the responses. */
    String responseUnit();

    /** How the mean response depends on the amount. */
    MeanLaw law();

    /** Intercept, in the response's unit; exactly 0 for a line through the origin. */
    Uncertain intercept();

    /** Slope, response per amount; of a curve that at amount 0. */
    Uncertain slope();

    /** Response by the fit, without its uncertainty. */
    double mean(double amount);

    /** Change of the response by the fit per amount, at an amount. */
    double slopeAt(double amount);

    /** The response by the fit at an amount, in the response's unit. */
    Uncertain at(double amount);

    /** Variance of the fit at an amount by the scatter of the points alone. */
    double fitVariance(double amount);

    /** Variance of the mean of a preparation, injected as often as calibrants are, at an amount. */
    double scatter(double amount);

    /** Degrees of freedom of {@link #scatter}. */
    double scatterFreedom(double amount);

    /** The amount whose response by the fit this is; NaN if none. */
    double read(double response);

    /**
     * The same with degrees of freedom for a response about the fit at an amount.
     *
     * @param m injections that the response averages
     */
    UncertainLine near(double amount, double m);

    /**
     * The mean of {@code m} injections of one preparation with its scatter.
     *
     * @param response mean response
     * @param amount at which the law of scatter is taken
     * @param m injections averaged, {@code >= 1}
     * @param label unique name of the preparation
     */
    Uncertain response(double response, double amount, double m, String label);

    /** The amount that belongs to a response with its parts, to first order. */
    Uncertain amount(Uncertain response, double amount);

    /**
     * The amount that belongs to a mean response.
     *
     * @param response mean of {@code m} injections of one preparation
     * @param m injections averaged
     * @param label unique name of the preparation
     * @param coverage of the interval
     * @return the amount, or why there is none
     */
    Outcome<Predicted> predict(double response, double m, String label, double coverage);
}
