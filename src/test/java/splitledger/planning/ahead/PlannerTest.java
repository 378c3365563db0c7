package splitledger.planning.ahead;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.charset.StandardCharsets;
import java.util.Map;
import org.junit.jupiter.api.Test;
import splitledger.base.MemoryVault;
import splitledger.evaluation.Minima;
import splitledger.planning.ahead.StudyDesign.Placement;

class PlannerTest {
    /**
     * Worked by hand: injection 1 %, preparation 1.5 %, day 0.8 %, 5 days, 2 preparations, 2
     * injections, results of 2 preparations, 5 levels in duplicate. In units of (1 %)^2: a
     * preparation scatters by 1.5^2 + 1/2 = 2.75, E(day) = 4 x 0.64 + 2 x 2.25 + 1 = 8.06,
     * precision 0.64 + 2.75/2 = 2.015; proportional scatter and weights 1/x^2 give the calibration
     * 2.75/2 times the sums below.
     */
    @Test
    void theExpectedUncertaintyIsThatWorkedByHand() throws Exception {
        final PlanFile file = PlanTexts.file(PlanTexts.TIGHT);
        final StudyDesign d =
                new StudyDesign(5, 2, 2, 5, Placement.EVEN, 2, 0, 0, 0, 2, java.util.List.of());
        final double[] x = {4, 28, 52, 76, 100};
        double w = 0;
        double wx = 0;
        for (double one : x) {
            w += 1 / (one * one);
            wx += 1 / one;
        }
        final double calibration =
                2.75 / 2 * (5 - 2 * 52 * wx + 52 * 52 * w) / (w * 5 - wx * wx) / (52 * 52);
        final double single = 0.64 + 2.75;
        final double nu =
                single
                        * single
                        / (StrictMath.pow(8.06 / 4, 2) / 4 + StrictMath.pow(2.75 / 2, 2) / 5);
        final double total = 2.015 + calibration;
        final Prediction p = Prediction.of(d, file);

        assertThat(p.standard()).isCloseTo(0.01 * Math.sqrt(total), within(1e-12));
        assertThat(p.degreesOfFreedom())
                .isCloseTo(
                        total * total / (2.015 * 2.015 / nu + calibration * calibration / 8),
                        within(1e-9));
        assertThat(p.precisionShare()).isCloseTo(2.015 / total, within(1e-12));
    }

    @Test
    void theChosenDesignKeepsThePromiseAndNothingCheaperDoes() throws Exception {
        final StudyPlan plan = PlanTexts.plan(PlanTexts.TIGHT);
        final PlanFile file = plan.file();
        final double cost = plan.design().cost(file).orElseThrow();

        assertThat(plan.promised()).isGreaterThanOrEqualTo(0.8);
        for (StudyPlan.Step step : plan.steps()) {
            if (step.cost() < cost) {
                final double[] draws =
                        Prediction.draws(step.design(), file, Planner.STUDIES, false);
                assertThat(StudyPlan.share(draws, 0.04)).as(step.toString()).isLessThan(0.8);
            }
        }
        assertThat(plan.steps()).isSortedAccordingTo((a, b) -> Double.compare(a.cost(), b.cost()));
    }

    @Test
    void noDesignGoesBelowTheMinimaHoweverLittleIsWanted() throws Exception {
        final StudyPlan plan =
                PlanTexts.plan(PlanTexts.FULL.replace("value: 6, unit", "value: 60, unit"));
        final StudyDesign d = plan.design();

        assertThat(d.days()).isEqualTo(Minima.GROUPS);
        assertThat(d.days() * d.preparations()).isGreaterThanOrEqualTo(Minima.REPEATS);
        assertThat(d.levels()).isEqualTo(Minima.LEVELS);
        assertThat(d.calibrants()).isEqualTo(Minima.PREPARATIONS_A_LEVEL);
        assertThat(d.blanks()).isGreaterThanOrEqualTo(Minima.BLANKS);
        assertThat(d.spiked()).isEqualTo(Minima.SPIKED);
    }

    @Test
    void aSmallerWishCostsMore() throws Exception {
        final StudyPlan easy = PlanTexts.plan(PlanTexts.TIGHT);
        final StudyPlan hard =
                PlanTexts.plan(
                        PlanTexts.TIGHT.replace("value: 4, unit: \"%\"", "value: 3, unit: \"%\""));

        assertThat(hard.design().cost(hard.file()).orElseThrow())
                .isGreaterThan(easy.design().cost(easy.file()).orElseThrow());
        assertThat(hard.promised()).isGreaterThanOrEqualTo(0.8);
    }

    @Test
    void whatNoDesignGivesIsRefusedWithWhatToDo() {
        assertThatThrownBy(
                        () ->
                                PlanTexts.plan(
                                        PlanTexts.TIGHT.replace(
                                                "value: 4, unit: \"%\"", "value: 1, unit: \"%\"")))
                .hasMessageContaining("wanted.expanded-uncertainty")
                .hasMessageContaining("reduce the largest");
        assertThatThrownBy(
                        () ->
                                PlanTexts.plan(
                                        PlanTexts.FULL.replace(
                                                "value: 0.5, unit", "value: 0.3, unit")))
                .hasMessageContaining("wanted.detection-limit");
        assertThatThrownBy(
                        () ->
                                PlanTexts.plan(
                                        PlanTexts.FULL.replace(
                                                "value: 10, unit", "value: 2, unit")))
                .hasMessageContaining("wanted.equivalence-margin");
    }

    @Test
    void mistakesInAPlanFileAreToldTogether() {
        assertThatThrownBy(
                        () ->
                                PlanTexts.file(
                                        "splitledger-plan: 1\n"
                                                + "title: x\n"
                                                + "start: tomorrow\n"
                                                + "targets: [a]\n"
                                                + "wanted: {}\n"
                                                + "samplse: 3\n"
                                                + PlanTexts.AMOUNTS.replace(
                                                        "result: {value: 52",
                                                        "result: {value: 500")))
                .hasMessageContaining("tomorrow")
                .hasMessageContaining("no wish")
                .hasMessageContaining("samplse")
                .hasMessageContaining("not in order");
    }

    @Test
    void whatNobodySaidIsMarkedAsCommonPractice() throws Exception {
        final PlanFile.Prior prior = PlanTexts.file(PlanTexts.FULL).prior();

        assertThat(prior.day().basis()).isEqualTo(PlanFile.COMMON);
        assertThat(prior.blank().orElseThrow().basis()).isEqualTo("invented");
        assertThat(
                        new String(
                                PlanFiles.of(PlanTexts.plan(PlanTexts.FULL))
                                        .files()
                                        .get("plan.html"),
                                StandardCharsets.UTF_8))
                .contains("are not yours");
    }

    @Test
    void aDossierGivesItsScatterWithItsDegreesOfFreedom() throws Exception {
        final String results =
                """
                characteristic,compound,condition,quantity,method,value,unit,degrees_of_freedom,status
                repeatability,limonene,,mean,moments,20,1/mg,3,estimable
                repeatability,limonene,,rsd-injection,moments,0.75,%,30,estimable
                repeatability,limonene,factor=day,sd-between,moments,0.1,1/mg,2.5,estimable
                repeatability,limonene,factor=preparation,sd-between,moments,0.2,1/mg,11,estimable
                calibration,limonene,,slope,line,0.02,1/(mg/L),20,estimable
                calibration,limonene,,signal-sd-constant,line,0.003,1,inf,estimable
                """;
        final String text =
                PlanTexts.FULL.replace(
                        "  blank: {value: 0.1, unit: mg/L, basis: invented}\n",
                        "  from: old\n  compound: limonene\n");
        final PlanFile.Prior prior =
                PlanFileReader.read(
                                new MemoryVault(
                                        Map.of(
                                                "plan.yaml",
                                                text.getBytes(StandardCharsets.UTF_8),
                                                "old/results.csv",
                                                results.getBytes(StandardCharsets.UTF_8))),
                                "plan.yaml")
                        .prior();

        assertThat(prior.injection().value()).isCloseTo(0.0075, within(1e-15));
        assertThat(prior.injection().degreesOfFreedom()).isEqualTo(30);
        assertThat(prior.day().value()).isCloseTo(0.005, within(1e-15));
        assertThat(prior.preparation().value()).isCloseTo(0.01, within(1e-15));
        assertThat(prior.blank().orElseThrow().value()).isCloseTo(0.15, within(1e-12));
        assertThat(prior.blank().orElseThrow().degreesOfFreedom()).isInfinite();
        assertThat(prior.day().basis()).contains("dossier old");
    }
}
