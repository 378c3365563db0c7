package splitledger.characteristic.detection;

import java.util.OptionalDouble;
import splitledger.characteristic.Digits;
import splitledger.propagation.UncertainLine;
import splitledger.statistics.Moments;
import splitledger.statistics.Outcome.Reason;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Study;
import splitledger.study.Tree;

/**
 * A claimed quantification limit put to the test: at least 6 independent preparations at that
 * amount, their mean recovery and relative standard deviation against what the laboratory allows.
 */
final class LimitVerification {
    private static final String QUANTITY = "limit-verified";
    private static final int FEWEST = 6;
    private static final double PERCENT = 100;

    private LimitVerification() {}

    static Finding of(
            Study study,
            String compound,
            UncertainLine line,
            Tree.Mapping options,
            FoundAmounts found) {
        final Key key = Key.of(Detection.ID, compound, QUANTITY, "preparations at the limit");
        final OptionalDouble recovery = options.number("recovery-allowed");
        final OptionalDouble rsd = options.number("rsd-allowed");
        final double[] claimed =
                found.rows().stream()
                        .mapToDouble(row -> study.table().number("amount", row))
                        .distinct()
                        .toArray();
        if (found.values().size() < FEWEST) {
            return none(
                    key,
                    Reason.TOO_FEW_PREPARATIONS,
                    "needs 6 independent preparations at the limit, found " + found.values().size(),
                    found);
        }
        if (claimed.length != 1 || !(claimed[0] > 0)) {
            return none(
                    key,
                    Reason.TOO_FEW_LEVELS,
                    "the preparations must all hold one amount above 0, the claimed limit (column amount)",
                    found);
        }
        final Moments m = Moments.ofAll(found.values().toArray());
        final double mean = PERCENT * m.mean() / claimed[0];
        final double spread = PERCENT * m.sd() / Math.abs(m.mean());
        final String words =
                "at "
                        + Digits.three(claimed[0])
                        + " "
                        + line.amountUnit()
                        + ": recovery "
                        + Digits.three(mean)
                        + " %, relative standard deviation "
                        + Digits.three(spread)
                        + " % of "
                        + m.count()
                        + " preparations"
                        + (found.silent() > 0
                                ? "; nothing was detected in " + found.silent() + " more"
                                : "");
        if (recovery.isEmpty() || rsd.isEmpty()) {
            return none(
                    key,
                    Reason.NO_LIMIT_STATED,
                    words
                            + "; the protocol must say what is allowed (recovery-allowed: deviation from 100 %, rsd-allowed)",
                    found);
        }
        final boolean verified =
                found.silent() == 0
                        && Math.abs(mean - PERCENT) <= recovery.getAsDouble()
                        && spread <= rsd.getAsDouble();
        return Finding.of(key, new Answer.Statistic(verified ? 1 : 0, "1"), found.rows(), words);
    }

    private static Finding none(Key key, Reason reason, String detail, FoundAmounts found) {
        return Finding.of(key, Answers.not("1", reason, detail), found.rows(), "");
    }
}
