package splitledger.characteristic.recovery;

import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.propagation.UncertainLine;
import splitledger.statistics.Outcome.Reason;
import splitledger.study.Choice;
import splitledger.study.Flag;
import splitledger.study.Rows;

/**
 * What is found in a material of known content over what it holds. Where a test portion is named,
 * the amount found is divided by it and multiplied by the volume, to be compared with a content.
 */
final class ReferenceRecovery {
    /** How the names of the roots of reference values begin. */
    static final String ROOTS = "recovery/reference/";

    private final RecoveryContext context;
    private final UncertainLine line;
    private final double volume;

    /** Whether all preparations are of one reference value. */
    private boolean single;

    private final List<Flag> flags = new ArrayList<>();
    private final List<Choice> choices = new ArrayList<>();

    private ReferenceRecovery(RecoveryContext context, UncertainLine line) {
        this.context = context;
        this.line = line;
        this.volume = context.options().number("volume").orElse(1);
    }

    /** Of the rows that the option {@code reference-material} asks for. */
    static RecoveryResult of(RecoveryContext context, Rows rows) {
        return context.offTheLine(
                RecoveryKind.REFERENCE, line -> new ReferenceRecovery(context, line).result(rows));
    }

    private RecoveryResult result(Rows rows) {
        final RecoveryPreparation.Found all =
                context.preparations(
                        rows, context.text("reference-amount"), context.text("reference-amount-u"));
        flags.addAll(all.leftOut());
        final double given = given();
        final double givenU = context.options().number("reference-uncertainty").orElse(0);
        final List<RecoveryUnit> units = new ArrayList<>();
        boolean exact = false;
        single =
                all.preparations().stream().map(RecoveryPreparation::level).distinct().count() == 1;
        for (RecoveryPreparation p : all.preparations()) {
            final double value = Double.isNaN(p.added()) ? given : p.added();
            final double u = Double.isNaN(p.added()) ? givenU : p.addedU();
            if (value > 0) {
                exact |= !(u > 0);
                context.found(line, p)
                        .fold(
                                found -> units.add(unit(p, found, value, u)),
                                not -> leave(p, not.detail()));
            } else {
                leave(p, "no reference value above 0");
            }
        }
        if (units.isEmpty()) {
            return RecoveryResult.not(
                    RecoveryKind.REFERENCE,
                    context.compound(),
                    all.preparations().isEmpty() && all.silent() > 0
                            ? Reason.NOT_DETECTED
                            : Reason.NO_ROWS,
                    all.preparations().isEmpty()
                            ? "no preparation of the reference material has a response"
                            : "no reference value above 0: state reference-amount, or reference-value with the"
                                    + " compound that it is of (reference-of)",
                    flags);
        }
        if (exact) {
            choices.add(
                    context.choice(
                            "The reference value is taken as exact",
                            "no uncertainty is stated for it (reference-uncertainty, reference-amount-u)",
                            "stated in the protocol"));
        }
        return RecoveryResult.of(
                RecoveryKind.REFERENCE, context.compound(), units, "preparation", choices, flags);
    }

    /** The stated value, if it is this compound's. */
    private double given() {
        final List<String> of = context.options().texts("reference-of");
        final boolean own =
                of.isEmpty()
                        ? context.study().compounds().targets().size() == 1
                        : of.contains(context.compound());
        return own ? context.options().number("reference-value").orElse(Double.NaN) : Double.NaN;
    }

    private RecoveryUnit unit(RecoveryPreparation p, Uncertain found, double reference, double u) {
        final double factor = volume / p.portion() / reference;
        final double value = found.value() * factor;
        final String id = ROOTS + context.compound() + "/" + p.level();
        final String source = "stated uncertainty of the reference value";
        final SortedMap<Root, Double> parts = new TreeMap<>();
        parts.put(
                Root.normal(
                        id,
                        Pool.known(id, source),
                        Effect.REFERENCE_VALUE,
                        ActsOn.REFERENCE,
                        source),
                -value * u / reference);
        final String level =
                context.study().table().label("level", p.rows().at(0)).isEmpty() && single
                        ? ""
                        : p.level();
        return new RecoveryUnit(
                level,
                p.day(),
                reference,
                Uncertain.combine(
                        value,
                        "1",
                        new double[] {factor, 1},
                        List.of(found, Uncertain.of(0, "1", parts))),
                p.rows());
    }

    private boolean leave(RecoveryPreparation p, String why) {
        return flags.add(
                new Flag(
                        context.study().table().place(p.rows().at(0)),
                        "preparation " + p.label() + ", " + context.compound(),
                        "left out: " + why));
    }
}
