package splitledger.characteristic.recovery;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import splitledger.propagation.Uncertain;
import splitledger.statistics.Outcome;
import splitledger.statistics.VarianceEstimate;
import splitledger.study.Rows;

/**
 * The recovery at a level or of all levels together.
 *
 * @param level empty for all together
 * @param amount mean amount added or certified; NaN for all together
 * @param value with all its roots, or why there is none
 * @param scatter variance of single recoveries, if there is an estimate
 * @param preparations how many it rests on
 * @param rows it rests on
 * @param notes what a reader must know beside it
 */
record RecoveryEstimate(
        String level,
        double amount,
        Outcome<Uncertain> value,
        Optional<VarianceEstimate> scatter,
        int preparations,
        Rows rows,
        List<String> notes) {
    RecoveryEstimate {
        notes = List.copyOf(notes);
    }

    /** Nothing, and why. */
    static RecoveryEstimate not(Outcome.Reason reason, String detail, Rows rows) {
        return new RecoveryEstimate(
                "", Double.NaN, Outcome.not(reason, detail), Optional.empty(), 0, rows, List.of());
    }

    /** The same with one more note. */
    RecoveryEstimate noting(String note) {
        final List<String> more = new ArrayList<>(notes);
        more.add(note);
        return new RecoveryEstimate(level, amount, value, scatter, preparations, rows, more);
    }
}
