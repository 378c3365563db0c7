package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Error rates of the method detection limit and ratios of limits between groups. */
class DetectionRatesTest {
    private static final String MDL = "US 40 CFR 136 App. B rev. 2";
    private static final String POSITIVE = "expected-false-positive-rate";
    private static final String NEGATIVE = "expected-false-negative-rate";
    private static final String KEPT = "calibration=kept";

    /** Deviations with sum 0 that leave the slope alone; sum of squares 10. */
    private static final double[] DEVIATIONS = {1, -2, 0, 2, -1};

    /** Seven deviations with mean 0 and standard deviation 1. */
    private static final double[] PAIRS = {1, -1, 1, -1, 1, -1, 0};

    @TempDir Path folder;
    private Bench bench;

    @BeforeEach
    void newBench() {
        bench = new Bench(folder);
    }

    /** Responses 10 x + scale times the deviations: slope 10, intercept 0. */
    private void line(String series, double scale) {
        for (int x = 1; x <= 5; x++) {
            bench.row(
                    series,
                    series + x,
                    "L" + x,
                    Integer.toString(x),
                    10 * x + scale * DEVIATIONS[x - 1]);
        }
    }

    /** Standard deviations in area; blanks about 0.2, spiked preparations about 2. */
    private void mdl(double ofSpiked, double ofBlanks) {
        line("calibration", 0.1);
        for (int i = 0; i < PAIRS.length; i++) {
            bench.row("spike", "k" + i, "", "", 2 + ofSpiked * PAIRS[i]);
            bench.row("blank", "b" + i, "", "", 0.2 + ofBlanks * PAIRS[i]);
        }
    }

    private void evaluate() {
        final String protocol =
                "splitledger: 1\ntables: [{file: areas.csv, zero-means: not-detected}]\ncompounds: {targets: [c]}\n"
                        + "characteristics: {calibration: {where: {series: calibration}, weights: none},"
                        + " detection: {where: {series: [calibration, blank]}, spiked: {series: spike}}}\n";
        assertThat(bench.table().run(protocol).err()).isEmpty();
    }

    private double number(String condition, String quantity, String column) {
        return bench.number("detection", condition, quantity, MDL, column);
    }

    private static Offset<Double> close() {
        return within(1e-8);
    }

    @Test
    void theFigureOfDocumentsSaysHowOftenTheyWouldBeWrong() throws IOException {
        mdl(0.2, 0.1);
        evaluate();

        assertThat(Files.readString(folder.resolve("out/results.json")))
                .contains("\\nfalse alarms ")
                .contains(", misses ");
        assertThat(folder.resolve("out/figures/detection-limits-c.svg"))
                .content()
                .contains("false alarms");
    }

    /**
     * Spiked preparations scatter twice as much as blanks, whose mean is two of their standard
     * deviations: 1 - pt(2 t, 6, 2) with t = qt(0.99, 6), in R 4.2; 0.0174 by 4 million draws.
     */
    @Test
    void aLaterBlankExceedsTheSpikedFormAsTheRatioOfBothScattersSays() {
        mdl(0.2, 0.1);
        evaluate();

        assertThat(number("", "method-detection-limit", "value"))
                .isCloseTo(3.142668403 * 0.02, close());
        assertThat(number("", POSITIVE, "value")).isCloseTo(0.0173491757634, close());
        assertThat(number("", POSITIVE, "upper")).isCloseTo(0.354154717836, close());
        assertThat(number("", POSITIVE, "lower")).isZero();
        assertThat(bench.result("detection", "", POSITIVE, MDL).get("note"))
                .contains("present above 0.0629");
    }

    /** pt(t, 6, t), and with t over the ends of sigma / s, in R 4.2. */
    @Test
    void anAmountAtTheMethodDetectionLimitIsMissedInAboutHalfOfAllCases() {
        mdl(0.2, 0.1);
        evaluate();

        assertThat(number("", NEGATIVE, "value")).isCloseTo(0.455799205043, close());
        assertThat(number("", NEGATIVE, "lower")).isCloseTo(0.0839895218274, close());
        assertThat(number("", NEGATIVE, "upper")).isCloseTo(0.883905697126, close());
    }

    /**
     * The blank is (0.0629 - 0.02) / 0.01 standard deviations below the limit; ends by noncentral t
     * (uniroot over pt) and, for the miss, the line's own error at the limit, in R 4.2.
     */
    @Test
    void withTheLimitKeptTheRatesAreThoseOfTheNormalLaw() {
        mdl(0.2, 0.1);
        evaluate();

        assertThat(number(KEPT, POSITIVE, "value")).isCloseTo(9.12312731548e-6, within(1e-12));
        assertThat(number(KEPT, POSITIVE, "upper")).isCloseTo(0.0349559541368, close());
        assertThat(number(KEPT, NEGATIVE, "value")).isCloseTo(0.5, within(1e-12));
        assertThat(number(KEPT, NEGATIVE, "lower")).isCloseTo(0.0325611262662, close());
    }

    /** 1 - pt(t / sqrt(8/7), 6) and pt(q, 6, q) with q = t / sqrt(1/4 + 1/7), in R 4.2. */
    @Test
    void whereBlanksDecideANewBlankIsAsFarFromTheirMeanAsTSays() {
        mdl(0.05, 0.1);
        evaluate();

        assertThat(number("", "method-detection-limit", "value"))
                .isCloseTo(0.02 + 3.142668403 * 0.01, close());
        for (String column : new String[] {"value", "lower", "upper"}) {
            assertThat(number("", POSITIVE, column)).isCloseTo(0.0129789303749, close());
        }
        assertThat(number("", NEGATIVE, "value")).isCloseTo(0.441943465831, close());
    }

    @Test
    void whereTheHighestBlankDecidesTheNextOneIsHigherOnceInOneMoreThanTheirNumber() {
        mdl(0.01, 0.1);
        bench.row("blank", "silent", "", "", 0);
        evaluate();

        assertThat(number("", "method-detection-limit", "value")).isCloseTo(0.03, close());
        assertThat(number("", POSITIVE, "value")).isCloseTo(1 / 9.0, within(1e-12));
        assertThat(bench.result("detection", "", NEGATIVE, MDL))
                .containsEntry("status", "not-estimable")
                .containsEntry("reason", "not-detected");
    }

    /**
     * Twice the scatter about the same line: ratio 2. By hand: variance of residuals 10/3 and 40/3,
     * relative variance of the slope 1/300 and 4/300, so that 1/(2 nu') = 51/300 and 54/300. Ends 2
     * / sqrt(qf(.., 300/108, 300/102)) in R 4.2.
     */
    @Test
    void theRatioOfDetectionLimitsHasAnIntervalByF() {
        line("fast", 1);
        line("slow", 2);
        final String protocol =
                "characteristics: {calibration: {where: {series: [fast, slow]}, weights: none},"
                        + " detection: {where: {series: [fast, slow]}, groups: series}}\n";
        assertThat(bench.evaluate(protocol).err()).isEmpty();

        final Map<String, String> ratio =
                bench.result(
                        "detection",
                        "factor=series;group=slow;reference=fast",
                        "detection-limit-ratio",
                        "ISO 11843-2");
        assertThat(cell(ratio, "value")).isCloseTo(2, close());
        assertThat(cell(ratio, "standard_uncertainty"))
                .isCloseTo(2 * Math.sqrt(105 / 300.0), close());
        assertThat(cell(ratio, "lower")).isCloseTo(0.498393044562, close());
        assertThat(cell(ratio, "upper")).isCloseTo(8.45109145649, within(1e-7));
    }

    private static double cell(Map<String, String> cells, String column) {
        return Double.parseDouble(cells.get(column));
    }
}
