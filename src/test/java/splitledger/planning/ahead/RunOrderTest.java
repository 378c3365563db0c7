package splitledger.planning.ahead;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

class RunOrderTest {
    private StudyPlan plan;
    private List<Run> runs;

    @BeforeEach
    void order() throws Exception {
        plan = PlanTexts.plan(PlanTexts.FULL);
        runs = PlanFiles.of(plan).runs();
    }

    @Test
    void everyDayBeginsWithAWashAndTheSystemCheckAndEndsWithACheck() {
        byDay().values()
                .forEach(
                        day -> {
                            assertThat(series(day.subList(0, 3)))
                                    .containsExactly("wash", "system-check", "system-check");
                            assertThat(day.get(day.size() - 1).series()).isEqualTo("check");
                        });
    }

    @Test
    void aWashFollowsEveryInjectionOfTheHighestLevel() {
        int highest = 0;
        for (int i = 0; i < runs.size(); i++) {
            if (runs.get(i).level().equals("L5")) {
                highest++;
                assertThat(runs.get(i + 1).series()).isEqualTo("wash");
            }
        }
        assertThat(highest).isEqualTo(plan.design().calibrants() * plan.design().injections());
    }

    @Test
    void noMoreInjectionsThanAllowedLieBetweenTwoChecksOrComeOutOfOneVial() {
        for (List<Run> day : byDay().values()) {
            int since = 0;
            for (Run run : day) {
                final boolean check = run.series().endsWith("check");
                since = check ? 0 : since + (run.series().equals("wash") ? 0 : 1);
                assertThat(since).isLessThanOrEqualTo(plan.file().setting().bracket());
            }
        }
        assertThat(runs.stream().collect(Collectors.groupingBy(Run::vial, Collectors.counting())))
                .allSatisfy(
                        (vial, n) ->
                                assertThat(n).isLessThanOrEqualTo(plan.file().setting().vial()));
    }

    @Test
    void theRunListHoldsWhatTheDesignSays() {
        final StudyDesign d = plan.design();
        final Map<String, Long> injections =
                runs.stream()
                        .collect(
                                Collectors.groupingBy(
                                        Run::series, TreeMap::new, Collectors.counting()));

        assertThat(injections)
                .containsEntry("calibration", (long) d.levels() * d.calibrants() * d.injections())
                .containsEntry("repeatability", (long) d.days() * d.preparations() * d.injections())
                .containsEntry("blank", (long) d.blanks())
                .containsEntry("spike-low", (long) d.spiked())
                .containsEntry("maintenance", (long) d.checks());
        assertThat(runs.stream().filter(r -> r.series().equals("spike-low")).map(Run::day))
                .containsOnly("D01", "D02", "D03");
    }

    @Test
    void theOrderIsDrawnByTheSeedAndTheSameForTheSameSeed() throws Exception {
        final StudyPlan other = PlanTexts.plan(PlanTexts.FULL + "seed: 2\n");

        assertThat(PlanFiles.of(plan).runs()).isEqualTo(runs);
        assertThat(PlanFiles.of(other).runs()).isNotEqualTo(runs).hasSameSizeAs(runs);
    }

    @Test
    void levelsAreNotInjectedInTheirOrder() {
        final List<String> levels =
                runs.stream()
                        .filter(r -> r.series().equals("calibration"))
                        .map(Run::level)
                        .toList();

        assertThat(levels).isNotEqualTo(levels.stream().sorted().toList());
    }

    @Test
    void weekendsAreLeftOut() {
        assertThat(runs.stream().map(Run::date).distinct())
                .startsWith("2026-04-01", "2026-04-02", "2026-04-03", "2026-04-06");
    }

    private Map<String, List<Run>> byDay() {
        return runs.stream()
                .collect(Collectors.groupingBy(Run::day, LinkedHashMap::new, Collectors.toList()));
    }

    private static List<String> series(List<Run> some) {
        return some.stream().map(Run::series).toList();
    }
}
