package splitledger.characteristic.recovery;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.characteristic.calibration.AmountErrors;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.study.Choice;
import splitledger.study.StandardAmounts;

/**
 * Amounts added to samples, with what makes them uncertain: how their solution was made, if the
 * protocol tells it (what it shares with the calibrants then cancels), a stated relative
 * uncertainty of all of them, and one for each level by a column.
 */
final class AddedAmount {
    private static final double PERCENT = 100;

    private final RecoveryContext context;
    private final Optional<StandardAmounts> made;
    private final double common;
    private boolean told;
    private boolean uncertain;

    AddedAmount(RecoveryContext context) {
        this.context = context;
        this.made = AmountErrors.made(context.study());
        this.common = context.options().number("added-uncertainty").orElse(0) / PERCENT;
    }

    /** The relative error of what was added, as parts about 1. */
    Uncertain relative(RecoveryPreparation p) {
        final List<Uncertain> terms = new ArrayList<>();
        final Optional<Uncertain> byTree =
                made.flatMap(tree -> tree.amount(p.level(), context.compound()))
                        .filter(a -> a.value() > 0);
        if (byTree.isPresent()) {
            told = true;
            terms.add(byTree.get().scaled(1 / byTree.get().value(), "1").at(0));
        }
        final SortedMap<Root, Double> parts = new TreeMap<>();
        final String id = "recovery/added/" + context.compound();
        if (common > 0) {
            parts.put(root(id, "stated uncertainty of the amounts added"), common);
        }
        if (p.addedU() > 0) {
            parts.put(
                    root(
                            id + "/" + p.level(),
                            "uncertainty of the amount added by the column "
                                    + context.text("added-u")),
                    p.addedU() / p.added());
        }
        terms.add(Uncertain.of(0, "1", parts));
        final double[] ones = new double[terms.size()];
        Arrays.fill(ones, 1);
        final Uncertain all = Uncertain.combine(1, "1", ones, terms);
        uncertain |= all.standardUncertainty() > 0;
        return all;
    }

    /** What was decided; to be asked for after all amounts. */
    List<Choice> choices() {
        if (told) {
            return List.of(
                    context.choice(
                            "What the amounts added share with the calibrants by the way both were made cancels in the recovery",
                            "both come from the protocol's standards",
                            "follows from the definition"));
        }
        if (!uncertain) {
            return List.of(
                    context.choice(
                            "The amounts added are taken as exact",
                            "no uncertainty is stated for them (added-uncertainty, added-u, or a solution under standards with"
                                    + " the name of the level)",
                            "stated in the protocol"));
        }
        return List.of();
    }

    private static Root root(String id, String origin) {
        return Root.normal(
                id, Pool.known(id, origin), Effect.STANDARD_AMOUNT, ActsOn.REFERENCE, origin);
    }
}
