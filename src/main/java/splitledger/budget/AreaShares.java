package splitledger.budget;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import splitledger.budget.Sources.Source;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.statistics.Moments;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.study.InjectionTable;
import splitledger.study.Key;
import splitledger.study.Rows;
import splitledger.study.State;
import splitledger.study.Study;
import splitledger.study.Trail;

/**
 * Area normalisation: 100 times a compound's area over the sum of all peaks of the study's
 * compounds, internal standard apart, in each injection; the mean of a preparation's injections.
 */
final class AreaShares {
    private static final String NOTE =
            "share of the areas of the peaks that are compounds of the study: what never reached the column, or gives no"
                    + " peak, is missing from the sum";

    private AreaShares() {}

    static List<Source> of(Study study, String compound, Rows rows) {
        final InjectionTable table = study.table();
        final Map<String, Double> sums = sums(study);
        final Map<Key, List<Integer>> byPreparation = new LinkedHashMap<>();
        rows.stream()
                .filter(row -> table.compound(row).equals(compound))
                .forEach(
                        row ->
                                byPreparation
                                        .computeIfAbsent(
                                                Sources.label(study, row), k -> new ArrayList<>())
                                        .add(row));
        final List<Source> all = new ArrayList<>();
        byPreparation.forEach(
                (key, own) -> {
                    final double[] shares =
                            own.stream()
                                    .filter(row -> table.state(row) == State.MEASURED)
                                    .mapToDouble(
                                            row ->
                                                    100
                                                            * table.area(row)
                                                            / sums.getOrDefault(
                                                                    table.injection(row), 0.0))
                                    .filter(v -> !Double.isNaN(v) && !Double.isInfinite(v))
                                    .toArray();
                    final Rows used = Rows.of(own.stream().mapToInt(r -> r).toArray());
                    all.add(new Source(key, used, found(key, shares), trail(shares), NOTE));
                });
        return all;
    }

    private static Outcome<Uncertain> found(Key key, double[] shares) {
        if (shares.length == 0) {
            return Outcome.not(
                    Reason.NOT_DETECTED, "no injection of it has an area of this compound");
        }
        final Moments m = Moments.ofAll(shares);
        if (shares.length < 2) {
            return Outcome.of(Uncertain.exact(m.mean(), "%"));
        }
        final Pool pool =
                new Pool(
                        "area-share/" + key.compound() + "/" + key.conditionText(),
                        shares.length - 1.0,
                        "scatter of the share between injections");
        return Outcome.of(
                Uncertain.of(
                        m.mean(),
                        "%",
                        Root.normal(pool.id(), pool, Effect.STROKE, ActsOn.SAMPLE, pool.origin()),
                        Math.sqrt(m.variance() / shares.length)));
    }

    private static Trail trail(double[] shares) {
        if (shares.length == 0) {
            return Trail.NONE;
        }
        final double mean = Moments.ofAll(shares).mean();
        return new Trail(
                List.of(
                        new Trail.Step(
                                "share of the areas, mean of " + shares.length + " injections",
                                "100 area / sum of areas",
                                Trail.digits(mean),
                                mean,
                                "%")));
    }

    /** Sum of the areas of each injection. */
    private static Map<String, Double> sums(Study study) {
        final InjectionTable table = study.table();
        final String standard =
                study.compounds().internalStandard().map(s -> s.compound()).orElse("");
        final Map<String, Double> sums = new HashMap<>();
        for (int row = 0; row < table.size(); row++) {
            if (table.state(row) == State.MEASURED && !table.compound(row).equals(standard)) {
                sums.merge(table.injection(row), table.area(row), Double::sum);
            }
        }
        return sums;
    }
}
