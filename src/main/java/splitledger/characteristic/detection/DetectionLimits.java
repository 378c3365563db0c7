package splitledger.characteristic.detection;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.Function;
import splitledger.characteristic.calibration.ScatterNearNothing;
import splitledger.propagation.ScatterLine;
import splitledger.statistics.BlankLimits;
import splitledger.statistics.Limit;
import splitledger.statistics.LineLimits;
import splitledger.statistics.Moments;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.Quantiles;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Rows;
import splitledger.study.Trail;

/**
 * Limits of one compound by each document's own definition, for a sample of one preparation that is
 * injected as often as the calibrants are; false-positive and false-negative risks of 5 % each.
 *
 * <p>A limit is an estimate only where the data carry the scatter near nothing: two levels at which
 * the constant part of the scatter is the larger one, or (for the documents that use blanks) 10
 * blanks; and where the lowest level is no more than ten times the limit. Else it is an upper
 * bound.
 */
final class DetectionLimits {
    static final String CRITICAL = "critical-value";
    static final String DETECTION = "detection-limit";
    static final String QUANTIFICATION = "quantification-limit";
    static final String ISO = "ISO 11843-2";
    static final String HUBAUX_VOS = "Hubaux and Vos 1970";
    static final String DIN = "DIN 32645, calibration";
    static final String DIN_BLANK = "DIN 32645, blanks";
    static final String CURRIE = "Currie, blanks";
    static final String ICH_RESIDUAL = "ICH Q2(R2), residual SD";
    static final String ICH_INTERCEPT = "ICH Q2(R2), intercept SD";

    private static final double RISK = 0.05;
    private static final double FAR = 10;
    private static final double BLANKS = 10;
    private static final double CURRIE_FACTOR = 10;
    private static final double DIN_FACTOR = 3;

    private final ScatterLine line;
    private final String compound;
    private final double coverage;
    private final double lowest;
    private final Blanks blanks;
    private final List<Decision> decisions = new ArrayList<>();

    /**
     * For one compound.
     *
     * @param lowest lowest amount above 0 of the calibrants
     */
    DetectionLimits(
            String compound, ScatterLine line, double coverage, double lowest, Blanks blanks) {
        this.compound = compound;
        this.line = line;
        this.coverage = coverage;
        this.lowest = lowest;
        this.blanks = blanks;
        byLine();
        byBlanks();
    }

    /**
     * Amounts found in blanks, one a preparation.
     *
     * @param found of those with a response; empty if there is none
     * @param count of their number
     * @param silent blanks in which nothing was detected
     */
    record Blanks(java.util.Optional<Moments> found, int count, int silent) {
        /** No blanks. */
        static final Blanks NONE = new Blanks(java.util.Optional.empty(), 0, 0);

        static Blanks of(FoundAmounts found) {
            return found.values().size() == 0
                    ? new Blanks(java.util.Optional.empty(), 0, found.silent())
                    : new Blanks(
                            java.util.Optional.of(Moments.ofAll(found.values().toArray())),
                            found.values().size(),
                            found.silent());
        }
    }

    /**
     * What one document says.
     *
     * @param method its name
     * @param critical above it something is there; or why it knows none
     * @param detection amount that is missed no more often than wanted
     * @param quantification amount that is quantified
     * @param carried whether the data carry the scatter it rests on
     * @param note what a reader must know
     */
    record Decision(
            String method,
            Outcome<Limit> critical,
            Outcome<Limit> detection,
            Outcome<Limit> quantification,
            boolean carried,
            String note) {}

    /** All documents, in order. */
    List<Decision> decisions() {
        return List.copyOf(decisions);
    }

    private static Outcome<Limit> undefined() {
        return Outcome.not(Reason.NOT_DEFINED, "not defined by this document");
    }

    private void byLine() {
        final Outcome<LineLimits> limits =
                line.isGiven()
                        ? LineLimits.of(line.fit(), 1, coverage)
                        : LineLimits.averaged(line.fit(), 1, coverage);
        final boolean carried = ScatterNearNothing.carriesConstant(line);
        add(
                ISO,
                each(limits, l -> Outcome.of(l.criticalValue(RISK))),
                each(limits, l -> l.detectable(RISK, RISK)),
                undefined(),
                carried,
                "");
        add(
                HUBAUX_VOS,
                each(limits, l -> Outcome.of(l.criticalValue(RISK))),
                each(limits, l -> l.hubauxVos(RISK, RISK)),
                undefined(),
                carried,
                "");
        final boolean same =
                line.fit().law().form() == splitledger.statistics.ScatterLaw.Form.CONSTANT;
        final Outcome<LineLimits> din =
                same
                        ? limits
                        : Outcome.not(
                                Reason.NOT_DEFINED,
                                "this document knows the same scatter at every level only, and here it grows");
        add(
                DIN,
                each(din, l -> Outcome.of(l.criticalValue(RISK))),
                each(din, l -> Outcome.of(l.twiceCritical(RISK))),
                each(din, l -> l.dinQuantification(DIN_FACTOR, RISK)),
                carried,
                "risks of 5 %, relative half-width 1/3");
        final double at = carried ? 0 : lowest;
        final String words =
                same
                        ? ""
                        : "the scatter grows with the response: sigma is taken at "
                                + (carried ? "amount 0" : "the lowest level");
        add(
                ICH_RESIDUAL,
                undefined(),
                each(limits, l -> Outcome.of(l.byScatter(3.3, at))),
                each(limits, l -> Outcome.of(l.byScatter(10, at))),
                carried,
                words);
        add(
                ICH_INTERCEPT,
                undefined(),
                each(limits, l -> Outcome.of(l.byIntercept(3.3))),
                each(limits, l -> Outcome.of(l.byIntercept(10))),
                carried,
                "");
    }

    private void byBlanks() {
        final double slope = Math.abs(line.slope().value());
        final double u = line.slope().standardUncertainty();
        final double needed =
                Quantiles.coverageFactor(1 - RISK, Math.max(1, line.slope().degreesOfFreedom()));
        final Outcome<BlankLimits> limits;
        if (!(slope > needed * u)) {
            limits =
                    Outcome.not(
                            Reason.SLOPE_NOT_SIGNIFICANT,
                            "the slope is not told from 0 (|t| = "
                                    + (float) (slope / u)
                                    + ", needs "
                                    + (float) needed
                                    + ")");
        } else if (blanks.silent() > 0) {
            limits =
                    Outcome.not(
                            Reason.NOT_DETECTED,
                            blanks.silent()
                                    + " of "
                                    + (blanks.silent() + blanks.count())
                                    + " blanks are below the integrator's threshold: the scatter of the others is not that of"
                                    + " blanks; force the integration");
        } else if (blanks.found().isEmpty()) {
            limits = Outcome.not(Reason.TOO_FEW_BLANKS, "needs 2 blanks, found 0");
        } else {
            limits = BlankLimits.of(blanks.found().get(), 1, u / slope);
        }
        final boolean carried = blanks.count() >= BLANKS;
        final String words = "of " + blanks.count() + " blanks";
        add(
                CURRIE,
                each(limits, l -> Outcome.of(l.criticalValue(RISK))),
                each(limits, l -> Outcome.of(l.detectable(RISK, RISK))),
                each(limits, l -> Outcome.of(l.multiple(CURRIE_FACTOR))),
                carried,
                words);
        add(
                DIN_BLANK,
                each(limits, l -> Outcome.of(l.criticalValue(RISK))),
                each(limits, l -> Outcome.of(l.twiceCritical(RISK))),
                Outcome.not(
                        Reason.NOT_DEFINED,
                        "this document's quantification limit needs its calibration method"),
                carried,
                words);
    }

    private static <T> Outcome<Limit> each(Outcome<T> outcome, Function<T, Outcome<Limit>> limit) {
        return outcome.fold(limit, not -> Outcome.not(not.reason(), not.detail()));
    }

    private void add(
            String method,
            Outcome<Limit> critical,
            Outcome<Limit> detection,
            Outcome<Limit> quantification,
            boolean carried,
            String note) {
        decisions.add(new Decision(method, critical, detection, quantification, carried, note));
    }

    /** The findings of every document. */
    List<Finding> findings() {
        final List<Finding> findings = new ArrayList<>();
        for (Decision d : decisions) {
            findings.add(finding(d, CRITICAL, d.critical()));
            findings.add(finding(d, DETECTION, d.detection()));
            findings.add(finding(d, QUANTIFICATION, d.quantification()));
        }
        return findings;
    }

    private Finding finding(Decision d, String quantity, Outcome<Limit> outcome) {
        final Key key = Key.of(Detection.ID, compound, quantity, d.method());
        return outcome.fold(
                limit -> Finding.of(key, answer(d, limit), Rows.NONE, d.note()),
                not -> Finding.of(key, Answers.not(line.amountUnit(), not), Rows.NONE, ""));
    }

    private Answer answer(Decision d, Limit limit) {
        if (Double.isNaN(limit.upper(coverage))) {
            return Answers.not(
                    line.amountUnit(),
                    Reason.NO_FINITE_VALUE,
                    "nothing but rounding scatters: the limit has no interval");
        }
        final boolean byBlanks = d.method().equals(CURRIE) || d.method().equals(DIN_BLANK);
        if (!d.carried()) {
            return bound(
                    limit,
                    byBlanks ? "too-few-blanks" : "scatter-near-nothing-not-seen",
                    byBlanks
                            ? "needs 10 blanks for more than a bound, found " + blanks.count()
                            : ScatterNearNothing.tooHigh(line));
        }
        final double detection = d.detection().fold(Limit::value, not -> Double.NaN);
        if (!byBlanks && detection > 0 && lowest > FAR * detection) {
            return bound(
                    limit,
                    "lowest-level-too-high",
                    "the lowest level "
                            + Trail.digits(lowest)
                            + " "
                            + line.amountUnit()
                            + " is more than ten times the limit: the scatter near nothing was not seen; calibrate lower");
        }
        return new Answer.Estimate(
                limit.value(),
                line.amountUnit(),
                limit.standardUncertainty(),
                limit.spread(),
                limit.lower(coverage),
                limit.upper(coverage),
                coverage,
                Answer.Law.CHI_SQUARE,
                java.util.Optional.empty());
    }

    private Answer bound(Limit limit, String reason, String detail) {
        return new Answer.Bound(
                OptionalDouble.of(limit.value()),
                line.amountUnit(),
                OptionalDouble.empty(),
                OptionalDouble.of(limit.upper(2 * coverage - 1)),
                coverage,
                reason,
                detail);
    }
}
