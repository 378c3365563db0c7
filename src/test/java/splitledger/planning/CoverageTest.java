package splitledger.planning;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import splitledger.study.Extent;
import splitledger.study.Verdict;

class CoverageTest {
    private static final long SEED = 100;

    @ParameterizedTest
    @EnumSource(
            mode = EnumSource.Mode.EXCLUDE,
            names = {"HOT_INLET", "TWO_OCCASIONS"})
    void everyScenarioIsReadByTheSameIntakeAsAnyTableAndGivesFindings(Scenario scenario) {
        final var evaluation = Coverage.evaluated(scenario.design(), Extent.FORMULAS);

        assertThat(evaluation.findings())
                .anyMatch(f -> f.key().quantity().equals("slope"))
                .anyMatch(f -> f.key().quantity().equals("result"))
                .anyMatch(f -> f.verdict() != Verdict.INFORMATION);
        assertThat(evaluation.findings()).noneMatch(f -> f.verdict() == Verdict.NOT_SHOWN);
    }

    @Test
    void changesBetweenTwoOccasionsHoldTheTruthAsOftenAsTheySay() {
        final List<CoverageRow> rows = run(Scenario.TWO_OCCASIONS.design(), 500, 2).rows();

        assertThat(rows)
                .filteredOn(r -> r.quantity().equals("response-change"))
                .isNotEmpty()
                .noneMatch(r -> r.standing() == CoverageRow.Standing.LOW);
    }

    @Test
    void theHotInletGivesRateEnergyAndTemperature() {
        final var evaluation = Coverage.evaluated(Scenario.HOT_INLET.design(), Extent.FORMULAS);

        for (String quantity :
                List.of("apparent-rate", "activation-energy", "highest-inlet-temperature")) {
            assertThat(evaluation.findings())
                    .as(quantity)
                    .anyMatch(
                            f ->
                                    f.key().quantity().equals(quantity)
                                            && f.answer().status().equals("estimable"));
        }
    }

    @Test
    void countsDoNotDependOnTheNumberOfThreads() {
        final var design = Scenario.FEW_REPLICATES.design();

        assertThat(CoverageTable.bytes(run(design, 40, 1).rows()))
                .isEqualTo(CoverageTable.bytes(run(design, 40, 3).rows()));
    }

    private static Coverage.Result run(
            splitledger.virtual.Design design, int studies, int threads) {
        return Coverage.run(design, SEED, studies, Extent.FORMULAS, threads, done -> {});
    }

    @Test
    void everyQuantityWithAnIntervalHasATruthOrIsExcludedByName() {
        final Coverage.Result result = run(Scenario.GOOD.design(), 4, 2);

        assertThat(result.withoutTruth()).isEqualTo(Rules.WITHOUT_TRUTH.keySet());
    }

    @Test
    void intervalsOfALaboratoryInGoodOrderHoldTheTruthAsOftenAsTheySay() {
        assertResultsHold(assertStanding(Scenario.GOOD));
    }

    @Test
    void intervalsFromCrossedDaysAnalystsAndInstrumentsHoldTheTruthAsOftenAsTheySay() {
        assertStanding(Scenario.CROSSED);
    }

    @Test
    void intervalsAboutLossesHoldTheTruthAsOftenAsTheySay() {
        assertThat(assertStanding(Scenario.HOT_INLET)).isNotEmpty();
    }

    /** Three samples of three compounds, each measured on a day of its own, 500 laboratories. */
    private static void assertResultsHold(List<CoverageRow> rows) {
        final double covered =
                rows.stream()
                        .filter(r -> r.quantity().equals("result"))
                        .mapToDouble(CoverageRow::coverage)
                        .average()
                        .orElseThrow();

        assertThat(covered).isBetween(0.935, 0.965);
    }

    private static List<CoverageRow> assertStanding(Scenario scenario) {
        final List<CoverageRow> rows = run(scenario.design(), 500, 2).rows();
        final List<String> low =
                rows.stream()
                        .filter(r -> r.standing() == CoverageRow.Standing.LOW)
                        .map(CoverageRow::quantity)
                        .distinct()
                        .filter(q -> !Rules.TOLD.containsKey(q))
                        .toList();

        assertThat(low).isEmpty();
        return rows;
    }
}
