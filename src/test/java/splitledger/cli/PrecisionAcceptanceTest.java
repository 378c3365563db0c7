package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Limits that others set for precision, and precision against the level, worked by hand. */
class PrecisionAcceptanceTest {
    @TempDir Path folder;
    private Bench bench;

    @BeforeEach
    void makeBench() {
        bench = new Bench(folder);
    }

    private void evaluate(String options) {
        final Bench.Ran ran =
                bench.evaluate(
                        "characteristics: {repeatability: {where: {series: repeat}"
                                + options
                                + "}}\n");
        assertThat(ran).extracting(Bench.Ran::exit, Bench.Ran::err).containsExactly(0, "");
    }

    private double number(String condition, String quantity) {
        return bench.number("repeatability", condition, quantity, "", "value");
    }

    private String cell(String quantity, String column) {
        return bench.result("repeatability", "", quantity, "").getOrDefault(column, "");
    }

    /** One solution, injected again and again: 99, 101, 99, ... */
    private void injected(String preparation, int times) {
        for (int i = 0; i < times; i++) {
            bench.row("repeat", preparation, "", "", i % 2 == 0 ? 99 : 101);
        }
    }

    /** Four preparations of a level, half of them above its mean. */
    private void level(String name, double mean, double deviation) {
        for (int i = 0; i < 4; i++) {
            bench.row(
                    "repeat", name + i, name, "", i % 2 == 0 ? mean - deviation : mean + deviation);
        }
    }

    /** t(90 %, 5) = 2.01505: 0.349 * 2 * 2.44949 / 2.01505 = 0.84848; found sqrt(6/5) = 1.0954. */
    @Test
    void sixInjectionsAreComparedWithTheLimitOfThePharmacopoeia() {
        injected("p", 6);
        evaluate(", upper-limit-b: 2");
        assertThat(number("", "pharmacopoeial-limit")).isCloseTo(0.84848, within(2e-5));
        assertThat(cell("pharmacopoeial-limit", "unit")).isEqualTo("%");
        assertThat(number("", "rsd-injection")).isCloseTo(Math.sqrt(1.2), within(1e-12));
        assertThat(cell("pharmacopoeial-limit", "note"))
                .contains("n = 6", "above it: 1.09")
                .doesNotContain("not above it")
                .contains("European Pharmacopoeia, general chapter 2.2.46", "from memory");
    }

    /** t(90 %, 2) = 2.91999: 0.349 * 6 * 1.73205 / 2.91999 = 1.24210; found 1.1547. */
    @Test
    void threeInjectionsOfEachOfTwoSolutionsHaveTheLimitOfThree() {
        injected("p", 3);
        injected("q", 3);
        evaluate(", upper-limit-b: 6");
        assertThat(number("", "pharmacopoeial-limit")).isCloseTo(1.24210, within(2e-5));
        assertThat(cell("pharmacopoeial-limit", "note")).contains("n = 3", "not above it: 1.15");
    }

    @Test
    void theLimitIsNotStretchedToOtherNumbersOfInjections() {
        injected("p", 7);
        evaluate(", upper-limit-b: 2");
        assertThat(cell("pharmacopoeial-limit", "status")).isEqualTo("not-estimable");
        assertThat(cell("pharmacopoeial-limit", "reason"))
                .isEqualTo("not-defined-by-this-document");
    }

    @Test
    void theLimitNeedsOneNumberOfInjections() {
        injected("p", 3);
        injected("q", 4);
        evaluate(", upper-limit-b: 2");
        assertThat(cell("pharmacopoeial-limit", "status")).isEqualTo("not-estimable");
        assertThat(cell("pharmacopoeial-limit", "note")).contains("n = 3, 4");
    }

    /** 2 * 0.01^-0.1505 = 2 * 10^0.301 = 3.99972 %; found sqrt(16/3) = 2.30940 % of 100. */
    @Test
    void scatterIsComparedWithWhatTheMassFractionPredicts() {
        level("x", 100, 2);
        evaluate(", mass-fraction: 0.01");
        assertThat(number("", "horwitz-rsd")).isCloseTo(3.99972, within(2e-5));
        assertThat(number("", "horwitz-ratio")).isCloseTo(0.57739, within(1e-5));
        assertThat(cell("horwitz-rsd", "note")).contains("Horwitz", "Thompson", "from memory");
    }

    @Test
    void traceAmountsArePredictedWithTwentyTwoPercent() {
        level("x", 100, 2);
        evaluate(", mass-fraction: 1e-9");
        assertThat(number("", "horwitz-rsd")).isCloseTo(22, within(1e-10));
    }

    @Test
    void aMassFractionAboveOnePredictsNothing() {
        level("x", 100, 2);
        evaluate(", mass-fraction: 2");
        assertThat(cell("horwitz-rsd", "status")).isEqualTo("not-estimable");
        assertThat(cell("horwitz-ratio", "status")).isEqualTo("not-estimable");
    }

    /**
     * Variances 16/3 and 64/3 at 100 and 200. Constant against proportional: 3 (2 ln 2.5 - ln 4) =
     * 1.33886, the root 1.15709 is exceeded with probability 0.12362.
     */
    @Test
    void scatterThatGrowsWithTheLevelIsTakenAsProportional() {
        level("low", 100, 2);
        level("high", 200, 4);
        evaluate(", level: level");
        assertThat(number("level=low", "sd-repeatability"))
                .isCloseTo(Math.sqrt(16 / 3.0), within(1e-12));
        assertThat(bench.number("repeatability", "level=high", "mean", "moments", "value"))
                .isCloseTo(200, within(1e-12));
        assertThat(number("", "scatter-constant")).isZero();
        assertThat(number("", "scatter-proportional"))
                .isCloseTo(Math.sqrt(16 / 3.0), within(1e-10));
        assertThat(number("", "scatter-constant-p")).isCloseTo(0.12362, within(5e-5));
        assertThat(cell("scatter-constant", "note")).contains("taken as proportional");
    }

    /** The same the other way round: pooled variance 16/3, p of proportional scatter 0.12362. */
    @Test
    void scatterThatStaysIsTakenAsConstant() {
        level("low", 100, 2);
        level("high", 200, 2);
        evaluate(", level: level");
        assertThat(number("", "scatter-constant")).isCloseTo(Math.sqrt(16 / 3.0), within(1e-10));
        assertThat(number("", "scatter-proportional")).isZero();
        assertThat(number("", "scatter-proportional-p")).isCloseTo(0.12362, within(5e-5));
        assertThat(cell("scatter-constant", "note")).contains("taken as constant");
    }

    /** Deviations sqrt(7^2 + (0.02 x)^2) at 100, 1200 and 12000, so both parts fit exactly. */
    @Test
    void scatterOfBothKindsIsTakenApart() {
        level("a", 100, Math.sqrt(53));
        level("b", 1200, 25);
        level("c", 12000, Math.sqrt(57649));
        evaluate(", level: level");
        assertThat(number("", "scatter-constant")).isCloseTo(7 * Math.sqrt(4 / 3.0), within(1e-4));
        assertThat(number("", "scatter-proportional"))
                .isCloseTo(2 * Math.sqrt(4 / 3.0), within(1e-4));
        assertThat(number("", "scatter-proportional-p")).isBetween(0.0045, 0.0055);
        assertThat(cell("scatter-constant", "note")).contains("taken as two components");
    }

    /** With the excluded row of 130 the mean of "high" would be 930/5 = 186. */
    @Test
    void whatIsExcludedIsToldBesideItsLevelAlone() {
        level("low", 100, 2);
        level("high", 200, 4);
        bench.row("repeat", "high9", "high", "", 130);
        final Bench.Ran ran =
                bench.evaluate(
                        """
                        characteristics: {repeatability: {where: {series: repeat}, level: level}}
                        exclusions: [{injection: i009, compound: all, reason: bubble, who: nobody}]
                        """);
        assertThat(ran).extracting(Bench.Ran::exit, Bench.Ran::err).containsExactly(0, "");
        assertThat(bench.result("repeatability", "level=high", "mean", "moments").get("note"))
                .contains("with what the protocol excludes it would be 186");
        assertThat(bench.result("repeatability", "level=low", "mean", "moments").get("note"))
                .doesNotContain("excludes");
    }

    @Test
    void aLevelColumnThatNoTableHasIsRefused() {
        level("low", 100, 2);
        final Bench.Ran ran =
                bench.evaluate(
                        "characteristics: {repeatability: {where: {series: repeat}, level: other}}\n");
        assertThat(ran.exit()).isNotZero();
        assertThat(ran.err()).contains("characteristics.repeatability.level", "'other'");
    }

    @Test
    void oneLevelIsLookedAtAsBefore() {
        level("low", 100, 2);
        evaluate(", level: level");
        assertThat(number("", "sd-repeatability")).isCloseTo(Math.sqrt(16 / 3.0), within(1e-12));
    }
}
