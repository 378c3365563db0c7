package splitledger.statistics;

import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.statistics.Outcome.Reason;

/**
 * Does a line describe the level means? F = [SS of level means about the line / (k - 2)] / [SS
 * within levels / (n - k)], all sums weighted as the fit. The points must be independently made
 * preparations: injections of one preparation cannot test linearity (Draper and Smith, Applied
 * Regression Analysis, 3rd ed., chapter 2, from memory).
 *
 * @param f the ratio
 * @param numerator k - 2
 * @param denominator n - k
 * @param p probability of an F at least this large for a true line
 */
public record LackOfFit(double f, double numerator, double denominator, double p) {

    /**
     * Tests.
     *
     * @param line the fit of these points
     * @param x amounts; equal ones are one level
     * @param y responses of preparations
     * @return the test; or {@code ONE_PREPARATION_A_LEVEL}, {@code TOO_FEW_LEVELS} below 3, {@code
     *     NO_SCATTER}
     */
    public static Outcome<LackOfFit> of(LineFit line, double[] x, double[] y) {
        final SortedMap<Double, Moments> levels = new TreeMap<>();
        for (int i = 0; i < x.length; i++) {
            levels.merge(x[i], Moments.of(y[i]), Moments::with);
        }
        final int k = levels.size();
        if (k < 3) {
            return Outcome.not(Reason.TOO_FEW_LEVELS, "lack of fit needs 3 levels, found " + k);
        }
        if (x.length == k) {
            return Outcome.not(
                    Reason.ONE_PREPARATION_A_LEVEL,
                    "one preparation a level: injections cannot test linearity; make 2 or more at some levels");
        }
        double within = 0;
        double about = 0;
        for (Map.Entry<Double, Moments> e : levels.entrySet()) {
            final double w = 1 / line.weighting().variance(e.getKey());
            final Moments m = e.getValue();
            final double r = m.mean() - line.at(e.getKey());
            within += w * m.squares();
            about += w * m.count() * r * r;
        }
        if (!(within > 0)) {
            return Outcome.not(Reason.NO_SCATTER, "the preparations of every level agree exactly");
        }
        final double f = about / (k - 2) / (within / (x.length - k));
        return Outcome.of(
                new LackOfFit(f, k - 2.0, x.length - k, Quantiles.fTail(f, k - 2.0, x.length - k)));
    }
}
