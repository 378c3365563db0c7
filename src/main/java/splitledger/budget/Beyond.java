package splitledger.budget;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.LawOfPropagation.Propagated;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.statistics.Quantiles;
import splitledger.study.Answer;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Protocol.FromFinding;
import splitledger.study.Protocol.Measurand;
import splitledger.study.Protocol.Spread;
import splitledger.study.Rows;

/** What one budget says beyond its numbers: what would shrink it, and whether its parts suffice. */
final class Beyond {
    private static final double HALF = 0.5;

    private final Measurand measurand;
    private final BudgetMaker maker;
    private final double coverage;

    Beyond(Measurand measurand, BudgetMaker maker, double coverage) {
        this.measurand = measurand;
        this.maker = maker;
        this.coverage = coverage;
    }

    /**
     * What happens to the expanded uncertainty under one change.
     *
     * @param kind {@code source} halved, or {@code replicates} doubled
     * @param name of the source or the kind of replicate
     * @param words for pages
     * @param factor new over old expanded uncertainty
     */
    record Change(String kind, String name, String words, double factor) {}

    /**
     * Every change that does something, in a fixed order: each source halved under the coverage
     * factor of now (with fewer degrees of freedom left in the sum it would grow, and hide the
     * gain), then twice as many injections and preparations of the sample, calibrant preparations,
     * and conditions (days, analysts) in the precision study.
     *
     * @param inputs by symbol
     */
    List<Change> changes(SortedMap<String, Uncertain> inputs) {
        final Propagated propagated = maker.propagate(inputs);
        final Uncertain result = propagated.result();
        final List<Change> changes = new ArrayList<>();
        final double before = expanded(result);
        if (before == 0) {
            return changes;
        }
        for (BudgetRows.Part part :
                BudgetRows.parts(BudgetMaker.order(inputs), inputs, propagated)) {
            if (!part.part().roots().isEmpty()) {
                final double after =
                        Uncertain.combine(
                                        result.value(),
                                        result.unit(),
                                        new double[] {1, -HALF * part.sensitivity()},
                                        List.of(result, part.part()))
                                .standardUncertainty();
                changes.add(
                        new Change(
                                "source",
                                part.symbol(),
                                "half the uncertainty of " + part.symbol(),
                                after / result.standardUncertainty()));
            }
        }
        add(
                changes,
                before,
                "injections",
                "twice as many injections of each preparation",
                doubled(result, r -> sample(r) && r.effect() == Effect.STROKE, 1));
        add(
                changes,
                before,
                "preparations",
                "twice as many preparations of each sample",
                doubled(
                        result,
                        r ->
                                sample(r)
                                        && (r.effect() == Effect.STROKE
                                                || r.effect() == Effect.PREPARATION
                                                || (r.id().startsWith("spread/")
                                                        && !r.id().contains("/of/"))),
                        1));
        add(
                changes,
                before,
                "calibrants",
                "twice as many calibrant preparations",
                doubled(
                        result,
                        r ->
                                r.actsOn() == ActsOn.CALIBRANT
                                        && !Double.isInfinite(r.pool().degreesOfFreedom()),
                        2));
        add(
                changes,
                before,
                "conditions",
                "a precision study over twice as many days or analysts",
                freer(result));
        return changes;
    }

    private interface Wanted {
        boolean test(Root root);
    }

    private static boolean sample(Root root) {
        return root.actsOn() == ActsOn.SAMPLE;
    }

    private void add(
            List<Change> changes, double before, String name, String words, Uncertain after) {
        final double factor = expanded(after) / before;
        if (factor < 1) {
            changes.add(new Change("replicates", name, words, factor));
        }
    }

    /** Parts of the wanted roots over root 2, their pools with {@code more} times the freedom. */
    private static Uncertain doubled(Uncertain x, Wanted wanted, double more) {
        return moved(x, wanted, 1 / Math.sqrt(2), more);
    }

    /** Pools of precision factors with twice the degrees of freedom. */
    private static Uncertain freer(Uncertain x) {
        return moved(x, r -> r.id().startsWith("spread/"), 1, 2);
    }

    private static Uncertain moved(Uncertain x, Wanted wanted, double factor, double more) {
        final SortedMap<Root, Double> parts = new TreeMap<>();
        for (Root root : x.roots()) {
            if (!wanted.test(root)) {
                parts.put(root, x.part(root));
                continue;
            }
            final Pool pool =
                    more == 1
                            ? root.pool()
                            : new Pool(
                                    root.pool().id() + "/more",
                                    more * root.pool().degreesOfFreedom(),
                                    root.pool().origin());
            parts.put(
                    new Root(
                            root.id(),
                            pool,
                            root.effect(),
                            root.actsOn(),
                            root.shape(),
                            root.source()),
                    factor * x.part(root));
        }
        return Uncertain.of(x.value(), x.unit(), parts);
    }

    private double expanded(Uncertain x) {
        return Quantiles.coverageFactor(coverage, x.degreesOfFreedom()) * x.standardUncertainty();
    }

    /** The findings of changes. */
    static List<Finding> shrink(Key key, List<Change> changes) {
        final List<Finding> findings = new ArrayList<>();
        for (Change c : changes) {
            findings.add(
                    Finding.of(
                            named(key, "shrink").with(c.kind(), c.name()),
                            new Answer.Statistic(c.factor(), "1"),
                            Rows.NONE,
                            "expanded uncertainty with " + c.words() + ", over that of now"));
        }
        return findings;
    }

    /**
     * Top-down over bottom-up: the precision of the whole procedure together with what is known of
     * its bias, over the list of single causes with the sample's own scatter in place of the
     * precision. The interval is that of a ratio of two independent standard deviations (F).
     *
     * @param inputs by symbol, {@code found} with all its causes
     */
    Optional<Finding> topDown(Key key, SortedMap<String, Uncertain> inputs) {
        final List<String> whole = new ArrayList<>();
        boolean bias = false;
        for (var e : measurand.inputs().entrySet()) {
            final boolean recovery =
                    e.getValue() instanceof FromFinding f && f.quantity().equals("recovery");
            if (e.getValue() instanceof Spread || recovery) {
                whole.add(e.getKey());
                bias |= recovery;
            }
        }
        if (measurand.inputs().values().stream().noneMatch(Spread.class::isInstance)) {
            return Optional.empty();
        }
        final Uncertain above = only(inputs, whole, true);
        final Uncertain below = only(inputs, whole, false);
        final Key named = named(key, "top-down-ratio");
        if (below.standardUncertainty() == 0 || above.standardUncertainty() == 0) {
            return Optional.of(
                    Finding.of(
                            named,
                            new Answer.NotEstimable(
                                    "1", "no-scatter", "one of the two has no uncertainty"),
                            Rows.NONE,
                            ""));
        }
        final double ratio = above.standardUncertainty() / below.standardUncertainty();
        final double na = above.degreesOfFreedom();
        final double nb = below.degreesOfFreedom();
        final double tail = (1 - coverage) / 2;
        final double lower = ratio / Math.sqrt(f(1 - tail, na, nb));
        final double upper = ratio * Math.sqrt(f(1 - tail, nb, na));
        final double relative = Math.sqrt(1 / (2 * na) + 1 / (2 * nb));
        return Optional.of(
                Finding.of(
                        named,
                        new Answer.Estimate(
                                ratio,
                                "1",
                                ratio * relative,
                                Math.min(na, nb),
                                lower,
                                upper,
                                coverage,
                                Answer.Law.ENDS,
                                Optional.empty()),
                        Rows.NONE,
                        words(lower, upper)
                                + (bias
                                        ? ""
                                        : "; without a recovery in the equation no bias is in the top-down value")));
    }

    private static double f(double p, double numerator, double denominator) {
        final double most = 1e6;
        return Quantiles.f(p, Math.min(most, numerator), Math.min(most, denominator));
    }

    private static String words(double lower, double upper) {
        if (lower > 1) {
            return "the procedure as a whole scatters more than the list of causes explains: a cause is missing from the"
                    + " list, or one is taken too small";
        }
        return upper < 1
                ? "the list of causes gives more than the procedure as a whole shows: a cause is taken too large, or the"
                        + " precision study did not vary it"
                : "the list of causes and the procedure as a whole agree within what the data can tell";
    }

    /** The result with the uncertainty of some inputs, or of all others. */
    private Uncertain only(SortedMap<String, Uncertain> inputs, List<String> symbols, boolean of) {
        final SortedMap<String, Uncertain> some = new TreeMap<>();
        inputs.forEach(
                (symbol, x) ->
                        some.put(
                                symbol,
                                symbols.contains(symbol) == of
                                        ? x
                                        : Uncertain.exact(x.value(), x.unit())));
        return maker.propagate(some).result();
    }

    private static Key named(Key key, String quantity) {
        return new Key(
                key.characteristic(), key.compound(), key.condition(), quantity, Results.LAW);
    }
}
