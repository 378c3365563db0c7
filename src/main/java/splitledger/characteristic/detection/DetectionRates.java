package splitledger.characteristic.detection;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import splitledger.characteristic.Digits;
import splitledger.characteristic.Seeds;
import splitledger.propagation.ScatterLine;
import splitledger.statistics.DetectionTrial;
import splitledger.statistics.ErrorRates;
import splitledger.statistics.ErrorRates.Rate;
import splitledger.statistics.Limit;
import splitledger.statistics.RandomStream;
import splitledger.study.Answer;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Rows;

/**
 * How often decisions by a document's limits would be wrong: over repetitions of the whole
 * experiment, and with this calibration kept. The threshold is the document's critical value, or
 * its detection limit where it knows no critical value; misses are counted at its detection limit.
 */
final class DetectionRates {
    private static final int REPETITIONS = 2000;
    static final String POSITIVE = "expected-false-positive-rate";
    static final String NEGATIVE = "expected-false-negative-rate";

    private final ScatterLine line;
    private final String compound;
    private final double coverage;

    DetectionRates(String compound, ScatterLine line, double coverage) {
        this.compound = compound;
        this.line = line;
        this.coverage = coverage;
    }

    List<Finding> of(DetectionLimits.Decision d) {
        final Optional<Limit> detection = computed(d.detection());
        final Optional<Limit> threshold = computed(d.critical()).or(() -> detection);
        final boolean straight = line.law() == splitledger.statistics.MeanLaw.LINE;
        if (!straight || detection.isEmpty() || threshold.isEmpty()) {
            return List.of();
        }
        return of(d.method(), threshold.get(), detection.get().value(), d.carried());
    }

    /**
     * Rates of one decision.
     *
     * @param carried whether the data carry the scatter near nothing
     */
    List<Finding> of(String method, Limit threshold, double claimed, boolean carried) {
        final DetectionTrial trial =
                new DetectionTrial(
                        line.fit(),
                        line.fit().amounts(),
                        line.fit().shares(),
                        1,
                        threshold,
                        claimed);
        final String words =
                "present above "
                        + Digits.three(threshold.value())
                        + ", missed at "
                        + Digits.three(claimed)
                        + " "
                        + line.amountUnit()
                        + (carried
                                ? ""
                                : "; the scatter near nothing was not seen, so that this is a guess");
        final List<Finding> findings = new ArrayList<>();
        final Key plain = Key.of(Detection.ID, compound, POSITIVE, method);
        add(
                findings,
                plain,
                trial.wholeExperiment(
                        REPETITIONS,
                        RandomStream.of(Seeds.of(compound, method, "whole"), 0),
                        coverage),
                words + "; calibration and sample anew, " + REPETITIONS + " repetitions");
        add(
                findings,
                plain.with("calibration", "kept"),
                trial.calibrationKept(
                        RandomStream.of(Seeds.of(compound, method, "kept"), 0), coverage),
                words + "; this calibration kept");
        return findings;
    }

    private void add(List<Finding> findings, Key key, ErrorRates rates, String note) {
        findings.add(Finding.of(key, answer(rates.falsePositive()), Rows.NONE, note));
        final Key negative =
                new Key(
                        key.characteristic(),
                        key.compound(),
                        key.condition(),
                        NEGATIVE,
                        key.method());
        findings.add(Finding.of(negative, answer(rates.falseNegative()), Rows.NONE, note));
    }

    private Answer answer(Rate rate) {
        return new Answer.Estimate(
                rate.value(),
                "1",
                rate.standardUncertainty(),
                Double.POSITIVE_INFINITY,
                rate.lower(),
                rate.upper(),
                coverage,
                Answer.Law.ENDS,
                Optional.empty());
    }

    private static Optional<Limit> computed(splitledger.statistics.Outcome<Limit> outcome) {
        return outcome.fold(Optional::of, not -> Optional.empty());
    }
}
