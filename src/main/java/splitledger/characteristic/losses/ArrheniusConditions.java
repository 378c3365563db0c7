package splitledger.characteristic.losses;

import java.util.ArrayList;
import java.util.List;
import splitledger.propagation.Uncertain;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.Quantiles;
import splitledger.study.Flag;
import splitledger.study.Place;
import splitledger.study.Trail;

/**
 * Which conditions of a series can stand on an Arrhenius line. A breakdown that is not above 0 has
 * no logarithm; one that lies outside 2 to 60 % with its whole interval says little: the surface is
 * hardly at work, or hardly any parent is left (a rule of thumb without a source).
 */
final class ArrheniusConditions {
    private static final int TEMPERATURES = 5;
    private static final double DEGREES = 80;
    private static final double LEAST = 0.02;
    private static final double MOST = 0.60;
    private static final double ROUNDING = 1e-9;

    private ArrheniusConditions() {}

    /**
     * Those that can, and notes what was left out.
     *
     * @param basis the basis the line is about
     * @param judged the basis on which 2 to 60 % are judged: the one nearest to what decomposes
     * @param coverage of the interval that lies outside
     * @param flags where what is left out is noted
     * @return not computed with fewer than 5 temperatures or over less than 80 degC
     */
    static Outcome<List<LossRows.Group>> of(
            LossRows rows, LossBasis basis, LossBasis judged, double coverage, List<Flag> flags) {
        final List<LossRows.Group> used = new ArrayList<>();
        for (LossRows.Group g : rows.groups()) {
            final String why = unfit(g, basis, judged, coverage);
            if (why.isEmpty()) {
                used.add(g);
            } else if (!Double.isNaN(g.temperature())) {
                flags.add(
                        new Flag(
                                Place.NONE,
                                rows.parent() + " at " + Trail.digits(g.temperature()) + " degC",
                                "left out of the Arrhenius line (" + basis.method() + "): " + why));
            }
        }
        final double[] steps =
                used.stream().mapToDouble(LossRows.Group::temperature).distinct().toArray();
        final double span = steps.length == 0 ? 0 : steps[steps.length - 1] - steps[0];
        if (steps.length < TEMPERATURES || span < DEGREES - ROUNDING) {
            return Outcome.not(
                    Reason.TOO_FEW_SETTINGS,
                    "needs 5 inlet temperatures over 80 degC with a breakdown of 2 to 60 %, found "
                            + steps.length
                            + " over "
                            + Trail.digits(span)
                            + " degC");
        }
        return Outcome.of(used);
    }

    private static String unfit(
            LossRows.Group g, LossBasis basis, LossBasis judged, double coverage) {
        if (Double.isNaN(g.temperature())) {
            return "no inlet temperature";
        }
        if (g.hidden()) {
            return "a product was not found in some injection, and without it the mean is biased";
        }
        final Uncertain x = judged.of(g);
        final double own = basis.of(g).value();
        if (!(Math.min(x.value(), own) > 0 && Math.max(x.value(), own) < 1)) {
            return "a breakdown that is not above 0 gives no rate";
        }
        final double u = Math.sqrt(judged.variance(g));
        final double half =
                u > 0 ? u * Quantiles.coverageFactor(coverage, judged.degreesOfFreedom(g)) : 0;
        if (x.value() + half < LEAST) {
            return "less than 2 % decomposes";
        }
        return x.value() - half > MOST ? "more than 60 % decomposes" : "";
    }
}
