package splitledger.planning.ahead;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.charset.StandardCharsets;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import splitledger.study.Answer;
import splitledger.study.Evaluation;

/** Planned studies, made on the virtual inlet and evaluated by their planned protocol. */
class RehearsalTest {
    @Test
    void aPlannedRunListFilledByTheVirtualInletIsEvaluatedAsPlanned() throws Exception {
        final StudyPlan plan = PlanTexts.plan(PlanTexts.FULL);
        final Evaluation evaluation = new Rehearsal(plan, PlanFiles.of(plan)).evaluated(1);
        final Set<String> answered = new TreeSet<>();
        evaluation.findings().stream()
                .filter(f -> !(f.answer() instanceof Answer.NotEstimable))
                .forEach(f -> answered.add(f.key().characteristic() + "/" + f.key().quantity()));

        assertThat(answered)
                .contains(
                        "calibration/slope",
                        "calibration/lack-of-fit-p",
                        "repeatability/rsd-intermediate",
                        "detection/detection-limit",
                        "detection/method-detection-limit",
                        "budget/relative-expanded-uncertainty");
    }

    @Test
    void aPlanWithAnInternalStandardIsRehearsedByItsResponses() throws Exception {
        final StudyPlan plan =
                PlanTexts.plan(
                        PlanTexts.TIGHT.replace("inlet: {convention: total-to-column}\n", "")
                                + "internal-standard: {compound: n-C14, amount: {value: 50, unit: mg/L,"
                                + " basis: invented}}\n");
        final PlanFiles files = PlanFiles.of(plan);

        assertThat(new Rehearsal(plan, files).found(1)).isPresent();
        assertThat(new String(files.files().get("protocol.yaml"), StandardCharsets.UTF_8))
                .contains("n-C14")
                .contains("ASK total-to-column or vent-to-column");
    }

    @Test
    void aPlanForALimitOrAMarginAloneIsEvaluated() throws Exception {
        final String limit =
                """
                wanted: {detection-limit: {value: 0.5, unit: mg/L, basis: invented}}
                prior: {blank: {value: 0.1, unit: mg/L, basis: invented}}
                """;
        final String margin =
                "wanted:\n  equivalence-margin: {value: 10, unit: \"%\", basis: invented}\n";

        assertThat(answered(limit)).contains("detection/detection-limit");
        assertThat(answered(margin)).contains("maintenance/restored");
    }

    private static Set<String> answered(String wanted) throws Exception {
        final StudyPlan plan = PlanTexts.plan(PlanTexts.HEAD + wanted + PlanTexts.AMOUNTS);
        return new Rehearsal(plan, PlanFiles.of(plan))
                .evaluated(1).findings().stream()
                        .map(f -> f.key().characteristic() + "/" + f.key().quantity())
                        .collect(Collectors.toCollection(TreeSet::new));
    }

    /**
     * 200 studies: the share that finds no more than the wanted uncertainty against the promised
     * one, within 4 standard errors of the difference (draws and studies).
     */
    @Test
    void asManyStudiesAsPromisedReachTheWantedUncertainty() throws Exception {
        final StudyPlan plan = PlanTexts.plan(PlanTexts.TIGHT);
        final Rehearsal rehearsal = new Rehearsal(plan, PlanFiles.of(plan));
        final double wanted = plan.file().wanted().uncertainty().orElseThrow();
        final int studies = 200;
        final double[] found =
                LongStream.range(0, studies)
                        .mapToDouble(seed -> rehearsal.found(seed).orElseThrow())
                        .sorted()
                        .toArray();
        final double share = StudyPlan.share(found, wanted);
        final double p = plan.promised();

        assertThat(share)
                .as("median %s, expected %s", found[studies / 2], plan.quantile(0.5))
                .isCloseTo(
                        p,
                        within(
                                4
                                        * Math.sqrt(
                                                p
                                                        * (1 - p)
                                                        * (1.0 / studies
                                                                + 1.0 / Planner.STUDIES))));
    }

    /** The same with an internal standard, 60 studies: what it cancels is not in the plan. */
    @Test
    void withAnInternalStandardAsManyAsPromisedReachIt() throws Exception {
        final StudyPlan plan =
                PlanTexts.plan(
                        PlanTexts.TIGHT
                                + "internal-standard: {compound: n-C14, amount: {value: 50, unit:"
                                + " mg/L, basis: invented}}\n");
        final Rehearsal rehearsal = new Rehearsal(plan, PlanFiles.of(plan));
        final double wanted = plan.file().wanted().uncertainty().orElseThrow();
        final int studies = 60;
        final double[] found =
                LongStream.range(0, studies)
                        .mapToDouble(seed -> rehearsal.found(seed).orElseThrow())
                        .sorted()
                        .toArray();
        final double p = plan.promised();

        assertThat(StudyPlan.share(found, wanted))
                .isCloseTo(p, within(4 * Math.sqrt(p * (1 - p) / studies)));
    }
}
