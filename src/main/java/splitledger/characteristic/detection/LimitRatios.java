package splitledger.characteristic.detection;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import splitledger.characteristic.calibration.CalibrationFit;
import splitledger.characteristic.calibration.GroupFits;
import splitledger.characteristic.calibration.ScatterNearNothing;
import splitledger.propagation.ScatterLine;
import splitledger.statistics.Limit;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.Quantiles;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Rows;
import splitledger.study.Tree;

/**
 * Detection limit (ISO 11843-2) of a group over that of the reference group, both in the unit of
 * the amounts. Each limit scatters as a standard deviation, so that the squared ratio has an F
 * interval with the degrees of freedom of both.
 */
final class LimitRatios {
    private static final String QUANTITY = "detection-limit-ratio";

    private LimitRatios() {}

    static List<Finding> of(String compound, GroupFits groups, double coverage) {
        final List<Finding> findings = new ArrayList<>();
        for (Map.Entry<String, CalibrationFit> other : groups.others().entrySet()) {
            final Key key =
                    groups.condition(
                            Key.of(Detection.ID, compound, QUANTITY, DetectionLimits.ISO),
                            other.getKey());
            findings.add(
                    Finding.of(
                            key,
                            ratio(
                                    groups.referenceFit()
                                            .flatMap(fit -> limit(compound, fit, coverage)),
                                    limit(compound, other.getValue(), coverage),
                                    coverage),
                            Rows.NONE,
                            ""));
        }
        return findings;
    }

    private static Optional<Limit> limit(String compound, CalibrationFit fit, double coverage) {
        final Optional<ScatterLine> line = fit.scatterLine();
        if (line.isEmpty() || !ScatterNearNothing.carriesConstant(line.get())) {
            return Optional.empty();
        }
        return new DetectionLimits(compound, line.get(), coverage, 0, DetectionLimits.Blanks.NONE)
                .decisions().stream()
                        .filter(d -> d.method().equals(DetectionLimits.ISO))
                        .findFirst()
                        .flatMap(d -> d.detection().fold(Optional::of, not -> Optional.empty()));
    }

    private static Answer ratio(Optional<Limit> under, Optional<Limit> over, double coverage) {
        if (under.isEmpty() || over.isEmpty()) {
            return Answers.not(
                    "1",
                    Reason.NO_CALIBRATION,
                    "both groups need a calibration of their own that carries the scatter near nothing");
        }
        final double ratio = over.get().value() / under.get().value();
        final double a = over.get().spread();
        final double b = under.get().spread();
        final double tail = (1 - coverage) / 2;
        return new Answer.Estimate(
                ratio,
                "1",
                ratio * Math.sqrt(1 / (2 * a) + 1 / (2 * b)),
                1 / (1 / a + 1 / b),
                ratio / Math.sqrt(Quantiles.f(1 - tail, a, b)),
                ratio / Math.sqrt(Quantiles.f(tail, a, b)),
                coverage,
                Answer.Law.ENDS,
                Optional.empty());
    }

    /** Whether the protocol asks for groups. */
    static boolean wanted(Tree.Mapping options) {
        return options.get("groups").isPresent();
    }
}
