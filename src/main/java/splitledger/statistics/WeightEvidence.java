package splitledger.statistics;

import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import org.apache.commons.math3.util.FastMath;

/**
 * Which of two variance laws the preparations speak for: likelihood of the scatter within levels
 * (restricted likelihood of the level means model), {@code -1/2 [sum nu_i ln v(x_i) + nu ln(sum
 * SS_i/v(x_i) / nu)]} up to a constant. Both laws have one parameter, so the larger likelihood
 * wins. Without repeated levels the restricted likelihood of the line's own residuals is used,
 * {@code -1/2 [(n-2) ln s^2 + sum ln v(x_i) + ln(sum(w) Sxx)]}.
 *
 * @param logLikelihoodNone of the same scatter at all levels
 * @param logLikelihoodInverseSquare of scatter proportional to the amount
 * @param degreesOfFreedom what the evidence rests on
 * @param fromPreparations whether it comes from repeated preparations (else from residuals)
 */
public record WeightEvidence(
        double logLikelihoodNone,
        double logLikelihoodInverseSquare,
        double degreesOfFreedom,
        boolean fromPreparations) {

    /**
     * Weighs the evidence.
     *
     * @param x amounts, all above 0
     * @param y responses of preparations
     * @return the evidence; {@code NO_SCATTER} if nothing scatters, {@code TOO_FEW_POINTS} without
     *     2 degrees of freedom
     */
    public static Outcome<WeightEvidence> of(double[] x, double[] y) {
        final SortedMap<Double, Moments> levels = new TreeMap<>();
        for (int i = 0; i < x.length; i++) {
            levels.merge(x[i], Moments.of(y[i]), Moments::with);
        }
        final double df = x.length - levels.size();
        if (df >= 2) {
            final double none = within(levels, df, Weighting.NONE);
            final double square = within(levels, df, Weighting.INVERSE_SQUARE);
            if (Double.isInfinite(none)) {
                return Outcome.not(
                        Outcome.Reason.NO_SCATTER, "the preparations of every level agree exactly");
            }
            return Outcome.of(new WeightEvidence(none, square, df, true));
        }
        if (x.length < 4) {
            return Outcome.not(
                    Outcome.Reason.TOO_FEW_POINTS,
                    "too few preparations to tell how scatter grows");
        }
        final double none = residual(x, y, Weighting.NONE);
        final double square = residual(x, y, Weighting.INVERSE_SQUARE);
        if (Double.isInfinite(none) || Double.isNaN(none) || Double.isNaN(square)) {
            return Outcome.not(Outcome.Reason.NO_SCATTER, "the points lie exactly on a line");
        }
        return Outcome.of(new WeightEvidence(none, square, x.length - 2.0, false));
    }

    /** The law that the evidence favours; unweighted on a tie. */
    public Weighting favoured() {
        return logLikelihoodInverseSquare > logLikelihoodNone
                ? Weighting.INVERSE_SQUARE
                : Weighting.NONE;
    }

    /** How many times likelier the favoured law makes the scatter. */
    public double ratio() {
        return FastMath.exp(Math.abs(logLikelihoodInverseSquare - logLikelihoodNone));
    }

    private static double within(SortedMap<Double, Moments> levels, double df, Weighting law) {
        double logs = 0;
        double squares = 0;
        for (Map.Entry<Double, Moments> e : levels.entrySet()) {
            final double v = law.variance(e.getKey());
            logs += (e.getValue().count() - 1) * FastMath.log(v);
            squares += e.getValue().squares() / v;
        }
        return -0.5 * (logs + df * FastMath.log(squares / df));
    }

    private static double residual(double[] x, double[] y, Weighting law) {
        return LineFitter.withDefaults()
                .withWeighting(law)
                .fit(x, y)
                .fold(line -> restricted(line, x, law), not -> Double.NaN);
    }

    private static double restricted(LineFit line, double[] x, Weighting law) {
        double logs = 0;
        for (double v : x) {
            logs += FastMath.log(law.variance(v));
        }
        final double nu = line.degreesOfFreedom();
        return -0.5
                * (nu * FastMath.log(line.residualSquares() / nu)
                        + logs
                        + FastMath.log(line.sumOfWeights() * line.sxx()));
    }
}
