package splitledger.characteristic.split;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import splitledger.propagation.Uncertain;
import splitledger.statistics.GeneralLeastSquares;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Computed;
import splitledger.statistics.Outcome.NotComputed;
import splitledger.statistics.RatioFit;

/**
 * The response kept at every setting, against the reference: levels of a fit of their own, with the
 * scatter of set-ups, or where every setting was set up once with the scatter about the line.
 *
 * @param setUps of the study
 * @param options with the reference
 * @param of the compounds that count equally
 * @param fit of their set-ups
 * @param line the fitted exponent, or why there is none
 * @param roots causes of the set-ups
 */
record KeptResponses(
        SplitSetUps setUps,
        SplitOptions options,
        List<String> of,
        RatioFit fit,
        Outcome<GeneralLeastSquares> line,
        SplitRoots roots) {

    /** All of them, in order of the settings; the reference itself is exact. */
    List<Kept> all() {
        final List<Double> others =
                setUps.settings().stream().filter(s -> s != options.reference()).toList();
        final double add = setUps.conventionOffset();
        final List<Double> ratios = others.stream().map(s -> s + add).toList();
        final Outcome<GeneralLeastSquares> levels = fit.levels(ratios);
        final List<Kept> all = new ArrayList<>();
        for (double told : setUps.settings()) {
            if (told == options.reference()) {
                all.add(
                        new Kept(
                                told,
                                0,
                                0,
                                Double.POSITIVE_INFINITY,
                                Uncertain.exact(0, "1"),
                                Optional.empty()));
            } else {
                all.add(one(told, others.indexOf(told), ratios, levels));
            }
        }
        return all;
    }

    private Kept one(double told, int k, List<Double> ratios, Outcome<GeneralLeastSquares> levels) {
        if (!(levels instanceof Computed<GeneralLeastSquares> c)) {
            return none(told, (NotComputed<GeneralLeastSquares>) levels);
        }
        final GeneralLeastSquares f = c.value();
        final double log = f.coefficients().get(k);
        final double[] parts = fit.levelParts(ratios, f, k);
        if (f.degreesOfFreedom() > 0) {
            return kept(told, log, f.unscaled().get(k).get(k), f, parts);
        }
        // every setting set up once: scatter about the line, which holds any bend as well
        return line.fold(
                l -> kept(told, log, f.unscaled().get(k).get(k), l, parts), n -> none(told, n));
    }

    /** A level with the scatter of a fit. */
    private Kept kept(
            double told,
            double log,
            double unscaled,
            GeneralLeastSquares scatter,
            double... parts) {
        final double freedom = scatter.degreesOfFreedom();
        return new Kept(
                told,
                log,
                Math.sqrt(Math.max(0, scatter.scale() * unscaled)),
                freedom,
                roots.of(log, of, scatter.scale(), freedom, parts),
                Optional.empty());
    }

    private static Kept none(double told, NotComputed<GeneralLeastSquares> why) {
        return new Kept(
                told,
                Double.NaN,
                Double.NaN,
                Double.NaN,
                Uncertain.exact(0, "1"),
                Optional.of(why));
    }
}
