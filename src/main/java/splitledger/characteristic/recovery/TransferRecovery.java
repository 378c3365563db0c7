package splitledger.characteristic.recovery;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import splitledger.characteristic.Responses;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.statistics.Moments;
import splitledger.statistics.Outcome.Reason;
import splitledger.study.Choice;
import splitledger.study.Flag;
import splitledger.study.InjectionTable;
import splitledger.study.Rows;

/**
 * Response of hot split injections over that of cold injections of the same solution onto the
 * column. With an internal standard the responses are ratios to it, and the result holds relative
 * to what the standard itself loses; without one the areas of split injections are multiplied by
 * the ratio of total to column flow.
 *
 * <p>Preparations injected both ways are the units. A single solution injected both ways cancels in
 * the ratio, whatever it really holds: then its injections are the units.
 */
final class TransferRecovery {
    private static final String NOTHING = "";

    private final RecoveryContext context;
    private final boolean byRatio;
    private final List<Flag> flags = new ArrayList<>();
    private final List<Choice> choices = new ArrayList<>();

    private TransferRecovery(RecoveryContext context) {
        this.context = context;
        this.byRatio = context.study().compounds().internalStandard().isEmpty();
    }

    /**
     * Of the rows of both ways.
     *
     * @param hot split injections
     * @param cold injections onto the column
     */
    static RecoveryResult of(RecoveryContext context, Rows hot, Rows cold) {
        return new TransferRecovery(context).result(hot, cold);
    }

    /** Responses by preparation. */
    private Map<String, List<Responses.Response>> byPreparation(Rows rows, boolean hot) {
        final Responses.Picked picked = context.responses().pick(rows, context.compound(), false);
        flags.addAll(picked.leftOut());
        final Map<String, List<Responses.Response>> groups = new LinkedHashMap<>();
        for (Responses.Response r : picked.used()) {
            final double factor = hot && byRatio ? ratio(r.row()) : 1;
            if (factor > 0) {
                groups.computeIfAbsent(r.preparation(), p -> new ArrayList<>())
                        .add(
                                new Responses.Response(
                                        r.row(),
                                        r.injection(),
                                        r.preparation(),
                                        r.value() * factor));
            } else {
                flags.add(
                        new Flag(
                                context.study().table().place(r.row()),
                                "injection " + r.injection() + ", " + context.compound(),
                                "left out: no split ratio"));
            }
        }
        return groups;
    }

    /** Total flow over column flow; NaN if the table holds no ratio. */
    private double ratio(int row) {
        final double told = context.study().table().number("split_ratio", row);
        final boolean vent =
                "vent-to-column".equals(context.study().protocol().conventions().splitRatio());
        return vent ? told + 1 : told;
    }

    private RecoveryResult result(Rows hotRows, Rows coldRows) {
        final Map<String, List<Responses.Response>> hot = byPreparation(hotRows, true);
        final Map<String, List<Responses.Response>> cold = byPreparation(coldRows, false);
        if (hot.isEmpty() || cold.isEmpty()) {
            return not(
                    Reason.NO_ROWS,
                    "no response of "
                            + (hot.isEmpty()
                                    ? "a split injection"
                                    : "a cold injection onto the column"));
        }
        told();
        final Set<String> both = new TreeSet<>(hot.keySet());
        both.retainAll(cold.keySet());
        if (both.isEmpty()) {
            return not(
                    Reason.TOO_FEW_PREPARATIONS,
                    "no solution was injected both ways: "
                            + "the labels of the preparations have none in common");
        }
        return both.size() > 1 ? ofPreparations(hot, cold, both) : ofOne(hot, cold, both);
    }

    private RecoveryResult ofPreparations(
            Map<String, List<Responses.Response>> hot,
            Map<String, List<Responses.Response>> cold,
            Set<String> both) {
        final List<RecoveryUnit> units = new ArrayList<>();
        for (String label : hot.keySet()) {
            if (!both.contains(label)) {
                continue;
            }
            final List<Responses.Response> h = hot.getOrDefault(label, List.of());
            final List<Responses.Response> c = cold.getOrDefault(label, List.of());
            final double below = mean(c).mean();
            if (below > 0) {
                units.add(unit(h, c, shared(mean(h).mean() / below, h.get(0).row())));
            }
        }
        return finished(units, "preparation");
    }

    private RecoveryResult ofOne(
            Map<String, List<Responses.Response>> hot,
            Map<String, List<Responses.Response>> cold,
            Set<String> both) {
        final String label = both.iterator().next();
        final List<Responses.Response> h = hot.getOrDefault(label, List.of());
        final List<Responses.Response> c = cold.getOrDefault(label, List.of());
        final Moments below = mean(c);
        if (c.size() < 2 || !(below.mean() > 0)) {
            return not(
                    Reason.TOO_FEW_INJECTIONS,
                    "needs 2 cold injections of the solution with a response above 0, found "
                            + c.size());
        }
        choices.add(
                context.choice(
                        "Injections of the one solution are the units of the transfer",
                        "what the solution really holds cancels between both ways; how preparations differ plays no part",
                        "follows from the definition"));
        final String id = "recovery/transfer/" + context.compound() + "/cold";
        final Pool pool = new Pool(id, c.size() - 1.0, "scatter of the cold injections");
        final Root root = Root.normal(id, pool, Effect.STROKE, ActsOn.REFERENCE, pool.origin());
        final Uncertain reference =
                Uncertain.of(below.mean(), "1", root, below.sd() / Math.sqrt(c.size()));
        final List<RecoveryUnit> units = new ArrayList<>();
        for (Responses.Response one : h) {
            final double value = one.value() / below.mean();
            units.add(
                    unit(
                            List.of(one),
                            c,
                            Uncertain.combine(
                                    value,
                                    "1",
                                    new double[] {-value / below.mean(), 1},
                                    List.of(reference, shared(value, one.row())))));
        }
        return finished(units, "injection");
    }

    private RecoveryResult finished(List<RecoveryUnit> units, String noun) {
        return units.isEmpty()
                ? not(Reason.NO_FINITE_VALUE, "no response above 0 of an injection onto the column")
                : RecoveryResult.of(
                        RecoveryKind.TRANSFER, context.compound(), units, noun, choices, flags);
    }

    private RecoveryUnit unit(
            List<Responses.Response> hot, List<Responses.Response> cold, Uncertain recovery) {
        final InjectionTable table = context.study().table();
        final int row = hot.get(0).row();
        final List<Responses.Response> all = new ArrayList<>(hot);
        all.addAll(cold);
        return new RecoveryUnit(
                table.label("level", row),
                NOTHING,
                0,
                recovery,
                Rows.of(all.stream().mapToInt(Responses.Response::row).toArray()));
    }

    /** A value with the error of the split ratio, where it enters. */
    private Uncertain shared(double value, int row) {
        final double u = context.options().number("split-ratio-uncertainty").orElse(0) / 100;
        if (!byRatio || !(u > 0)) {
            return Uncertain.exact(value, "1");
        }
        final String id = "recovery/transfer/split/" + splitledger.base.Numbers.text(ratio(row));
        final String source = "stated uncertainty of the split ratio";
        return Uncertain.of(
                value,
                "1",
                Root.normal(id, Pool.known(id, source), Effect.SPLIT, ActsOn.REFERENCE, source),
                value * u);
    }

    private void told() {
        if (!byRatio) {
            choices.add(
                    context.choice(
                            "Transfer is relative to the internal standard",
                            "the ratio of areas cancels volume, split and gain, and with them whatever the standard itself"
                                    + " loses in the inlet",
                            "follows from the definition"));
        } else {
            choices.add(
                    context.choice(
                            "Areas of split injections are multiplied by the ratio of total to column flow",
                            "a cold injection onto the column is not split; an error of the ratio goes fully into the transfer"
                                    + (context.options()
                                                    .number("split-ratio-uncertainty")
                                                    .isPresent()
                                            ? ""
                                            : ", and is not in its uncertainty as none is stated"
                                                    + " (split-ratio-uncertainty)"),
                            "follows from the definition"));
        }
    }

    private RecoveryResult not(Reason reason, String detail) {
        return RecoveryResult.not(RecoveryKind.TRANSFER, context.compound(), reason, detail, flags);
    }

    private static Moments mean(List<Responses.Response> members) {
        return Moments.ofAll(members.stream().mapToDouble(Responses.Response::value).toArray());
    }
}
