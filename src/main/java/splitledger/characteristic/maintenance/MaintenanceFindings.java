package splitledger.characteristic.maintenance;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.IntStream;
import org.apache.commons.math3.util.FastMath;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.statistics.LadderEquivalence;
import splitledger.statistics.LadderEquivalence.Change;
import splitledger.statistics.Moments;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.Quantiles;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Rows;

/** Changes of the responses between two occasions, and whether they are within the margin. */
final class MaintenanceFindings {
    static final double RISK = 0.05;
    private static final String METHOD = "occasions";
    private static final double POWER = 0.9;
    private static final int FEWEST = 3;

    private final MaintenanceRows before;
    private final MaintenanceRows after;
    private final OccasionScatter scatter;
    private final double coverage;
    private final Map<String, Uncertain> logs = new LinkedHashMap<>();
    private final Map<String, Change> changes = new TreeMap<>();
    private final List<Finding> findings = new ArrayList<>();
    private boolean whole = true;

    /**
     * Compares.
     *
     * @param compounds that are looked for
     * @param two whether there are two occasions
     */
    MaintenanceFindings(
            MaintenanceRows before,
            MaintenanceRows after,
            OccasionScatter scatter,
            double coverage,
            List<String> compounds,
            boolean two) {
        this.before = before;
        this.after = after;
        this.scatter = scatter;
        this.coverage = coverage;
        for (String compound : compounds) {
            final int first = before.count(compound);
            final int second = two ? after.count(compound) : 0;
            if (Math.min(first, second) >= FEWEST) {
                logs.put(compound, change(compound));
            } else if (first + after.count(compound) > 0) {
                whole = false;
                add(compound, "response-change", tooFew(first, second), "");
            }
        }
        logs.forEach(
                (c, x) -> {
                    changes.put(
                            c,
                            new Change(x.value(), x.standardUncertainty(), x.degreesOfFreedom()));
                    add(c, "response-change", ratio(x), scatter.note());
                });
    }

    /** By compound, on the logarithm. */
    Map<String, Change> changes() {
        return changes;
    }

    /** So far. */
    List<Finding> findings() {
        return List.copyOf(findings);
    }

    private static Answer tooFew(int first, int second) {
        return Answers.not(
                "1",
                Reason.TOO_FEW_INJECTIONS,
                "needs "
                        + FEWEST
                        + " injections with a response on each of two occasions, found "
                        + first
                        + " and "
                        + second);
    }

    /** The verdict where the margin is one. */
    void judged(LadderEquivalence test) {
        changes.forEach(
                (compound, c) ->
                        add(compound, "equivalence-p", new Answer.Statistic(test.p(c), "1"), ""));
        add(
                "",
                "restored",
                restored(test.decide(List.copyOf(changes.values()))),
                "the number of injections is fixed beforehand; adding injections until it is decided"
                        + " makes a false 'restored' several times as likely");
        final OptionalInt needed = test.needed(largestSd(), scatter.sd(), POWER);
        add(
                "",
                "injections-needed",
                needed.isPresent()
                        ? new Answer.Statistic(needed.getAsInt(), "1")
                        : Answers.not(
                                "1",
                                Reason.NO_FINITE_VALUE,
                                "not even "
                                        + LadderEquivalence.MOST
                                        + " injections show a change within this margin in nine of ten"
                                        + " checks: scatter between injections or occasions is too large"),
                "on each occasion of the next, separate check; at least nine of ten such checks show the"
                        + " compound that scatters most to be within the margin if nothing changed");
    }

    /** No verdict: the margin is none. */
    void unjudged() {
        add(
                "",
                "restored",
                Answers.not(
                        "1",
                        Reason.NO_FINITE_VALUE,
                        "the margin must lie between 0 and 100 percent"),
                "");
    }

    private Answer restored(LadderEquivalence.Decision said) {
        return switch (said) {
            case RESTORED ->
                    whole
                            ? new Answer.Statistic(1, "1")
                            : undecided("a compound has too few responses to be judged");
            case NOT_RESTORED -> new Answer.Statistic(0, "1");
            case UNDECIDED ->
                    undecided(
                            "neither every response is shown to be within the margin, nor one to be"
                                    + " outside");
        };
    }

    private static Answer undecided(String why) {
        return Answers.not("1", Reason.UNDECIDED, why);
    }

    /** Of single injections, of the compound that scatters most. */
    double largestSd() {
        double largest = 0;
        for (String compound : changes.keySet()) {
            final Moments a = before.moments(compound);
            final Moments b = after.moments(compound);
            largest =
                    Math.max(largest, (a.squares() + b.squares()) / (a.count() + b.count() - 2.0));
        }
        return Math.sqrt(largest);
    }

    /** Difference of mean log areas, scatter of each occasion its own pool. */
    private Uncertain change(String compound) {
        final Moments a = before.moments(compound);
        final Moments b = after.moments(compound);
        final SortedMap<Root, Double> parts = new TreeMap<>();
        parts.put(injections(compound, "before", a), -Math.sqrt(a.variance() / a.count()));
        parts.put(injections(compound, "after", b), Math.sqrt(b.variance() / b.count()));
        if (scatter.sd() > 0) {
            parts.put(scatter.root("before"), -scatter.sd());
            parts.put(scatter.root("after"), scatter.sd());
        }
        return Uncertain.of(b.mean() - a.mean(), "1", parts);
    }

    private static Root injections(String compound, String when, Moments m) {
        final String id = Maintenance.ID + "/" + when + "/" + compound;
        return Root.normal(
                id,
                new Pool(id, m.count() - 1.0, "injections " + when),
                Effect.STROKE,
                ActsOn.BOTH,
                "injections " + when + " the work");
    }

    private Answer ratio(Uncertain log) {
        final double value = FastMath.exp(log.value());
        final double half =
                log.standardUncertainty() > 0
                        ? Quantiles.coverageFactor(coverage, log.degreesOfFreedom())
                                * log.standardUncertainty()
                        : 0;
        return Answers.ends(
                log.scaled(value, "1").at(value),
                FastMath.exp(log.value() - half),
                FastMath.exp(log.value() + half),
                coverage);
    }

    private Rows both() {
        return Rows.of(
                IntStream.concat(before.rows().stream(), after.rows().stream())
                        .distinct()
                        .toArray());
    }

    private void add(String compound, String quantity, Answer answer, String note) {
        findings.add(
                Finding.of(
                        Key.of(Maintenance.ID, compound, quantity, METHOD), answer, both(), note));
    }
}
