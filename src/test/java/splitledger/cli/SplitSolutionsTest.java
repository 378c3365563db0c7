package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Several solutions, gauged flows and forced areas in the split experiment, worked by hand. */
class SplitSolutionsTest {
    private static final List<Integer> RATIOS = List.of(10, 20, 50, 100, 200);
    private static final String HEADER =
            "injection,compound,area,series,day,level,amount,split_ratio,split_flow,column_flow\n";
    private static final String PROTOCOL =
            """
            splitledger: 1
            title: worked by hand
            tables: [{file: areas.csv}]
            compounds: {targets: [%s]}
            conventions: {split-ratio: total-to-column}
            characteristics:
              split-linearity: {where: {series: split}, reference-ratio: 50%s}
            """;

    @TempDir Path folder;
    private final StringBuilder table = new StringBuilder(HEADER);
    private int number;

    private void row(
            String compound, double area, int day, String level, double amount, int ratio) {
        table.append(
                String.format(
                        Locale.ROOT,
                        "i%03d,%s,%s,split,D%d,%s,%s,%d,%s,2\n",
                        number,
                        compound,
                        Double.toString(area),
                        day,
                        level,
                        Double.toString(amount),
                        ratio,
                        Double.toString(2.0 * (ratio - 1))));
    }

    private Bench bench() {
        return new Bench(folder).write("areas.csv", table.toString());
    }

    private double value(String compound, String condition, String quantity) {
        return Bench.rows(folder.resolve("out/results.csv")).stream()
                .filter(r -> r.get(1).equals(compound) && r.get(2).equals(condition))
                .filter(r -> r.get(3).equals(quantity))
                .mapToDouble(r -> Double.parseDouble(r.get(5)))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void aSolutionForEachRatioIsDividedByItsAmount() throws Exception {
        for (int day = 1; day <= 2; day++) {
            for (int ratio : RATIOS) {
                number++;
                row("c", 4.0 * ratio * 15 / ratio, day, "M" + ratio, 4.0 * ratio, ratio);
            }
        }
        assertThat(bench().run(PROTOCOL.formatted("c", "")).exit()).isZero();

        assertThat(value("c", "", "split-exponent")).isCloseTo(1, within(1e-9));
        assertThat(Files.readString(folder.resolve("out/results.json")))
                .contains("Areas are divided by the amounts")
                .contains("the mass on the column was nearly the same at all ratios");
    }

    @Test
    void twoSolutionsAtEveryRatioHaveALevelOfTheirOwn() throws Exception {
        for (int day = 1; day <= 2; day++) {
            for (int ratio : RATIOS) {
                for (int level = 1; level <= 2; level++) {
                    number++;
                    if (day == 1 && ratio == 200 && level == 2) {
                        row("c", 1000.0 * 10 / ratio, day, "L2", 1, ratio);
                        number++;
                    }
                    row("c", 1000.0 * (level == 1 ? 1 : 10) / ratio, day, "L" + level, 1, ratio);
                }
            }
        }
        assertThat(bench().run(PROTOCOL.formatted("c", "")).exit()).isZero();

        assertThat(value("c", "", "split-exponent")).isCloseTo(1, within(1e-9));
        assertThat(Files.readString(folder.resolve("out/results.json")))
                .contains("21 injections of 1 compounds in 10 set-ups");
    }

    @Test
    void areasForcedWhereThereIsNoPeakAreNoCompoundOfTheSplit() throws Exception {
        for (int day = 1; day <= 2; day++) {
            for (int ratio : RATIOS) {
                for (int i = 0; i < 3; i++) {
                    number++;
                    row("c", 1000.0 / ratio, day, "L1", 1, ratio);
                    row("none", i == 0 ? -0.01 : 0.02, day, "L1", 1, ratio);
                }
            }
        }
        assertThat(bench().run(PROTOCOL.formatted("c, none", "")).exit()).isZero();

        assertThat(
                        Bench.rows(folder.resolve("out/results.csv")).stream()
                                .map(r -> r.get(1))
                                .toList())
                .contains("c")
                .doesNotContain("none");
    }

    /** u = (r - 1) sqrt(0.02^2 + 0.03^2). */
    @Test
    void flowsGiveTheExpectedRatioWithTheUncertaintiesThatTheProtocolStates() {
        for (int day = 1; day <= 2; day++) {
            for (int ratio : RATIOS) {
                number++;
                row("c", 1000.0 / ratio, day, "L1", 1, ratio);
            }
        }
        final Bench bench = bench();
        assertThat(
                        bench.run(
                                        PROTOCOL.formatted(
                                                "c",
                                                ", vent-flow-uncertainty: 2, column-flow-uncertainty: 3"))
                                .exit())
                .isZero();

        final String id = "split-linearity";
        final String expected = "expected-split-ratio";
        assertThat(bench.number(id, "ratio=50", expected, "", "value")).isCloseTo(50, within(1e-9));
        assertThat(bench.number(id, "ratio=50", expected, "", "standard_uncertainty"))
                .isCloseTo(49 * Math.sqrt(0.0004 + 0.0009), within(1e-9));
        assertThat(folder.resolve("out/figures/split-flows.svg")).exists();
    }
}
