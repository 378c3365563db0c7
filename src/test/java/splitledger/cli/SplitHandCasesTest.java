package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Split linearity through the command line, on cases worked by hand. */
class SplitHandCasesTest {
    private static final List<Integer> RATIOS = List.of(10, 20, 50, 100, 200);
    private static final String ID = "split-linearity";
    private static final String USUAL =
            """
            splitledger: 1
            title: worked by hand
            tables: [{file: areas.csv}]
            compounds: {targets: [c]}
            conventions: {split-ratio: %s}
            characteristics:
              split-linearity: {where: {series: split}, reference-ratio: 50}
            """;

    @TempDir Path folder;

    /** Areas 1000/(r + 1), every ratio set up once on each day; two injections, or one. */
    private Bench wrong(int days, String more) {
        final StringBuilder table =
                new StringBuilder("injection,compound,area,series,day,split_ratio\n");
        int number = 0;
        for (int day = 1; day <= days; day++) {
            for (int ratio : RATIOS) {
                table.append(
                        String.format(
                                Locale.ROOT,
                                "i%03d,c,%s,split,D%d,%d\n",
                                ++number,
                                Double.toString(1000.0 / (ratio + 1)),
                                day,
                                ratio));
            }
        }
        return new Bench(folder).write("areas.csv", table + more);
    }

    @Test
    void theOtherConventionGivesItsExponentItsOffsetAndWhatIsKept() throws Exception {
        final Bench bench = wrong(2, "");

        assertThat(bench.run(USUAL.formatted("total-to-column")).exit()).isZero();
        assertThat(bench.number(ID, "", "convention-offset", "", "value"))
                .isCloseTo(1, within(1e-6));
        final List<List<String>> rows = Bench.rows(folder.resolve("out/results.csv"));
        assertThat(value(rows, "c", "", "split-exponent")).isCloseTo(0.970939, within(5e-7));
        assertThat(value(rows, "", "", "split-exponent")).isCloseTo(0.970939, within(5e-7));
        assertThat(value(rows, "c", "ratio=10", "response-kept")).isCloseTo(92.727, within(5e-4));
        assertThat(value(rows, "c", "ratio=20", "response-kept")).isCloseTo(97.143, within(5e-4));
        assertThat(value(rows, "c", "ratio=50", "response-kept")).isEqualTo(100);
        assertThat(value(rows, "c", "ratio=100", "response-kept")).isCloseTo(100.990, within(5e-4));
        assertThat(value(rows, "c", "ratio=200", "response-kept")).isCloseTo(101.493, within(5e-4));
        assertThat(Files.readString(folder.resolve("out/results.json")))
                .contains("consistent with a split ratio of the other convention");
    }

    @Test
    void theConventionThatTheProtocolStatesMakesTheSameTableIdeal() throws Exception {
        final Bench bench = wrong(2, "");

        assertThat(bench.run(USUAL.formatted("vent-to-column")).exit()).isZero();
        final List<List<String>> rows = Bench.rows(folder.resolve("out/results.csv"));
        assertThat(value(rows, "c", "", "split-exponent")).isCloseTo(1, within(1e-9));
        assertThat(value(rows, "", "", "convention-offset")).isCloseTo(1, within(1e-6));
        assertThat(value(rows, "", "ratio=10", "effective-split-ratio"))
                .isCloseTo(11, within(1e-9));
        assertThat(Files.readString(folder.resolve("out/results.json")))
                .contains("No departure from the split ratio is seen");
    }

    @Test
    void settingsSetUpOnceGiveTheSameValuesAndSaySo() throws Exception {
        final Bench bench = wrong(1, "");

        assertThat(bench.run(USUAL.formatted("total-to-column")).exit()).isZero();
        final List<List<String>> rows = Bench.rows(folder.resolve("out/results.csv"));
        assertThat(value(rows, "c", "", "split-exponent")).isCloseTo(0.970939, within(5e-7));
        assertThat(value(rows, "c", "ratio=10", "response-kept")).isCloseTo(92.727, within(5e-4));
        assertThat(Files.readString(folder.resolve("out/results.csv")))
                .contains("every setting was set up once");
    }

    @Test
    void anAreaThatIsNotAboveZeroIsLeftOutAndTold() throws Exception {
        final Bench bench = wrong(2, "x,c,-0.5,split,D2,200\n");

        assertThat(bench.run(USUAL.formatted("total-to-column")).exit()).isZero();
        assertThat(Files.readString(folder.resolve("out/results.json")))
                .contains("its area is not above 0");
    }

    @Test
    void threeSettingsGiveNoExponentButSayWhatIsNeeded() throws Exception {
        final Bench bench = wrong(2, "");

        assertThat(
                        bench.run(
                                        USUAL.formatted("total-to-column")
                                                .replace(
                                                        "{series: split}",
                                                        "{series: split, split_ratio: {at-most: 50}}"))
                                .exit())
                .isZero();
        assertThat(bench.result(ID, "", "convention-offset", ""))
                .containsEntry("status", "not-estimable")
                .containsEntry("reason", "too-few-settings");
    }

    private static double value(
            List<List<String>> rows, String compound, String condition, String quantity) {
        return rows.stream()
                .filter(
                        r ->
                                r.get(1).equals(compound)
                                        && r.get(2).equals(condition)
                                        && r.get(3).equals(quantity))
                .mapToDouble(r -> Double.parseDouble(r.get(5)))
                .findFirst()
                .orElseThrow();
    }
}
