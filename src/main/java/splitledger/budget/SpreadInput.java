package splitledger.budget;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import org.apache.commons.math3.util.FastMath;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.study.Answer;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Protocol.Spread;

/**
 * A factor whose uncertainty is a relative scatter that the study found. What differs between
 * conditions is one cause of all preparations of a sample; the rest is one of each preparation.
 */
final class SpreadInput {
    /** Quantity that says at which amount precision was studied. */
    private static final String STUDIED = "amount-studied";

    private static final String REPEATABILITY = "rsd-repeatability";

    private final List<Finding> findings;

    SpreadInput(List<Finding> findings) {
        this.findings = findings;
    }

    /**
     * The scatter that serves a result.
     *
     * @param whole relative standard deviation of a single result
     * @param between the part of it that all preparations under the same conditions share
     * @param degreesOfFreedom of {@code whole}
     * @param studied amount at which it was found; NaN if not known
     * @param level where it was found, for pools
     */
    record Found(
            double whole, double between, double degreesOfFreedom, double studied, String level) {
        /** The part of each preparation alone. */
        double within() {
            return Math.sqrt(Math.max(0, whole * whole - between * between));
        }
    }

    /** The factor. */
    Outcome<Uncertain> of(Spread spread, String source, Asked asked) {
        return found(spread, asked.compound(), asked.amount())
                .fold(
                        f -> Outcome.of(factor(spread, source, asked, f)),
                        not -> Outcome.not(not.reason(), not.detail()));
    }

    private static Uncertain factor(Spread spread, String source, Asked asked, Found f) {
        final Pool pool =
                new Pool(
                        "spread/" + spread.quantity() + "/" + asked.compound() + f.level(),
                        f.degreesOfFreedom(),
                        source);
        final Effect effect = effect(spread.quantity());
        final double scale = spread.value() / Math.sqrt(spread.meanOf().orElse(1));
        final SortedMap<Root, Double> parts = new TreeMap<>();
        parts.put(
                Root.normal(
                        pool.id() + "/of/" + asked.sample(), pool, effect, ActsOn.SAMPLE, source),
                scale * f.between());
        parts.merge(
                Root.normal(pool.id() + "/" + asked.label(), pool, effect, ActsOn.SAMPLE, source),
                scale * f.within() / Math.sqrt(asked.preparations()),
                Double::sum);
        return Uncertain.of(spread.value(), "1", parts);
    }

    /** The scatter of a quantity; where it was studied at several levels, at the nearest one. */
    Outcome<Found> found(Spread spread, String compound, double amount) {
        final List<Finding> named =
                findings.stream()
                        .filter(f -> f.key().quantity().equals(spread.quantity()))
                        .filter(f -> f.key().compound().equals(compound))
                        .filter(
                                f ->
                                        f.key().condition().keySet().stream()
                                                .allMatch("level"::equals))
                        .toList();
        final Optional<Finding> nearest =
                named.stream()
                        .filter(f -> f.answer() instanceof Answer.Estimate)
                        .min(Comparator.comparingDouble(f -> distance(studied(f.key()), amount)));
        if (nearest.isEmpty()) {
            final String why =
                    named.stream()
                            .map(Finding::answer)
                            .filter(Answer.NotEstimable.class::isInstance)
                            .map(a -> ": " + ((Answer.NotEstimable) a).detail())
                            .findFirst()
                            .orElse("");
            return Outcome.not(Reason.NO_FINDING, "this study gives no " + spread.quantity() + why);
        }
        final Key key = nearest.get().key();
        final Answer.Estimate e = (Answer.Estimate) nearest.get().answer();
        final double whole = relative(e);
        final double within =
                spread.quantity().endsWith("intermediate")
                        ? same(key, REPEATABILITY)
                                .flatMap(
                                        f ->
                                                f.answer() instanceof Answer.Estimate r
                                                        ? Optional.of(relative(r))
                                                        : Optional.empty())
                                .orElse(whole)
                        : whole;
        final double between = Math.sqrt(Math.max(0, whole * whole - within * within));
        return Outcome.of(
                new Found(
                        whole,
                        between,
                        e.degreesOfFreedom(),
                        studied(key),
                        key.condition().isEmpty() ? "" : "/" + key.conditionText()));
    }

    private double studied(Key key) {
        return findings.stream()
                .filter(
                        f ->
                                f.key().quantity().equals(STUDIED)
                                        && f.key().compound().equals(key.compound())
                                        && f.key().condition().equals(key.condition()))
                .map(Finding::answer)
                .filter(Answer.Statistic.class::isInstance)
                .mapToDouble(a -> ((Answer.Statistic) a).value())
                .findFirst()
                .orElse(Double.NaN);
    }

    /** Distance of two amounts as a ratio; what is not known is nearest. */
    private static double distance(double studied, double amount) {
        return studied > 0 && amount > 0 ? Math.abs(FastMath.log(studied / amount)) : 0;
    }

    private Optional<Finding> same(Key key, String quantity) {
        return findings.stream()
                .filter(
                        f ->
                                f.key().quantity().equals(quantity)
                                        && f.key().compound().equals(key.compound())
                                        && f.key().condition().equals(key.condition())
                                        && f.key().method().equals(key.method()))
                .findFirst();
    }

    private static double relative(Answer.Estimate e) {
        return "%".equals(e.unit()) ? e.value() / 100 : e.value();
    }

    /** What a scatter holds. */
    static Effect effect(String quantity) {
        return quantity.endsWith("intermediate")
                ? Effect.DAY
                : quantity.endsWith("injection") ? Effect.STROKE : Effect.PREPARATION;
    }
}
