package splitledger.characteristic.recovery;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import splitledger.characteristic.Digits;
import splitledger.propagation.Uncertain;
import splitledger.propagation.UncertainLine;
import splitledger.statistics.Moments;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.study.Choice;
import splitledger.study.Flag;
import splitledger.study.Rows;

/**
 * Recovery of amounts added to samples: (found - native) / added for each preparation. Found and
 * native amounts are read off the same line, so that an error of its intercept cancels and one of
 * its slope acts once.
 */
final class SpikeRecovery {
    private final RecoveryContext context;
    private final UncertainLine line;
    private final List<Flag> flags = new ArrayList<>();
    private final List<Choice> choices = new ArrayList<>();
    private List<RecoveryPreparation> unspiked = List.of();

    private SpikeRecovery(RecoveryContext context, UncertainLine line) {
        this.context = context;
        this.line = line;
    }

    /** Of the rows that the option {@code where} asks for. */
    static RecoveryResult of(RecoveryContext context, Rows rows) {
        return context.offTheLine(
                RecoveryKind.SPIKE, line -> new SpikeRecovery(context, line).result(rows));
    }

    private RecoveryResult result(Rows rows) {
        final RecoveryPreparation.Found all =
                context.preparations(rows, context.added(), context.text("added-u"));
        flags.addAll(all.leftOut());
        final List<RecoveryPreparation> spiked =
                all.preparations().stream().filter(p -> p.added() > 0).toList();
        final List<RecoveryPreparation> zero =
                all.preparations().stream().filter(p -> p.added() == 0).toList();
        all.preparations().stream()
                .filter(p -> !(p.added() >= 0))
                .forEach(p -> leave(p, "no amount added in the column " + context.added()));
        if (spiked.isEmpty()) {
            return nothing(all, zero);
        }
        final Outcome<NativeAmount> native0 = nativeAmount(zero);
        return native0.fold(
                n -> {
                    choices.addAll(n.choices());
                    return withNative(spiked, n);
                },
                not ->
                        RecoveryResult.not(
                                RecoveryKind.SPIKE,
                                context.compound(),
                                not.reason(),
                                not.detail(),
                                flags));
    }

    private RecoveryResult nothing(RecoveryPreparation.Found all, List<RecoveryPreparation> zero) {
        final Reason reason =
                !zero.isEmpty()
                        ? Reason.ZERO_AMOUNT
                        : all.silent() > 0 ? Reason.NOT_DETECTED : Reason.NO_ROWS;
        final String detail =
                !zero.isEmpty()
                        ? "nothing was added to the " + zero.size() + " preparations"
                        : all.silent() > 0
                                ? "not detected in " + all.silent() + " spiked preparations"
                                : "no preparation with an amount added in the column "
                                        + context.added();
        return RecoveryResult.not(RecoveryKind.SPIKE, context.compound(), reason, detail, flags);
    }

    private Outcome<NativeAmount> nativeAmount(List<RecoveryPreparation> zero) {
        final var asked = context.rows("native");
        if (asked.isPresent()) {
            zero.forEach(p -> leave(p, "nothing was added to it"));
            final RecoveryPreparation.Found found =
                    RecoveryPreparation.of(
                            context.study(),
                            context.responses(),
                            asked.get(),
                            context.compound(),
                            new RecoveryPreparation.Columns("", "", context.text("per")));
            flags.addAll(found.leftOut());
            unspiked = found.preparations();
            if (unspiked.isEmpty() && found.silent() == 0) {
                return Outcome.not(
                        Reason.NO_ROWS, "no unspiked preparation has a peak of this compound");
            }
            return NativeAmount.of(context, line, found);
        }
        if (zero.isEmpty()) {
            return Outcome.of(NativeAmount.none(context, line));
        }
        choices.add(
                context.choice(
                        "The native amount is that of the preparations to which 0 was added",
                        "the protocol names no others (native)",
                        "follows from the definition"));
        return NativeAmount.of(context, line, new RecoveryPreparation.Found(zero, 0, List.of()));
    }

    private RecoveryResult withNative(List<RecoveryPreparation> spiked, NativeAmount native0) {
        final AddedAmount added = new AddedAmount(context);
        final Map<String, NativeAmount> ofDays =
                NativeAmount.byDay(context, line, unspiked, spiked);
        if (!ofDays.isEmpty()) {
            choices.add(
                    context.choice(
                            "From what was found on a day the native amount of that day is taken off",
                            "every level was spiked on 3 days or more with unspiked preparations beside it: what a day does to"
                                    + " both cancels, and the scatter of the days' recoveries holds that of both",
                            "follows from the definition"));
        }
        final List<RecoveryUnit> units = new ArrayList<>();
        final Map<String, List<Double>> shares = new LinkedHashMap<>();
        for (RecoveryPreparation p : spiked) {
            context.found(line, p)
                    .fold(
                            found -> {
                                final NativeAmount its = ofDays.getOrDefault(p.day(), native0);
                                final double own = its.amount().value() * its.factor(p);
                                shares.computeIfAbsent(p.level(), l -> new ArrayList<>())
                                        .add(own / p.added());
                                return units.add(unit(p, found, its, added.relative(p)));
                            },
                            not -> {
                                leave(p, not.detail());
                                return false;
                            });
        }
        choices.addAll(added.choices());
        final RecoveryResult plain =
                RecoveryResult.of(
                        RecoveryKind.SPIKE,
                        context.compound(),
                        units,
                        "preparation",
                        choices,
                        flags);
        return new RecoveryResult(
                plain.kind(),
                plain.compound(),
                plain.units(),
                plain.levels().stream().map(e -> conditioned(e, shares)).toList(),
                plain.pooled(),
                plain.homogeneity(),
                plain.choices(),
                plain.flags());
    }

    private static RecoveryUnit unit(
            RecoveryPreparation p, Uncertain found, NativeAmount native0, Uncertain added) {
        final double share = native0.factor(p);
        final double value = (found.value() - native0.amount().value() * share) / p.added();
        final Uncertain recovery =
                Uncertain.combine(
                        value,
                        "1",
                        new double[] {1 / p.added(), -share / p.added(), -value},
                        List.of(found, native0.amount(), added));
        return new RecoveryUnit(p.level(), p.day(), p.added(), recovery, p.rows());
    }

    private static RecoveryEstimate conditioned(
            RecoveryEstimate level, Map<String, List<Double>> shares) {
        final double[] own =
                shares.getOrDefault(level.level(), List.of()).stream()
                        .mapToDouble(Double::doubleValue)
                        .toArray();
        if (own.length == 0) {
            return level;
        }
        final double mean = Moments.ofAll(own).mean();
        return mean > 1
                ? level.noting(
                        "badly conditioned: the native amount is "
                                + Digits.two(mean)
                                + " times what was added, so that 1 % of what is found is "
                                + Digits.two(1 + mean)
                                + " % of the recovery")
                : level;
    }

    private void leave(RecoveryPreparation p, String why) {
        flags.add(
                new Flag(
                        context.study().table().place(p.rows().at(0)),
                        "preparation " + p.label() + ", " + context.compound(),
                        "left out: " + why));
    }
}
