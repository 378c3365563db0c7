package splitledger.characteristic.recovery;

import java.util.List;
import splitledger.statistics.EqualMeans;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.study.Choice;
import splitledger.study.Flag;
import splitledger.study.Rows;

/**
 * What one way gives for one compound.
 *
 * @param units the single recoveries
 * @param levels by amount
 * @param pooled all levels together
 * @param homogeneity whether the levels agree
 */
record RecoveryResult(
        RecoveryKind kind,
        String compound,
        List<RecoveryUnit> units,
        List<RecoveryEstimate> levels,
        RecoveryEstimate pooled,
        Outcome<EqualMeans> homogeneity,
        List<Choice> choices,
        List<Flag> flags) {
    RecoveryResult {
        units = List.copyOf(units);
        levels = List.copyOf(levels);
        choices = List.copyOf(choices);
        flags = List.copyOf(flags);
    }

    /** Nothing, and why. */
    static RecoveryResult not(
            RecoveryKind kind, String compound, Reason reason, String detail, List<Flag> flags) {
        return new RecoveryResult(
                kind,
                compound,
                List.of(),
                List.of(),
                RecoveryEstimate.not(reason, detail, Rows.NONE),
                Outcome.not(reason, detail),
                List.of(),
                flags);
    }

    /** From single recoveries. */
    static RecoveryResult of(
            RecoveryKind kind,
            String compound,
            List<RecoveryUnit> units,
            String noun,
            List<Choice> choices,
            List<Flag> flags) {
        final RecoveryPooling pooling =
                new RecoveryPooling("recovery/" + kind.condition() + "/" + compound, units, noun);
        return new RecoveryResult(
                kind,
                compound,
                units,
                pooling.levels(),
                pooling.pooled(),
                pooling.homogeneity(),
                choices,
                flags);
    }
}
