package splitledger.characteristic.calibration;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import splitledger.propagation.Uncertain;
import splitledger.propagation.UncertainLine;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.Quantiles;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Rows;

/**
 * Sensitivity of groups against a reference group: slope over slope. What both slopes share (the
 * stock of the calibrants) cancels, as both carry its causes.
 */
final class GroupFindings {
    private static final String RATIO = "sensitivity-ratio";
    private static final String MATRIX = "matrix-effect";

    private GroupFindings() {}

    static List<Finding> of(String compound, GroupFits groups, double coverage) {
        final List<Finding> findings = new ArrayList<>();
        for (Map.Entry<String, CalibrationFit> other : groups.others().entrySet()) {
            final String group = other.getKey();
            final CalibrationFit fit = other.getValue();
            final Answer answer = ratio(groups.referenceFit(), fit, coverage);
            final Key key =
                    groups.condition(Key.of(Calibration.ID, compound, RATIO, fit.method()), group);
            findings.add(Finding.of(key, answer, Rows.NONE, ""));
            if (groups.factor().equals("matrix")) {
                final Key matrix =
                        groups.condition(
                                Key.of(Calibration.ID, compound, MATRIX, fit.method()), group);
                findings.add(
                        Finding.of(
                                matrix,
                                answer,
                                Rows.NONE,
                                "1 means that the matrix changes nothing in the slope"));
            }
        }
        return findings;
    }

    private static Answer ratio(
            Optional<CalibrationFit> reference, CalibrationFit fit, double coverage) {
        final Optional<UncertainLine> under = reference.flatMap(CalibrationFit::line);
        final Optional<UncertainLine> over = fit.line();
        if (under.isEmpty() || over.isEmpty()) {
            return Answers.not(
                    "1",
                    Reason.NO_CALIBRATION,
                    "one of the groups has no calibration of its own, or the reference group is not there");
        }
        final Uncertain a = under.get().slope();
        final Uncertain b = over.get().slope();
        final double t = Math.abs(a.value()) / Math.max(Double.MIN_NORMAL, a.standardUncertainty());
        final double needed = Quantiles.coverageFactor(coverage, a.degreesOfFreedom());
        if (!(t > needed)) {
            return Answers.not(
                    "1",
                    Reason.SLOPE_NOT_SIGNIFICANT,
                    "the slope of the reference group is not told from 0");
        }
        final double ratio = b.value() / a.value();
        return Answers.student(
                Uncertain.combine(
                        ratio,
                        "1",
                        new double[] {1 / a.value(), -ratio / a.value()},
                        List.of(b, a)),
                coverage);
    }
}
