package splitledger.planning.ahead;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import splitledger.evaluation.Minima;
import splitledger.study.Evaluation;

/** Settings and levels that a plan chooses, against hand and against the virtual inlet. */
class ExperimentTest {
    private static final double NONE = 1e9;
    private static final String WISHES =
            """
            labile: {parent: linalyl acetate, products: [myrcene, ocimene]}
            wanted:
              split-exponent: {value: 0.015, unit: "1", basis: invented}
              activation-energy: {value: 1.5, unit: kJ/mol, basis: invented}
              heavy-to-light-ratio: {value: 8, unit: "%", basis: invented}
              recovery: {value: 3, unit: "%", basis: invented}
            inlet: {convention: total-to-column}
            amounts:
              lowest: {value: 3, unit: mg/L, basis: invented}
              highest: {value: 100, unit: mg/L, basis: invented}
              result: {value: 30, unit: mg/L, basis: invented}
            """;
    private static final String ALL =
            PlanTexts.HEAD.replace("[limonene]", "[limonene, linalyl acetate]") + WISHES;
    private static final String STANDARD =
            "internal-standard: {compound: n-C14, amount: {value: 50, unit: mg/L, basis: x}}\n";

    /**
     * By hand: set-up 1.5 %, preparation 0.8 %, injection 1 % give sigma = 1.9723 %; ln of 10, 27,
     * 74, 200 is 2.302585, 3.295837, 4.304065, 5.298317, squares about the mean 4.995468; twice.
     */
    @Test
    void theExponentIsExpectedAsWorkedByHand() throws Exception {
        final Expected e =
                new SplitExperiment(PlanTexts.file(ALL), List.of(10.0, 27.0, 74.0, 200.0), 2, 1)
                        .expected();

        assertThat(e.standard()).isCloseTo(0.019723 / Math.sqrt(2 * 4.995468), within(1e-6));
        assertThat(e.degreesOfFreedom()).isEqualTo(5);
    }

    /** 10 % at 250 degC and 80 kJ/mol: -ln(0.9) 523.15/563.15 exp(1.30643) = 0.36145 at 290. */
    @Test
    void theLossAtAnotherTemperatureIsThatWorkedByHand() throws Exception {
        assertThat(HeatExperiment.loss(PlanTexts.file(ALL), 250)).isCloseTo(0.1, within(1e-12));
        assertThat(HeatExperiment.loss(PlanTexts.file(ALL), 290))
                .isCloseTo(1 - StrictMath.exp(-0.36145), within(2e-5));
    }

    /**
     * By hand, 12 days of one preparation: 1 + (0.64 + 1)(15.7778 + 13.4444)/9 in units of (1 %)^2
     * over 12 is the part of the days.
     */
    @Test
    void theRecoveryOfDaysIsExpectedAsWorkedByHand() throws Exception {
        final PlanFile file = PlanTexts.file(ALL);
        final double days = 1e-4 * (1 + 1.64 * (15.7778 + 13.4444) / 9) / 12;
        final double slope = 1.5 * Prediction.slope(StudyDesign.fewest(), file);

        assertThat(new RecoveryExperiment(file, 12, 1, 1).expected().standard())
                .isCloseTo(Math.sqrt(days + slope), within(1e-7));
    }

    @Test
    void injectionsDoNotShrinkWhatIsWrongWithAMemberOfTheLadder() throws Exception {
        final PlanFile file = PlanTexts.file(ALL);

        assertThat(new LadderExperiment(file, 10, 1000).expected().standard())
                .isCloseTo(0.02 * Math.sqrt(2), within(1e-5));
        assertThat(new LadderExperiment(file, 14, 3).ladder())
                .hasSize(14)
                .contains("n-C8", "n-C20", "n-C40");
    }

    @Test
    void noExperimentGoesBelowTheMinimaHoweverLittleIsWanted() throws Exception {
        final StudyPlan plan =
                PlanTexts.plan(
                        ALL.replace("0.015", "0.5")
                                .replace("value: 1.5, unit: kJ", "value: 90, unit: kJ")
                                .replace("value: 8, unit", "value: 90, unit")
                                .replace("value: 3, unit: \"%\"", "value: 90, unit: \"%\""));
        final Map<String, Double> settings = new TreeMap<>();
        plan.design()
                .experiments()
                .forEach(e -> e.settings().forEach(s -> settings.put(s.quantity(), s.value())));

        assertThat(settings)
                .containsEntry("split-ratios", (double) Minima.SETTINGS)
                .containsEntry("set-ups-of-a-ratio", 2.0)
                .containsEntry("inlet-temperatures", (double) Minima.TEMPERATURES)
                .containsEntry("ladder-members", (double) Minima.MEMBERS)
                .containsEntry("recovery-days", (double) Minima.RECOVERY);
    }

    @Test
    void rangesThatCannotAnswerAreRefused() {
        assertThatThrownBy(
                        () ->
                                PlanTexts.file(
                                        ALL
                                                + "settings: {split-ratio: {from: 20, to: 100},"
                                                + " inlet-temperature: {from: 250, to: 300}}\n"))
                .hasMessageContaining("less than 10-fold")
                .hasMessageContaining("less than 80 degC");
        assertThatThrownBy(() -> PlanTexts.file(ALL.replaceFirst("labile:.*\n", "")))
                .hasMessageContaining("labile");
        assertThatThrownBy(() -> PlanTexts.plan(ALL.replace("value: 8, unit", "value: 2, unit")))
                .hasMessageContaining("wanted.heavy-to-light-ratio");
    }

    /** 24 studies; the median half width within 4 of its standard errors, or below for a bound. */
    @Test
    void studiesFindTheHalfWidthsThatAreExpected() throws Exception {
        for (String standard : List.of("", STANDARD)) {
            final StudyPlan plan = PlanTexts.plan(standard + ALL);
            final Rehearsal rehearsal = new Rehearsal(plan, PlanFiles.of(plan));
            final List<Evaluation> studies = new ArrayList<>();
            for (long seed = 1; seed <= 24; seed++) {
                studies.add(rehearsal.evaluated(seed));
            }
            for (Experiment e : plan.design().experiments()) {
                final double[] half =
                        studies.stream()
                                .mapToDouble(s -> rehearsal.half(s, e).orElse(NONE))
                                .sorted()
                                .toArray();
                final Expected x = e.expected();
                final double error =
                        1.2533 * (x.half(0.84) - x.half(0.16)) / 2 / Math.sqrt(half.length);
                final double median = (half[11] + half[12]) / 2;

                assertThat(median).as(e.figure()).isLessThan(x.half(0.5) + 4 * error);
                if (!(e instanceof HeatExperiment)) {
                    assertThat(median).as(e.figure()).isGreaterThan(x.half(0.5) - 4 * error);
                }
            }
        }
    }

    @Test
    void aDayHoldsNoMoreThanItMayAndWhatIsComparedStaysOnOneDay() throws Exception {
        final StudyPlan wide = PlanTexts.plan(PlanTexts.FULL);
        final StudyPlan plan =
                PlanTexts.plan(
                        PlanTexts.FULL + "working-day: {hours: 12, minutes-an-injection: 24}\n");
        final List<Run> runs = PlanFiles.of(plan).runs();
        final Map<String, Long> days =
                runs.stream().collect(Collectors.groupingBy(Run::day, Collectors.counting()));

        assertThat(days.values()).allMatch(n -> n <= 30);
        assertThat(runs.stream().filter(r -> r.series().equals("calibration")).map(Run::day))
                .containsOnly("D01");
        assertThat(runs.stream().filter(r -> r.series().equals("repeatability")).map(Run::day))
                .doesNotContain("D01");
        assertThat(Bench.of(plan.design(), plan.file()).orElseThrow().injections())
                .isEqualTo(runs.size());
        assertThat(plan.design().cost(plan.file()).orElseThrow())
                .isGreaterThan(wide.design().cost(wide.file()).orElseThrow());
        assertThatThrownBy(() -> PlanTexts.plan(PlanTexts.FULL + "working-day: {hours: 8}\n"))
                .hasMessageContaining("working-day")
                .hasMessageContaining("19 injections");
    }

    /** One in proportion, a result at the low end: even levels are not best there. */
    @Test
    void levelsLieWhereTheyLeaveTheLeastUncertaintyAtTheResult() throws Exception {
        final StudyPlan plan =
                PlanTexts.plan(
                        PlanTexts.TIGHT
                                .replace("result: {value: 52", "result: {value: 10")
                                .replace(
                                        "prior:\n",
                                        "prior:\n  blank: {value: 0.2, unit: mg/L, basis: x}\n"));
        final StudyDesign d = plan.design();

        for (StudyDesign.Placement other : StudyDesign.Placement.values()) {
            final StudyDesign moved =
                    new StudyDesign(
                            d.days(),
                            d.preparations(),
                            d.injections(),
                            d.levels(),
                            other,
                            d.calibrants(),
                            d.blanks(),
                            d.spiked(),
                            d.checks(),
                            d.ofResult(),
                            d.experiments());
            assertThat(Prediction.calibration(d, plan.file()))
                    .as(other.words())
                    .isLessThanOrEqualTo(Prediction.calibration(moved, plan.file()) / 0.98);
        }
        assertThat(d.placement()).isNotEqualTo(StudyDesign.Placement.EVEN);
        assertThat(new String(PlanFiles.of(plan).files().get("plan.csv"), StandardCharsets.UTF_8))
                .contains(d.placement().words());
    }
}
