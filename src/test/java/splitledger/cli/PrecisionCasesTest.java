package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Scatter of days, analysts and preparations through the command line, worked by hand. */
class PrecisionCasesTest {
    private static final String HEADER =
            "injection,compound,area,series,preparation,day,analyst,instrument\n";

    @TempDir Path folder;
    private Bench bench;
    private final StringBuilder table = new StringBuilder(HEADER);
    private int injections;

    @BeforeEach
    void makeBench() {
        bench = new Bench(folder);
    }

    private void row(double area, String preparation, String day, String analyst, String where) {
        injections++;
        table.append(String.format("i%03d,c,%s,repeat,", injections, area))
                .append(String.join(",", preparation, day, analyst, where))
                .append('\n');
    }

    private void evaluate(String options) {
        evaluate(options, "");
    }

    private void evaluate(String options, String more) {
        bench.write("areas.csv", table.toString());
        final Bench.Ran ran =
                bench.run(
                        Bench.usual()
                                + "characteristics: {repeatability: {where: {series: repeat}"
                                + options
                                + "}}\n"
                                + more);
        assertThat(ran).extracting(Bench.Ran::exit, Bench.Ran::err).containsExactly(0, "");
    }

    private double number(String condition, String quantity, String method, String column) {
        return bench.number("repeatability", condition, quantity, method, column);
    }

    /** 3 days x 2 analysts x 2 preparations, the same pair of results for both analysts. */
    private void crossed() {
        final double[][] days = {{100, 102}, {104, 106}, {96, 98}};
        for (int d = 0; d < days.length; d++) {
            for (String analyst : List.of("A", "B")) {
                row(days[d][0], "p" + d + analyst + 1, "d" + d, analyst, "");
                row(days[d][1], "p" + d + analyst + 2, "d" + d, analyst, "");
            }
        }
    }

    /**
     * Mean squares: day 64 (2), analyst 0 (1), day:analyst 0 (2), preparation 2 (6). Variance of
     * day (64 - 0)/4 = 16, of analyst 0, of day:analyst (0 - 2)/2 = -1, taken as 0 in sums.
     */
    @Test
    void crossedFactorsAreReadFromTheLabels() {
        crossed();
        evaluate(", factors: [day, analyst]");
        // var(mean) = (64 + 0 - 0)/12
        assertThat(number("", "mean", "moments", "standard_uncertainty"))
                .isCloseTo(2.3094, within(5e-5));
        assertThat(number("", "sd-repeatability", "moments", "value"))
                .isCloseTo(Math.sqrt(2), within(1e-12));
        assertThat(number("", "sd-repeatability", "moments", "degrees_of_freedom")).isEqualTo(6);
        assertThat(number("", "sd-intermediate", "moments", "value"))
                .isCloseTo(Math.sqrt(18), within(1e-12));
        assertThat(number("factor=day", "variance-share", "moments", "value"))
                .isCloseTo(100 * 16 / 18.0, within(1e-10));
        assertThat(bench.result("repeatability", "factor=day", "sd-between", "moments"))
                .containsEntry("status", "bound-only")
                .containsEntry("reason", "too-few-levels")
                .containsEntry("lower", "");
        assertThat(
                        bench.result("repeatability", "factor=day:analyst", "sd-between", "moments")
                                .get("note"))
                .contains("negative")
                .contains("-1,");
        assertThat(number("factor=analyst", "difference-between", "moments", "value")).isZero();
        // restricted likelihood: day 15.667, preparation 4/3, worked out with R
        final double reml = number("", "sd-intermediate", "reml", "value");
        assertThat(reml * reml).isCloseTo(15.6667 + 1.3333, within(1e-3));
    }

    @Test
    void theStructureIsDrawnWithTheNumberOfLabelsAndWhatIsCrossed() throws IOException {
        crossed();
        evaluate(", factors: [day, analyst]");
        assertThat(folder.resolve("out/figures/structure.svg")).exists();
        assertThat(Files.readString(folder.resolve("out/results.json")))
                .contains("\"boxes\"")
                .contains("day\\n3 labels")
                .contains("analyst\\n2 labels")
                .contains("preparation\\n12 rows")
                .contains("\"crossed\"");
    }

    /** The interaction's mean square is 0 against 2 of the preparations. */
    @Test
    void labelsThatAgreeBetterThanChanceLetsThemAreFlagged() throws IOException {
        crossed();
        evaluate(", factors: [day, analyst]");
        assertThat(Files.readString(folder.resolve("out/results.json")))
                .contains("the labels of day:analyst agree better")
                .doesNotContain("the labels of day agree better");
    }

    /** Both estimates are there; a requirement is about the one that budgets take. */
    @Test
    void aRequirementWithoutMethodIsAboutTheEstimateByMoments() {
        crossed();
        evaluate(
                ", factors: [day, analyst]",
                "requirements: [{quantity: sd-repeatability, at-most: 2, source: ours}]\n");
        assertThat(verdict("moments")).isEqualTo("meets");
        assertThat(verdict("reml")).isEqualTo("information");
    }

    @Test
    void aRequirementMayNameTheOtherMethod() {
        crossed();
        evaluate(
                ", factors: [day, analyst]",
                "requirements: [{quantity: sd-repeatability, method: reml, at-most: 2, source: ours}]\n");
        assertThat(verdict("moments")).isEqualTo("information");
        assertThat(verdict("reml")).isEqualTo("meets");
    }

    private String verdict(String method) {
        return bench.result("repeatability", "", "sd-repeatability", method)
                .getOrDefault("verdict", "");
    }

    @Test
    void theProtocolMaySayThatLabelsStartAnewWithinAnotherFactor() {
        crossed();
        evaluate(", factors: [day, analyst], nested-in: {analyst: day}");
        // analysts within days: mean square 0 with 3 degrees of freedom, (0 - 2)/2 = -1
        assertThat(
                        bench.result("repeatability", "factor=analyst", "sd-between", "moments")
                                .get("note"))
                .contains("6 labels")
                .contains("variance -1,");
    }

    @Test
    void onePreparationOnTwoInstrumentsStaysOnePreparation() {
        for (int p = 0; p < 6; p++) {
            final double own = p % 3;
            row(100 + own, "p" + p, "", "", "G1");
            row(101 + own, "p" + p, "", "", "G2");
        }
        row(102, "p6", "", "", "G1");
        row(100, "p6", "", "", "G2");
        evaluate(", factors: [instrument]");
        assertThat(number("", "sd-injection", "moments", "degrees_of_freedom")).isEqualTo(6);
        assertThat(number("factor=instrument", "difference-between", "moments", "value"))
                .isCloseTo(-(6 - 2) / 7.0, within(1e-12));
    }

    /** Four days of one preparation each: the day holds the preparation. */
    @Test
    void onePreparationADayShowsNoRepeatabilityButAnIntermediatePrecision() {
        for (int d = 0; d < 5; d++) {
            row(100 + d, "p" + d, "d" + d, "", "");
            row(102 + d, "p" + d, "d" + d, "", "");
        }
        evaluate(", factors: [day]");
        assertThat(bench.result("repeatability", "", "sd-repeatability", "moments"))
                .containsEntry("reason", "too-few-preparations");
        // mean square of days 2 x 2.5 = 5 with 4 df, of injections 2; a result averages 2
        assertThat(number("", "sd-intermediate", "moments", "value"))
                .isCloseTo(Math.sqrt(2.5), within(1e-12));
        assertThat(number("", "sd-intermediate", "moments", "degrees_of_freedom")).isEqualTo(4);
        assertThat(number("factor=day", "sd-between", "moments", "value"))
                .isCloseTo(Math.sqrt(1.5), within(1e-12));
    }

    @Test
    void theRepeatabilityLimitHasTheIntervalOfTheLimitAtKnownScatter() {
        final double d = Math.sqrt(5 / 6.0);
        for (int i = 0; i < 6; i++) {
            row(100 + (i % 2 == 0 ? d : -d), "p" + i, "", "", "");
        }
        evaluate("");
        // s = 1 with 5 df: t 2.570582, chi-square 0.831212 and 12.832502
        assertThat(number("", "repeatability-limit", "", "value"))
                .isCloseTo(2.570582 * Math.sqrt(2), within(1e-5));
        assertThat(number("", "repeatability-limit", "", "lower"))
                .isCloseTo(1.959964 * Math.sqrt(2 * 5 / 12.832502), within(1e-5));
        assertThat(number("", "repeatability-limit", "", "upper"))
                .isCloseTo(1.959964 * Math.sqrt(2 * 5 / 0.831212), within(1e-5));
    }

    /** Three flasks of 1, each injected once after one of 100 and once after itself. */
    @Test
    void carryOverIsTheDifferenceAfterAMuchLargerResponse() {
        for (int p = 0; p < 3; p++) {
            row(100, "big" + p, "", "", "");
            row(1.5 + p / 10.0, "small" + p, "", "", "");
            row(1, "small" + p, "", "", "");
        }
        evaluate("");
        // (1.5 - 1)/(100 - 1.5), (1.6 - 1)/(100 - 1.6), (1.7 - 1)/(100 - 1.7)
        final double mean = (0.5 / 98.5 + 0.6 / 98.4 + 0.7 / 98.3) / 3;
        assertThat(number("", "carry-over", "", "value")).isCloseTo(100 * mean, within(1e-10));
        assertThat(number("", "carry-over", "", "degrees_of_freedom")).isEqualTo(2);
    }

    /** Five flasks injected twice; the areas rise by 1 from flask to flask. */
    @Test
    void driftIsTheSlopeOfTheMeansOfPreparationsOnTheirPlaceInTheRun() {
        for (int p = 0; p < 5; p++) {
            final double bent = p == 2 ? 0.1 : 0;
            row(99 + p + bent, "p" + p, "", "", "");
            row(97 + p + bent, "p" + p, "", "", "");
        }
        evaluate("");
        // means 98 99 100.1 101 102 at places 0.5 2.5 4.5 6.5 8.5: slope 0.5; mean 100.02
        assertThat(number("", "drift-per-injection", "", "value"))
                .isCloseTo(50 / 100.02, within(1e-9));
        assertThat(number("", "drift-p", "", "value")).isLessThan(1e-4);
    }

    @Test
    void whatLooksUnusualIsFlaggedAndStaysAndExclusionsAreToldBothWays() {
        for (int p = 0; p < 9; p++) {
            row(100 + p % 3 - 1, "p" + p, "", "", "");
        }
        row(120, "p9", "", "", "");
        bench.write("areas.csv", table.toString());
        final String protocol =
                Bench.usual() + "characteristics: {repeatability: {where: {series: repeat}}}\n";
        assertThat(bench.run(protocol).exit()).isZero();
        assertThat(folder.resolve("out/results.json"))
                .content()
                .contains("injection i010")
                .contains("Grubbs' G");
        final double with = number("", "sd-repeatability", "", "value");
        assertThat(
                        bench.run(
                                        protocol
                                                + "exclusions: [{injection: i010, compound: all, reason: bubble, who: nobody}]\n",
                                        "--replace")
                                .exit())
                .isZero();
        // 3 of each of -1, 0, 1: s^2 = 6/8
        assertThat(number("", "sd-repeatability", "", "value"))
                .isCloseTo(Math.sqrt(0.75), within(1e-12));
        assertThat(bench.result("repeatability", "", "sd-repeatability", "").get("note"))
                .contains("with what the protocol excludes it would be")
                .contains(splitledger.study.Trail.digits(with));
    }

    @Test
    void anInternalStandardThatSharesTheScatterHelpsAndTheWordsSayWhereToLook() {
        final double[] shared = {0, 2, -1, 3, 1, -2, 2, -1, 0, -3, 1, -2};
        final double[] own = {0.1, -0.1, 0.2, 0, -0.2, 0.1, 0, 0.2, -0.1, 0.1, -0.2, -0.1};
        final StringBuilder wide = new StringBuilder("injection,series,preparation,c,d,standard\n");
        for (int i = 0; i < shared.length; i++) {
            wide.append("i").append(i).append(",repeat,p").append(i / 6);
            wide.append(',').append(100 + shared[i] + own[i]);
            wide.append(',').append(100 + shared[i] + own[(i + 5) % 12]);
            wide.append(',').append(100 + shared[i] + own[(i + 3) % 12]).append('\n');
        }
        bench.write("areas.csv", wide.toString());
        final String protocol =
                Bench.usual()
                        .replace("areas.csv", "areas.csv, form: wide")
                        .replace("[c]", "[c, d], internal-standard: {compound: standard}");
        assertThat(
                        bench.run(
                                        protocol
                                                + "characteristics: {repeatability: {where: {series: repeat}}}\n")
                                .exit())
                .isZero();
        final List<List<String>> rows = Bench.rows(folder.resolve("out/results.csv"));
        assertThat(rows)
                .filteredOn(r -> r.get(3).equals("internal-standard-gain"))
                .hasSize(2)
                .allSatisfy(r -> assertThat(Double.parseDouble(r.get(5))).isLessThan(0.3))
                .allSatisfy(r -> assertThat(r.get(17)).contains("agree better"));
        assertThat(rows)
                .filteredOn(r -> r.get(3).equals("share-common-mode"))
                .hasSize(2)
                .allSatisfy(r -> assertThat(Double.parseDouble(r.get(5))).isGreaterThan(90))
                .allSatisfy(r -> assertThat(r.get(17)).contains("volume injected"));
    }
}
