package splitledger.characteristic.recovery;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import splitledger.characteristic.Digits;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Shape;
import splitledger.propagation.Uncertain;
import splitledger.propagation.UncertainLine;
import splitledger.statistics.Moments;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.study.Answer;
import splitledger.study.Choice;
import splitledger.study.Finding;

/**
 * What a sample holds by itself, from its unspiked preparations.
 *
 * @param amount in the unit of amounts, by test portion where there is one
 * @param byPortion whether {@code amount} goes with the test portion
 * @param choices what was decided
 */
record NativeAmount(Uncertain amount, boolean byPortion, List<Choice> choices) {
    private static final double ROOT_12 = Math.sqrt(12);

    NativeAmount {
        choices = List.copyOf(choices);
    }

    /** What a preparation with this test portion holds by itself, over {@code amount}. */
    double factor(RecoveryPreparation preparation) {
        return byPortion ? preparation.portion() : 1;
    }

    /** Nothing is subtracted, and that is said. */
    static NativeAmount none(RecoveryContext context, UncertainLine line) {
        return new NativeAmount(
                Uncertain.exact(0, line.amountUnit()),
                false,
                List.of(
                        context.choice(
                                "No native amount is subtracted from what was found in spiked preparations",
                                "the protocol names no unspiked preparations (native), and none of the rows has nothing"
                                        + " added: right only if the matrix holds none of the compound",
                                "follows from the definition")));
    }

    /** The mean of the unspiked preparations. */
    static Outcome<NativeAmount> of(
            RecoveryContext context, UncertainLine line, RecoveryPreparation.Found unspiked) {
        final List<RecoveryPreparation> preparations = unspiked.preparations();
        if (preparations.isEmpty() && unspiked.silent() > 0) {
            return notDetected(context, line, unspiked.silent());
        }
        if (preparations.size() < 2) {
            return Outcome.not(
                    Reason.TOO_FEW_PREPARATIONS,
                    "the native amount needs 2 unspiked preparations, found "
                            + preparations.size());
        }
        return shared(context, line, preparations)
                .fold(
                        mean -> Outcome.of(scattered(context, line, unspiked, mean)),
                        not -> Outcome.not(not.reason(), not.detail()));
    }

    private static NativeAmount scattered(
            RecoveryContext context,
            UncertainLine line,
            RecoveryPreparation.Found unspiked,
            Uncertain shared) {
        final double[] contents =
                unspiked.preparations().stream()
                        .mapToDouble(p -> line.read(p.response().mean()) / p.portion())
                        .toArray();
        final Moments moments = Moments.ofAll(contents);
        final String id = "recovery/native/" + context.compound();
        final Pool pool =
                new Pool(id, contents.length - 1.0, "scatter of the unspiked preparations");
        final Root root =
                Root.normal(id, pool, Effect.PREPARATION, ActsOn.REFERENCE, pool.origin());
        final Uncertain own =
                Uncertain.of(0, line.amountUnit(), root, moments.sd() / Math.sqrt(contents.length));
        final List<Choice> choices = new ArrayList<>();
        if (unspiked.silent() > 0) {
            choices.add(
                    context.choice(
                            "The native amount is the mean of those unspiked preparations in which the compound was found",
                            unspiked.silent()
                                    + " of "
                                    + (unspiked.silent() + contents.length)
                                    + " gave no response: the mean is too high, and the recovery too low",
                            "follows from the definition"));
        }
        return new NativeAmount(
                Uncertain.combine(
                        moments.mean(),
                        line.amountUnit(),
                        new double[] {1, 1},
                        List.of(shared, own)),
                true,
                choices);
    }

    /**
     * The amounts of single days, without the scatter of the unspiked preparations: where days are
     * the units, the scatter of the days' recoveries holds it, and what a day does to spiked and
     * unspiked preparations alike cancels.
     *
     * @return by day; empty unless every level was spiked on 3 days or more, and every day of them
     *     has an unspiked preparation
     */
    static Map<String, NativeAmount> byDay(
            RecoveryContext context,
            UncertainLine line,
            List<RecoveryPreparation> unspiked,
            List<RecoveryPreparation> spiked) {
        final Map<String, Set<String>> days = new TreeMap<>();
        spiked.forEach(p -> days.computeIfAbsent(p.level(), l -> new TreeSet<>()).add(p.day()));
        final Map<String, NativeAmount> all = new TreeMap<>();
        if (days.values().stream().anyMatch(d -> d.size() < RecoveryPooling.DAYS)) {
            return all;
        }
        for (RecoveryPreparation p : spiked) {
            final List<RecoveryPreparation> own =
                    unspiked.stream().filter(u -> u.day().equals(p.day())).toList();
            if (p.day().isEmpty() || own.isEmpty()) {
                return Map.of();
            }
            if (!all.containsKey(p.day())) {
                shared(context, line, own)
                        .fold(
                                mean -> all.put(p.day(), new NativeAmount(mean, true, List.of())),
                                not -> all);
            }
            if (!all.containsKey(p.day())) {
                return Map.of();
            }
        }
        return all;
    }

    /** The mean by test portion with what the line brings, without scatter. */
    private static Outcome<Uncertain> shared(
            RecoveryContext context, UncertainLine line, List<RecoveryPreparation> preparations) {
        final double[] contents = new double[preparations.size()];
        final double[] weights = new double[contents.length];
        final List<Uncertain> found = new ArrayList<>();
        for (int i = 0; i < contents.length; i++) {
            final RecoveryPreparation p = preparations.get(i);
            final Outcome<Uncertain> one = context.found(line, p);
            if (!(one instanceof Outcome.Computed<Uncertain> c)) {
                return one;
            }
            found.add(c.value());
            contents[i] = c.value().value() / p.portion();
            weights[i] = 1 / (contents.length * p.portion());
        }
        return Outcome.of(
                Uncertain.combine(
                        Moments.ofAll(contents).mean(), line.amountUnit(), weights, found));
    }

    /** Somewhere between nothing and the detection limit, if this study has one. */
    private static Outcome<NativeAmount> notDetected(
            RecoveryContext context, UncertainLine line, int silent) {
        final Optional<Answer.Estimate> limit =
                context.earlier()
                        .finding("detection-limit", context.compound())
                        .map(Finding::answer)
                        .filter(Answer.Estimate.class::isInstance)
                        .map(Answer.Estimate.class::cast)
                        .filter(e -> e.unit().equals(line.amountUnit()) && e.value() > 0);
        if (limit.isEmpty()) {
            return Outcome.not(
                    Reason.NOT_DETECTED,
                    "the native amount was not detected in "
                            + silent
                            + " unspiked preparations, and this study gives no detection limit; if the matrix is"
                            + " known to hold none, take native out of the protocol");
        }
        final double most = limit.get().value();
        final String id = "recovery/native/" + context.compound();
        final Pool pool = Pool.known(id, "not detected: between 0 and the detection limit");
        final Root root =
                new Root(
                        id,
                        pool,
                        Effect.PREPARATION,
                        ActsOn.REFERENCE,
                        new Shape.Rectangular(),
                        pool.origin());
        return Outcome.of(
                new NativeAmount(
                        Uncertain.of(most / 2, line.amountUnit(), root, most / ROOT_12),
                        false,
                        List.of(
                                context.choice(
                                        "The native amount is taken to lie anywhere between 0 and the detection limit, "
                                                + Digits.three(most)
                                                + " "
                                                + line.amountUnit(),
                                        "it was not detected in "
                                                + silent
                                                + " unspiked preparations, which is not the same as 0",
                                        "JCGM 100:2008, 4.3.7, for a value known by its bounds alone"))));
    }
}
