package splitledger.characteristic.precision;

import java.util.Map;
import splitledger.characteristic.Responses;
import splitledger.propagation.UncertainLine;
import splitledger.statistics.Moments;
import splitledger.statistics.Outcome.Reason;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Rows;
import splitledger.study.Study;

/** The amount at which precision was studied: the mean response read off the calibration line. */
final class StudiedAmount {
    private static final String QUANTITY = "amount-studied";

    private final Study study;
    private final Responses responses;
    private final Map<String, UncertainLine> lines;

    StudiedAmount(Study study, Map<String, UncertainLine> lines) {
        this.study = study;
        this.responses = Responses.of(study);
        this.lines = lines;
    }

    Finding of(String compound, Rows rows) {
        final Key key = Key.of(Repeatability.ID, compound, QUANTITY, "calibration line");
        final String unit = study.protocol().conventions().amountUnit();
        final UncertainLine line = lines.get(compound);
        if (line == null) {
            return Finding.of(
                    key,
                    Answers.not(unit, Reason.NO_CALIBRATION, "there is no calibration line"),
                    rows,
                    "");
        }
        final double[] y =
                responses.pick(rows, compound, false).used().stream()
                        .mapToDouble(Responses.Response::value)
                        .toArray();
        final double amount = y.length == 0 ? Double.NaN : line.read(Moments.ofAll(y).mean());
        return Finding.of(
                key,
                Double.isNaN(amount)
                        ? Answers.not(
                                unit,
                                Reason.NO_FINITE_VALUE,
                                "no response lies on the calibration line")
                        : new Answer.Statistic(amount, unit),
                rows,
                "mean response of the precision study");
    }
}
