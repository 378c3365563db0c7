package splitledger.characteristic.precision;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import splitledger.characteristic.Digits;
import splitledger.statistics.GroupDifference;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.ScatterFactor;
import splitledger.statistics.ScatterMoments;
import splitledger.statistics.ScatterStructure;
import splitledger.statistics.VarianceShare;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Rows;

/** What each factor of a precision study brings by itself, for one compound. */
final class PrecisionTerms {
    private static final double PERCENT = 100;
    private static final int FEW_LABELS = 5;

    private final String compound;
    private final Rows rows;
    private final String unit;
    private final double coverage;
    private final double meanOf;
    private final List<Finding> findings = new ArrayList<>();

    /**
     * For one compound.
     *
     * @param meanOf injections of one preparation that a result averages
     */
    PrecisionTerms(String compound, Rows rows, String unit, double coverage, double meanOf) {
        this.compound = compound;
        this.rows = rows;
        this.unit = unit;
        this.coverage = coverage;
        this.meanOf = meanOf;
    }

    /** All findings so far. */
    List<Finding> findings() {
        return List.copyOf(findings);
    }

    /** Scatter of each term but the residual; few labels give a bound alone. */
    void between(Components by, ScatterMoments moments, ScatterStructure structure) {
        for (int k = 0; k < structure.terms().size(); k++) {
            final ScatterFactor term = structure.terms().get(k);
            final double df = moments.degreesOfFreedom(k);
            final boolean few =
                    term.levels() < FEW_LABELS || (isCombined(term) && df < FEW_LABELS - 1);
            final String labels =
                    term.levels()
                            + " labels, "
                            + Digits.three(df)
                            + (df == 1 ? " degree of freedom" : " degrees of freedom");
            final Answer answer =
                    few
                            ? new Answer.Bound(
                                    OptionalDouble.empty(),
                                    unit,
                                    OptionalDouble.empty(),
                                    OptionalDouble.of(by.component(k, 2 * coverage - 1).sdUpper()),
                                    coverage,
                                    Reason.TOO_FEW_LEVELS.code(),
                                    labels + "; 5 labels are needed for an estimate")
                            : Answers.spread(by.component(k, coverage), 1, unit, coverage);
            findings.add(
                    Finding.of(
                            PrecisionFindings.key(compound, "sd-between", by.method())
                                    .with("factor", term.name()),
                            answer,
                            rows,
                            (few ? "" : labels) + ofMoments(by, moments, k, few)));
        }
    }

    private static boolean isCombined(ScatterFactor term) {
        return term.name().indexOf(':') >= 0;
    }

    private static String ofMoments(Components by, ScatterMoments moments, int term, boolean few) {
        if (!by.method().equals(PrecisionFindings.MOMENTS)) {
            return "";
        }
        final String start = few ? "" : "; ";
        final double raw = moments.raw(term);
        if (raw < 0) {
            return start
                    + "the estimate by moments is negative, variance "
                    + Digits.three(raw)
                    + ", and counts as 0 in sums";
        }
        return few
                ? "the estimate by moments, "
                        + Digits.three(Math.sqrt(raw))
                        + ", counts in the intermediate precision"
                : "";
    }

    void shares(ScatterMoments moments, ScatterStructure structure) {
        if (structure.terms().isEmpty()) {
            return;
        }
        final double[] weights = structure.intermediate(meanOf);
        for (int k = 0; k < weights.length; k++) {
            final VarianceShare share = VarianceShare.of(moments, k, weights, coverage);
            final Answer answer =
                    new Answer.Estimate(
                            PERCENT * share.value(),
                            "%",
                            PERCENT * share.standardUncertainty(),
                            moments.degreesOfFreedom(k),
                            PERCENT * share.lower(),
                            PERCENT * share.upper(),
                            coverage,
                            Answer.Law.ENDS,
                            Optional.empty());
            findings.add(
                    Finding.of(
                            PrecisionFindings.key(
                                            compound, "variance-share", PrecisionFindings.MOMENTS)
                                    .with("factor", structure.names().get(k)),
                            answer,
                            rows,
                            "of the variance of a result, " + PrecisionWords.result(meanOf)));
        }
    }

    void difference(ScatterStructure structure, ScatterFactor term, double[] y) {
        final Key key =
                PrecisionFindings.key(compound, "difference-between", PrecisionFindings.MOMENTS)
                        .with("factor", term.name());
        findings.add(
                GroupDifference.of(structure, term.name(), y)
                        .fold(
                                d ->
                                        Finding.of(
                                                key,
                                                Answers.student(
                                                        d.difference(),
                                                        unit,
                                                        d.standardUncertainty(),
                                                        d.degreesOfFreedom(),
                                                        coverage),
                                                rows,
                                                "first label in order of the table less the other; judged by the scatter of "
                                                        + String.join(" and ", d.error())
                                                        + "; p of no difference "
                                                        + Digits.three(d.p())),
                                not -> Finding.of(key, Answers.not(unit, not), rows, "")));
    }
}
