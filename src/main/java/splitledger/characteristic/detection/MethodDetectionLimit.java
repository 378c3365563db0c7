package splitledger.characteristic.detection;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import splitledger.characteristic.Responses;
import splitledger.propagation.UncertainLine;
import splitledger.statistics.Moments;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.Quantiles;
import splitledger.statistics.VarianceEstimate;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Finding;
import splitledger.study.Flag;
import splitledger.study.Key;
import splitledger.study.Rows;
import splitledger.study.Study;

/**
 * The method detection limit of US 40 CFR 136 Appendix B revision 2 (from memory): from spiked
 * preparations t(n-1, 0.99) s; from blanks mean (not below 0) + t(n-1, 0.99) s if all blanks give a
 * number, the highest blank if some do, not applicable if none does; the larger of both. At least 7
 * of each.
 */
final class MethodDetectionLimit {
    static final String QUANTITY = "method-detection-limit";
    static final String METHOD = "US 40 CFR 136 App. B rev. 2";
    static final int FEWEST = 7;
    static final double PROBABILITY = 0.99;

    private final Study study;
    private final Responses responses;
    private final String compound;
    private final Optional<UncertainLine> line;
    private final String unit;
    private final double coverage;
    private final List<Flag> leftOut = new ArrayList<>();

    MethodDetectionLimit(
            Study study, Responses responses, String compound, Optional<UncertainLine> line) {
        this.study = study;
        this.responses = responses;
        this.compound = compound;
        this.line = line;
        this.unit = study.protocol().conventions().amountUnit();
        this.coverage = study.protocol().conventions().coverage();
    }

    /** Rows that gave no amount. */
    List<Flag> leftOut() {
        return List.copyOf(leftOut);
    }

    List<Finding> findings(Rows spikedRows, Rows blankRows) {
        final Key key = Key.of(Detection.ID, compound, QUANTITY, METHOD);
        final Finding undefined =
                Finding.of(
                        Key.of(Detection.ID, compound, "quantification-limit", METHOD),
                        Answers.not(unit, Reason.NOT_DEFINED, "not defined by this document"),
                        Rows.NONE,
                        "");
        if (line.isEmpty()) {
            final Answer none =
                    Answers.not(
                            unit, Reason.NO_CALIBRATION, "no calibration line for this compound");
            return List.of(Finding.of(key, none, Rows.NONE, ""), undefined);
        }
        final FoundAmounts spiked = amounts(line.get(), spikedRows);
        final FoundAmounts blank = amounts(line.get(), blankRows);
        final Answer ofSpiked = spiked(spiked);
        final Answer ofBlank = blank(blank);
        return List.of(
                Finding.of(key.with("form", "spiked"), ofSpiked, spiked.rows(), ""),
                Finding.of(key.with("form", "blank"), ofBlank, blank.rows(), ""),
                Finding.of(
                        key,
                        larger(ofSpiked, ofBlank, blank),
                        spiked.rows(),
                        "a critical value at a false-positive risk of 1 %: an amount at this limit is missed in about half"
                                + " of all cases"),
                undefined);
    }

    private Answer spiked(FoundAmounts spiked) {
        if (spiked.values().size() < FEWEST) {
            return Answers.not(
                    unit,
                    Reason.TOO_FEW_PREPARATIONS,
                    "needs 7 spiked preparations with a response, found " + spiked.values().size());
        }
        final Moments m = Moments.ofAll(spiked.values().toArray());
        final VarianceEstimate v = new VarianceEstimate(m.variance(), m.count() - 1.0);
        return Answers.sd(v, Quantiles.t(PROBABILITY, v.degreesOfFreedom()), unit, coverage);
    }

    private Answer blank(FoundAmounts blank) {
        if (blank.preparations() < FEWEST) {
            return Answers.not(
                    unit, Reason.TOO_FEW_BLANKS, "needs 7 blanks, found " + blank.preparations());
        }
        if (blank.values().size() == 0) {
            return Answers.not(
                    unit,
                    Reason.NOT_DETECTED,
                    "no blank gives a number: the blank form does not apply by its document");
        }
        final Moments m = Moments.ofAll(blank.values().toArray());
        if (blank.values().size() < blank.preparations()) {
            final double highest = blank.values().stream().max().orElse(0);
            return new Answer.Statistic(highest, unit);
        }
        final VarianceEstimate v = new VarianceEstimate(m.variance(), m.count() - 1.0);
        final double t = Quantiles.t(PROBABILITY, v.degreesOfFreedom());
        final double mean = Math.max(0, m.mean());
        return new Answer.Estimate(
                mean + t * v.sd(),
                unit,
                Math.sqrt(v.variance() / m.count() + t * t * v.sdUncertainty() * v.sdUncertainty()),
                v.degreesOfFreedom(),
                mean + t * v.sdLower(coverage),
                mean + t * v.sdUpper(coverage),
                coverage,
                Answer.Law.ENDS,
                Optional.empty());
    }

    private Answer larger(Answer ofSpiked, Answer ofBlank, FoundAmounts blank) {
        if (!(ofSpiked instanceof Answer.Estimate s)) {
            return ofSpiked;
        }
        if (ofBlank instanceof Answer.Estimate b) {
            return b.value() > s.value() ? b : s;
        }
        if (ofBlank instanceof Answer.Statistic b) {
            return b.value() > s.value() ? b : s;
        }
        return blank.preparations() >= FEWEST ? s : ofBlank;
    }

    private FoundAmounts amounts(UncertainLine known, Rows rows) {
        final FoundAmounts found = FoundAmounts.of(study, responses, known, rows, compound);
        leftOut.addAll(found.leftOut());
        return found;
    }
}
