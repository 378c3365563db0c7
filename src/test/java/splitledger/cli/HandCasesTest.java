package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Small cases worked by hand, through the command line: they fix what each number means. */
class HandCasesTest {
    private static final String CALIBRATION =
            "characteristics: {calibration: {where: {series: calibration}, weights: none}}\n";
    private static final String SAMPLE =
            "characteristics: {calibration: {where: {series: calibration}, weights: none, predict: {series: sample}}}\n";

    @TempDir Path folder;
    private Bench bench;

    @BeforeEach
    void newBench() {
        bench = new Bench(folder);
    }

    private void line(double... y) {
        for (int i = 0; i < y.length; i++) {
            bench.row("calibration", "p" + (i + 1), "L" + (i + 1), Integer.toString(i + 1), y[i]);
        }
    }

    @Test
    void inversePredictionGivesTheExactAndTheFirstOrderInterval() {
        line(10.1, 19.9, 30.2, 39.8, 50.1);
        bench.row("sample", "s", "", "", 25);
        assertThat(bench.evaluate(SAMPLE).exit()).isZero();
        assertThat(bench.number("calibration", "", "intercept", "", "value"))
                .isCloseTo(0.05, within(1e-12));
        assertThat(bench.number("calibration", "", "slope", "", "value"))
                .isCloseTo(9.99, within(1e-12));
        assertThat(bench.number("calibration", "", "residual-sd", "", "value"))
                .isCloseTo(0.188856, within(5e-7));
        assertThat(bench.number("calibration", "", "intercept-slope-covariance", "", "value"))
                .isCloseTo(-0.0107, within(5e-5));
        final String s = "preparation=s";
        final String amount = "predicted-amount";
        assertThat(bench.number("calibration", s, amount, "fieller", "value"))
                .isCloseTo(2.497497, within(5e-7));
        assertThat(bench.number("calibration", s, amount, "fieller", "standard_uncertainty"))
                .isCloseTo(0.020926, within(5e-7));
        assertThat(bench.number("calibration", s, amount, "fieller", "lower"))
                .isCloseTo(2.430709, within(5e-7));
        assertThat(bench.number("calibration", s, amount, "fieller", "upper"))
                .isCloseTo(2.563923, within(5e-7));
        assertThat(bench.number("calibration", s, amount, "first-order", "lower"))
                .isCloseTo(2.430903, within(5e-7));
        assertThat(bench.number("calibration", s, amount, "first-order", "upper"))
                .isCloseTo(2.564092, within(5e-7));
        assertThat(bench.number("calibration", s, amount, "fieller", "degrees_of_freedom"))
                .isEqualTo(3);
    }

    @Test
    void aSlopeThatIsNotToldFromZeroGivesNoAmount() {
        line(1, 3, 2);
        bench.row("sample", "s", "", "", 2);
        assertThat(bench.evaluate(SAMPLE).exit()).isZero();
        assertThat(bench.result("calibration", "preparation=s", "predicted-amount", "fieller"))
                .containsEntry("status", "not-estimable")
                .containsEntry("reason", "unbounded-interval")
                .containsEntry("value", "")
                .containsEntry("lower", "");
    }

    @Test
    void lackOfFitIsTestedAgainstPreparationsAndNotInjections() {
        final double[][] means = {{10, 11}, {19.5, 20.5}, {31, 32}};
        for (int level = 0; level < 3; level++) {
            for (int p = 0; p < 2; p++) {
                for (double d : new double[] {-0.1, 0.1}) {
                    bench.row(
                            "calibration",
                            "p" + level + p,
                            "L" + (level + 1),
                            Integer.toString(level + 1),
                            means[level][p] + d);
                }
            }
        }
        assertThat(bench.evaluate(CALIBRATION).exit()).isZero();
        assertThat(bench.number("calibration", "", "lack-of-fit-F", "", "value"))
                .isCloseTo(2.667, within(5e-4));
        assertThat(bench.number("calibration", "", "lack-of-fit-p", "", "value"))
                .isCloseTo(0.201, within(5e-4));
    }

    @Test
    void onePreparationALevelCannotTestLinearity() {
        line(10.1, 19.9, 30.2, 39.8, 50.1);
        final String asked =
                CALIBRATION
                        + "requirements: [{quantity: lack-of-fit-p, at-least: 0.05, source: worked by hand, set: 2026-01-01}]\n";
        assertThat(bench.evaluate(asked).exit()).isEqualTo(1);
        assertThat(bench.result("calibration", "", "lack-of-fit-p", ""))
                .containsEntry("status", "not-estimable")
                .containsEntry("reason", "one-preparation-a-level")
                .containsEntry("verdict", "not-shown");
    }

    @Test
    void oneLevelGivesNoLineAndNoFault() {
        bench.row("calibration", "p1", "L1", "1", 10).row("calibration", "p2", "L1", "1", 11);
        assertThat(bench.evaluate(CALIBRATION).exit()).isZero();
        assertThat(bench.result("calibration", "", "slope", ""))
                .containsEntry("status", "not-estimable")
                .containsEntry("reason", "too-few-levels")
                .containsEntry("verdict", "information");
    }

    @Test
    void thePureCalibrationBudgetHasExactlyNMinusTwoDegreesOfFreedomEverywhere() {
        line(10.1, 19.9, 30.2, 39.8, 50.1, 59.7);
        bench.row("sample", "s1", "", "", 10)
                .row("sample", "s2", "", "", 35)
                .row("sample", "s3", "", "", 60);
        final String budget =
                CALIBRATION
                        + "measurand: {name: amount, unit: mg/L, equation: found * V, results-for: {series: sample}, inputs: {V: {value: 1}}}\n";
        assertThat(bench.evaluate(budget).exit()).isZero();
        for (String label : new String[] {"s1", "s2", "s3"}) {
            assertThat(
                            bench.number(
                                    "budget",
                                    "preparation=" + label,
                                    "effective-degrees-of-freedom",
                                    "",
                                    "value"))
                    .isCloseTo(4, within(1e-9));
        }
    }

    @Test
    void theScatterOfTheSampleIsNotCountedTwice() {
        line(10.1, 19.9, 30.2, 39.8, 50.1);
        bench.row("sample", "s", "", "", 25).row("sample", "s", "", "", 25.2);
        for (int p = 0; p < 6; p++) {
            bench.row("repeat", "r" + p, "", "", 30 + (p % 3 - 1) * 0.3);
        }
        final String budget =
                "characteristics: {calibration: {where: {series: calibration}, weights: none}, repeatability: {where: {series: repeat}}}\n"
                        + "measurand: {name: amount, unit: mg/L, equation: found * precision, results-for: {series: sample},"
                        + " inputs: {precision: {value: 1, spread-of: rsd-repeatability, mean-of: 2}}}\n";
        assertThat(bench.evaluate(budget).exit()).isZero();
        // u(line)/x0 at x0 = 2.507508 and rsd/sqrt(2) with s^2 = 0.072, mean 30: nothing of the
        // sample's own 1/m term
        final double x0 = (25.1 - 0.05) / 9.99;
        final double line = 0.107 / 3 * (1 / 5.0 + (x0 - 3) * (x0 - 3) / 10) / (9.99 * 9.99);
        final double spread = x0 * x0 * 0.072 / 900 / 2;
        assertThat(
                        bench.number(
                                "budget",
                                "preparation=s",
                                "combined-standard-uncertainty",
                                "",
                                "value"))
                .isCloseTo(Math.sqrt(line + spread), within(1e-9));
        // from the amount studied on, (30 - 0.05)/9.99, the factor holds all of it; below, what the
        // calibrants scatter beyond the factor stays: at 1 mg/L s^2/b^2 = 3.5739e-4 against
        // (0.0089443 x 1)^2 = 8e-5, for a mean of two
        final List<List<String>> own =
                Bench.rows(folder.resolve("out/budget.csv")).stream()
                        .filter(row -> row.get(2).startsWith("found"))
                        .filter(row -> row.get(4).equals("sample"))
                        .toList();
        assertThat(own).extracting(row -> row.get(1)).containsExactly("L1", "L2");
        assertThat(Double.parseDouble(own.get(0).get(8)))
                .isCloseTo(Math.sqrt((0.107 / 3 / (9.99 * 9.99) - 0.072 / 900) / 2), within(1e-9));
    }

    @Test
    void theMethodDetectionLimitIsTheLargerOfSpikedAndBlank() {
        mdl(0);
        assertThat(limit("")).isCloseTo(0.4057, within(5e-5));
        assertThat(limit("form=spiked")).isCloseTo(0.4057, within(5e-5));
        assertThat(limit("form=blank")).isCloseTo(0.3638, within(5e-5));
    }

    @Test
    void aMeanOfBlanksBelowZeroCountsAsZero() {
        mdl(-0.2);
        assertThat(limit("form=blank")).isCloseTo(0.3067, within(5e-5));
    }

    private void mdl(double shift) {
        line(1, 2, 3, 4, 5);
        final double[] spikes = {1.9, 2.1, 2.0, 2.2, 1.8, 2.0, 2.0};
        final double[] blanks = {.1, 0, .2, .1, -.1, .1, 0};
        for (int i = 0; i < 7; i++) {
            bench.row("spike", "k" + i, "", "", spikes[i])
                    .row("blank", "b" + i, "", "", blanks[i] + shift);
        }
        final String protocol =
                "splitledger: 1\ntables: [{file: areas.csv, zero-means: measured}]\ncompounds: {targets: [c]}\n"
                        + "characteristics: {calibration: {where: {series: calibration}, weights: none},"
                        + " detection: {where: {series: [calibration, blank]}, spiked: {series: spike}}}\n";
        assertThat(bench.table().run(protocol).err()).isEmpty();
    }

    private double limit(String condition) {
        return bench.number(
                "detection",
                condition,
                "method-detection-limit",
                "US 40 CFR 136 App. B rev. 2",
                "value");
    }

    @Test
    void aRelativeStandardDeviationHasItsChiSquareInterval() {
        // six results of relative standard deviation 0.70 %: 100 +- d in pairs, s^2 = 6 d^2 / 5
        final double d = 0.7 / Math.sqrt(6.0 / 5);
        for (int i = 0; i < 6; i++) {
            bench.row("repeat", "p" + i, "", "", 100 + (i % 2 == 0 ? d : -d));
        }
        assertThat(
                        bench.evaluate(
                                        "characteristics: {repeatability: {where: {series: repeat}}}\n")
                                .exit())
                .isZero();
        assertThat(bench.number("repeatability", "", "rsd-repeatability", "", "value"))
                .isCloseTo(0.70, within(1e-12));
        assertThat(bench.number("repeatability", "", "rsd-repeatability", "", "lower"))
                .isCloseTo(0.437, within(5e-4));
        assertThat(bench.number("repeatability", "", "rsd-repeatability", "", "upper"))
                .isCloseTo(1.717, within(5e-4));
    }

    @Test
    void onePreparationShowsNoRepeatabilityOfResults() {
        bench.row("repeat", "p", "", "", 100)
                .row("repeat", "p", "", "", 101)
                .row("repeat", "p", "", "", 99);
        assertThat(
                        bench.evaluate(
                                        "characteristics: {repeatability: {where: {series: repeat}}}\n")
                                .exit())
                .isZero();
        assertThat(bench.number("repeatability", "", "sd-injection", "", "value"))
                .isCloseTo(1, within(1e-12));
        assertThat(bench.result("repeatability", "", "sd-repeatability", ""))
                .containsEntry("status", "not-estimable")
                .containsEntry("reason", "too-few-preparations");
    }
}
