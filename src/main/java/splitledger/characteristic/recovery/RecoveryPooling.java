package splitledger.characteristic.recovery;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.IntStream;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.statistics.EqualMeans;
import splitledger.statistics.Moments;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.VarianceEstimate;
import splitledger.study.Rows;
import splitledger.study.Trail;

/**
 * Recoveries of single preparations put together, by level and over all levels.
 *
 * <p>At a level: the mean, with the scatter of its preparations s / sqrt(n) and n - 1 degrees of
 * freedom, and what all of them share (native amount, calibration, reference) from their roots.
 * Over levels: the mean of all preparations, if the levels agree ({@link EqualMeans}, with the
 * covariance of the levels by what they share). Each level keeps its own scatter, so that levels
 * need not scatter alike; degrees of freedom follow by variance estimate (Welch-Satterthwaite, JCGM
 * 100:2008, G.4.1). With three days or more the days are the units: what changes from day to day is
 * then in the scatter.
 */
final class RecoveryPooling {
    private static final double LEAST_P = 0.05;

    /** From so many days on the days are the units. */
    static final int DAYS = 3;

    private static final int WANTED = 3;

    private final String id;
    private final List<RecoveryUnit> units;
    private final String noun;
    private final Map<String, List<RecoveryUnit>> byLevel = new LinkedHashMap<>();

    /**
     * For one compound and kind.
     *
     * @param id unique beginning of the names of its roots
     * @param units in any order
     * @param noun what a unit is, in one word
     */
    RecoveryPooling(String id, List<RecoveryUnit> units, String noun) {
        this.id = id;
        this.units = List.copyOf(units);
        this.noun = noun;
        final Map<String, List<RecoveryUnit>> unordered = group(units, RecoveryUnit::level);
        unordered.entrySet().stream()
                .sorted(
                        Comparator.<Map.Entry<String, List<RecoveryUnit>>>comparingDouble(
                                        e -> amount(e.getValue()))
                                .thenComparing(Map.Entry::getKey))
                .forEach(e -> byLevel.put(e.getKey(), e.getValue()));
    }

    /** One estimate a level, by amount. */
    List<RecoveryEstimate> levels() {
        final List<RecoveryEstimate> all = new ArrayList<>();
        byLevel.forEach((level, members) -> all.add(level(level, members)));
        return all;
    }

    private RecoveryEstimate level(String level, List<RecoveryUnit> members) {
        final Map<String, List<RecoveryUnit>> days = group(members, RecoveryUnit::day);
        return members.size() > days.size() && areUnits(days)
                ? ofDays(level, members, days)
                : mean(level, amount(members), members, "/" + level);
    }

    private static boolean areUnits(Map<String, List<RecoveryUnit>> days) {
        return days.size() >= DAYS && !days.containsKey("");
    }

    /** Whether the levels agree. */
    Outcome<EqualMeans> homogeneity() {
        final List<Uncertain> means = new ArrayList<>();
        for (RecoveryEstimate level : levels()) {
            level.value().fold(means::add, not -> false);
        }
        if (byLevel.size() > 1 && means.size() < 2) {
            return Outcome.not(
                    Reason.ONE_PREPARATION_A_LEVEL,
                    "needs 2 levels of 2 " + noun + "s each, found " + means.size());
        }
        return LevelAgreement.of(means);
    }

    /** All levels together. */
    RecoveryEstimate pooled() {
        final List<RecoveryUnit> repeated = new ArrayList<>();
        byLevel.values().stream().filter(m -> m.size() > 1).forEach(repeated::addAll);
        final List<RecoveryUnit> used = repeated.isEmpty() ? units : repeated;
        if (byLevel.size() > 1 && !repeated.isEmpty()) {
            final Outcome<EqualMeans> test = homogeneity();
            if (test instanceof Outcome.Computed<EqualMeans> c && c.value().p() < LEAST_P) {
                return RecoveryEstimate.not(
                        Reason.NOT_HOMOGENEOUS,
                        "recovery differs between levels ("
                                + LevelAgreement.words(c.value())
                                + "): use that of the level",
                        rows(used));
            }
        }
        final RecoveryEstimate together = together(used, repeated.isEmpty());
        return noted(together, used, repeated.size());
    }

    private RecoveryEstimate together(List<RecoveryUnit> used, boolean single) {
        final Map<String, List<RecoveryUnit>> days = group(used, RecoveryUnit::day);
        if (areUnits(days)) {
            return ofDays("", used, days);
        }
        final Map<String, List<RecoveryUnit>> levels = group(used, RecoveryUnit::level);
        if (single || levels.size() == 1) {
            return mean("", Double.NaN, used, "/all");
        }
        final List<Uncertain> terms = new ArrayList<>();
        final double[] weights = new double[levels.size()];
        double squares = 0;
        double freedom = 0;
        int k = 0;
        for (Map.Entry<String, List<RecoveryUnit>> e : levels.entrySet()) {
            final RecoveryEstimate level = level(e.getKey(), e.getValue());
            final Optional<Uncertain> value =
                    level.value().fold(Optional::of, n -> Optional.empty());
            if (value.isEmpty()) {
                return new RecoveryEstimate(
                        "",
                        Double.NaN,
                        level.value(),
                        Optional.empty(),
                        used.size(),
                        rows(used),
                        List.of());
            }
            terms.add(value.get());
            weights[k++] = (double) e.getValue().size() / used.size();
            squares += level.scatter().map(s -> s.variance() * s.degreesOfFreedom()).orElse(0.0);
            freedom += e.getValue().size() - 1.0;
        }
        final double value =
                IntStream.range(0, terms.size())
                        .mapToDouble(i -> weights[i] * terms.get(i).value())
                        .sum();
        return new RecoveryEstimate(
                "",
                Double.NaN,
                Outcome.of(Uncertain.combine(value, "1", weights, terms)),
                Optional.of(new VarianceEstimate(squares / freedom, freedom)),
                used.size(),
                rows(used),
                List.of());
    }

    /** The mean of the means of days; days are the units. */
    private RecoveryEstimate ofDays(
            String level, List<RecoveryUnit> used, Map<String, List<RecoveryUnit>> days) {
        final List<RecoveryUnit> means = new ArrayList<>();
        days.forEach(
                (day, members) ->
                        means.add(
                                new RecoveryUnit(
                                        "", day, Double.NaN, average(members), rows(members))));
        final RecoveryEstimate mean = mean("", Double.NaN, means, "/days/" + level);
        final Moments single =
                Moments.ofAll(used.stream().mapToDouble(u -> u.recovery().value()).toArray());
        return new RecoveryEstimate(
                level,
                level.isEmpty() ? Double.NaN : amount(used),
                mean.value(),
                Optional.of(new VarianceEstimate(single.variance(), single.count() - 1.0)),
                used.size(),
                rows(used),
                List.of(
                        days.size()
                                + " days: the scatter is that of the days' means, so that what changes between days is in it"));
    }

    private RecoveryEstimate noted(RecoveryEstimate pooled, List<RecoveryUnit> used, int repeated) {
        RecoveryEstimate all = pooled;
        final Map<String, List<RecoveryUnit>> levels = group(used, RecoveryUnit::level);
        final int least = levels.values().stream().mapToInt(List::size).min().orElse(0);
        if (levels.size() < WANTED || least < WANTED) {
            all =
                    all.noting(
                            levels.size()
                                    + (levels.size() == 1 ? " level" : " levels")
                                    + " with at least "
                                    + least
                                    + " "
                                    + noun
                                    + (least == 1 ? "" : "s")
                                    + "; 3 levels with 3 each are wanted before a recovery is taken for all levels");
        }
        if (repeated > 0 && repeated < units.size()) {
            all = all.noting("levels of a single " + noun + " are not in it");
        }
        if (group(used, RecoveryUnit::day).size() == 1 && !used.get(0).day().isEmpty()) {
            all =
                    all.noting(
                            "all on one day: what changes between days is not in its uncertainty, and belongs to the"
                                    + " intermediate precision");
        }
        return all;
    }

    private RecoveryEstimate mean(
            String level, double amount, List<RecoveryUnit> members, String name) {
        final int n = members.size();
        final Rows rows = rows(members);
        if (n < 2) {
            return new RecoveryEstimate(
                    level,
                    amount,
                    Outcome.not(Reason.TOO_FEW_PREPARATIONS, "needs 2 " + noun + "s, found " + n),
                    Optional.empty(),
                    n,
                    rows,
                    List.of());
        }
        final Moments moments =
                Moments.ofAll(members.stream().mapToDouble(u -> u.recovery().value()).toArray());
        // equal to 13 digits is equal: what is left is rounding
        if (moments.sd() <= 1e-13 * Math.abs(moments.mean())) {
            return new RecoveryEstimate(
                    level,
                    amount,
                    Outcome.not(
                            Reason.NO_SCATTER,
                            n
                                    + " "
                                    + noun
                                    + "s agree exactly at "
                                    + Trail.digits(moments.mean())
                                    + ": how far they scatter cannot be told"),
                    Optional.empty(),
                    n,
                    rows,
                    List.of());
        }
        final Pool pool =
                new Pool(id + name, n - 1.0, "scatter of the recoveries of " + noun + "s");
        final Root root =
                Root.normal(id + name, pool, Effect.PREPARATION, ActsOn.REFERENCE, pool.origin());
        final Uncertain shared = average(members);
        final Uncertain own = Uncertain.of(0, "1", root, moments.sd() / Math.sqrt(n));
        return new RecoveryEstimate(
                level,
                amount,
                Outcome.of(
                        Uncertain.combine(
                                moments.mean(), "1", new double[] {1, 1}, List.of(shared, own))),
                Optional.of(new VarianceEstimate(moments.variance(), n - 1.0)),
                n,
                rows,
                n < WANTED
                        ? List.of(
                                n
                                        + " "
                                        + noun
                                        + "s: fewer than 3 tell next to nothing about their scatter")
                        : List.of());
    }

    /** The mean with what its members share; without their own scatter. */
    private static Uncertain average(List<RecoveryUnit> members) {
        final double[] weights = new double[members.size()];
        Arrays.fill(weights, 1.0 / weights.length);
        final List<Uncertain> terms = members.stream().map(RecoveryUnit::recovery).toList();
        final double mean =
                Moments.ofAll(terms.stream().mapToDouble(Uncertain::value).toArray()).mean();
        return Uncertain.combine(mean, "1", weights, terms);
    }

    private static double amount(List<RecoveryUnit> members) {
        return Moments.ofAll(members.stream().mapToDouble(RecoveryUnit::amount).toArray()).mean();
    }

    private static Rows rows(List<RecoveryUnit> members) {
        return Rows.of(members.stream().flatMapToInt(u -> u.rows().stream()).distinct().toArray());
    }

    private static Map<String, List<RecoveryUnit>> group(
            List<RecoveryUnit> members, Function<RecoveryUnit, String> by) {
        final Map<String, List<RecoveryUnit>> groups = new LinkedHashMap<>();
        members.forEach(u -> groups.computeIfAbsent(by.apply(u), k -> new ArrayList<>()).add(u));
        return groups;
    }
}
