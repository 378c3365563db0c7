package splitledger.characteristic.detection;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import splitledger.propagation.WeightedLine;
import splitledger.statistics.LineFit;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.Quantiles;
import splitledger.statistics.VarianceEstimate;
import splitledger.statistics.Weighting;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Rows;
import splitledger.study.Study;
import splitledger.study.Trail;

/**
 * Limits from standard deviation and slope (ICH Q2(R2), from memory): detection 3.3 sigma/b,
 * quantification 10 sigma/b, with sigma the residual standard deviation or that of the intercept.
 *
 * <p>Interval: sigma carries chi-square scatter, the slope its own; both together are taken as the
 * chi-square scatter of so many degrees of freedom as give the same relative variance, 1/(2 nu') =
 * 1/(2 nu) + (u(b)/b)^2.
 */
final class CalibrationLimits {
    private static final double DETECTION = 3.3;
    private static final double QUANTIFICATION = 10;
    private static final double FAR = 10;
    private static final String RESIDUAL = "ICH Q2(R2), residual SD";
    private static final String INTERCEPT = "ICH Q2(R2), intercept SD";

    private CalibrationLimits() {}

    static List<Finding> of(
            Study study, String compound, Optional<WeightedLine> line, double lowest) {
        final List<Finding> findings = new ArrayList<>();
        for (String method : List.of(RESIDUAL, INTERCEPT)) {
            findings.add(one(study, compound, line, lowest, method, "detection-limit", DETECTION));
            findings.add(
                    one(
                            study,
                            compound,
                            line,
                            lowest,
                            method,
                            "quantification-limit",
                            QUANTIFICATION));
        }
        return findings;
    }

    private static Finding one(
            Study study,
            String compound,
            Optional<WeightedLine> line,
            double lowest,
            String method,
            String quantity,
            double factor) {
        final Key key = Key.of(Detection.ID, compound, quantity, method);
        final String unit = study.protocol().conventions().amountUnit();
        if (line.isEmpty()) {
            return Finding.of(
                    key,
                    Answers.not(
                            unit, Reason.NO_CALIBRATION, "no calibration line for this compound"),
                    Rows.NONE,
                    "");
        }
        final LineFit fit = line.get().line();
        final double coverage = study.protocol().conventions().coverage();
        final double t = Quantiles.coverageFactor(coverage, fit.degreesOfFreedom());
        if (fit.slope() == 0) {
            return Finding.of(
                    key,
                    Answers.not(unit, Reason.SLOPE_NOT_SIGNIFICANT, "the slope is 0"),
                    Rows.NONE,
                    "");
        }
        if (!(fit.slopeT() > t)) {
            return Finding.of(
                    key,
                    Answers.not(
                            unit,
                            Reason.SLOPE_NOT_SIGNIFICANT,
                            "the slope is not told from 0 (|t| = "
                                    + Trail.digits(fit.slopeT())
                                    + ", needs "
                                    + Trail.digits(t)
                                    + ")"),
                    Rows.NONE,
                    "");
        }
        final boolean residual = method.equals(RESIDUAL);
        final double sigma =
                residual
                        ? fit.residualSd() * Math.sqrt(fit.weighting().variance(lowest))
                        : Math.sqrt(fit.interceptVariance());
        final String note =
                residual && fit.weighting() != Weighting.NONE
                        ? "the scatter grows with the amount: sigma is taken at the lowest level"
                        : "";
        return Finding.of(
                key, answer(line.get(), sigma, factor, unit, coverage, lowest), Rows.NONE, note);
    }

    private static Answer answer(
            WeightedLine line,
            double sigma,
            double factor,
            String unit,
            double coverage,
            double lowest) {
        final LineFit fit = line.line();
        final double nu = fit.degreesOfFreedom();
        final double relative = line.slope().standardUncertainty() / Math.abs(fit.slope());
        final double together = 1 / (1 / nu + 2 * relative * relative);
        final double limit = factor * sigma / Math.abs(fit.slope());
        final VarianceEstimate v = new VarianceEstimate(limit * limit, together);
        if (limit > 0 && lowest > FAR * limit) {
            return new Answer.Bound(
                    OptionalDouble.of(limit),
                    unit,
                    OptionalDouble.empty(),
                    OptionalDouble.of(v.sdUpper(2 * coverage - 1)),
                    coverage,
                    "lowest-level-too-high",
                    "the lowest level "
                            + Trail.digits(lowest)
                            + " "
                            + unit
                            + " is more than ten times the limit: the scatter near nothing was not seen; calibrate lower");
        }
        return Answers.sd(v, 1, unit, coverage);
    }
}
