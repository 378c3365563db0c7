package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.api.Assertions.withinPercentage;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Published tables through the command line, to all published digits. */
class PublishedCasesTest {
    /** Relative 1e-9, as percent: what doubles reach on these sets with room to spare. */
    private static final double NINE_DIGITS = 1e-7;

    @TempDir Path folder;

    private void evaluate(String name) {
        final Bench.Ran ran = new Bench(folder).published(name);
        assertThat(ran).extracting(Bench.Ran::exit, Bench.Ran::err).containsExactly(0, "");
    }

    private double number(
            String characteristic,
            String condition,
            String quantity,
            String method,
            String column) {
        return new Bench(folder).number(characteristic, condition, quantity, method, column);
    }

    /**
     * EURACHEM/CITAC CG 4:2012, example A5, what surrounds the result: correlation of the
     * coefficients, relative uncertainty. The result itself is a case of the qualification.
     */
    @Test
    void cadmiumReleaseOfThePublicGuideBesideItsResult() {
        evaluate("cadmium-release");
        final double covariance =
                number("calibration", "", "intercept-slope-covariance", "", "value");
        final double a = number("calibration", "", "intercept", "", "standard_uncertainty");
        final double b = number("calibration", "", "slope", "", "standard_uncertainty");
        // shown in a public copy of the example
        assertThat(covariance / (a * b)).isCloseTo(-0.8704, within(5e-5));
        assertThat(Math.sqrt(number("calibration", "", "r-squared", "", "value")))
                .isCloseTo(0.997, within(5e-4));
        final String vessel = "preparation=vessel";
        final double u = number("budget", vessel, "combined-standard-uncertainty", "", "value");
        // published 0.097, from memory; unrounded steps give 0.0975
        assertThat(u / number("budget", vessel, "result", "", "value"))
                .isCloseTo(0.097, within(1e-3));
    }

    /** EURACHEM/CITAC CG 4:2000 (2nd edition), example A5: 0.036 mg/dm2, relative 0.09. */
    @Test
    void cadmiumReleaseOfTheSecondEdition() {
        evaluate("cadmium-release-2000");
        final String vessel = "preparation=vessel";
        final double r = number("budget", vessel, "result", "", "value");
        final double u = number("budget", vessel, "combined-standard-uncertainty", "", "value");
        assertThat(r).isCloseTo(0.036, within(5e-4));
        assertThat(u / r).isCloseTo(0.09, within(5e-3));
        // printed 0.0033, the product of rounded 0.036 and 0.09; unrounded inputs, u(c0) printed
        // as 0.018, give 0.00347 (computed with R)
        assertThat(u).isCloseTo(0.00347, within(5e-5));
    }

    /** Box, Hunter and Hunter, Statistics for Experimenters: components 28.53 and 0.92. */
    @Test
    void moistureOfPigmentPasteWithTheBatchAsAFactor() {
        evaluate("pigment-paste");
        final double test = number("repeatability", "", "sd-injection", "moments", "value");
        assertThat(test * test).isCloseTo(0.917, within(5e-4));
        final double result = number("repeatability", "", "sd-repeatability", "moments", "value");
        assertThat(result * result - test * test).isCloseTo(28.53, within(5e-3));
        assertThat(number("repeatability", "", "sd-injection", "moments", "degrees_of_freedom"))
                .isEqualTo(30);
        // Satterthwaite of 57.98/2 with 15 and 0.917/2 with 30 degrees of freedom
        final double a = 57.98333333 / 2;
        final double b = 0.9166666667 / 2;
        assertThat(number("repeatability", "", "sd-repeatability", "moments", "degrees_of_freedom"))
                .isCloseTo((a + b) * (a + b) / (a * a / 15 + b * b / 30), within(1e-6));
    }

    /** NIST StRD, Norris: certified values. */
    @Test
    void norrisToNineDigits() {
        evaluate("norris");
        assertThat(number("calibration", "", "intercept", "", "value"))
                .isCloseTo(-0.262323073774029, withinPercentage(NINE_DIGITS));
        assertThat(number("calibration", "", "intercept", "", "standard_uncertainty"))
                .isCloseTo(0.232818234301152, withinPercentage(NINE_DIGITS));
        assertThat(number("calibration", "", "slope", "", "value"))
                .isCloseTo(1.00211681802045, withinPercentage(NINE_DIGITS));
        assertThat(number("calibration", "", "slope", "", "standard_uncertainty"))
                .isCloseTo(0.429796848199937e-3, withinPercentage(NINE_DIGITS));
        assertThat(number("calibration", "", "residual-sd", "", "value"))
                .isCloseTo(0.884796396144373, withinPercentage(NINE_DIGITS));
        assertThat(number("calibration", "", "r-squared", "", "value"))
                .isCloseTo(0.999993745883712, withinPercentage(NINE_DIGITS));
    }

    @Test
    void theDemoKeepsTheRulesOfItsFiles() {
        final Bench.Ran ran =
                Bench.command(
                        "evaluate",
                        "--no-pdf",
                        "protocols/flower-oil/protocol.yaml",
                        "--out",
                        folder.resolve("out").toString());
        assertThat(ran.err()).isEmpty();
        assertThat(ran.exit()).isEqualTo(1);
        final List<List<String>> rows = Bench.rows(folder.resolve("out/results.csv"));
        assertThat(rows.get(0)).hasSize(18);
        final List<List<String>> findings = rows.subList(1, rows.size());
        assertThat(findings)
                .isNotEmpty()
                .allSatisfy(
                        row -> {
                            assertThat(row.get(12))
                                    .isIn("estimable", "bound-only", "not-estimable");
                            assertThat(row.get(16))
                                    .isIn(
                                            "meets",
                                            "fails",
                                            "undecided",
                                            "not-shown",
                                            "information");
                            assertThat(row.get(14).isEmpty())
                                    .isEqualTo(row.get(16).equals("information"));
                            if (row.get(12).equals("not-estimable")) {
                                assertThat(row.get(5)).isEmpty();
                                assertThat(row.get(13)).isNotEmpty();
                            }
                        });
        assertThat(findings).extracting(row -> row.subList(0, 5)).doesNotHaveDuplicates();
        assertThat(folder.resolve("out/inputs/datasets/flower-oil/areas.csv"))
                .hasSameBinaryContentAs(Path.of("datasets/flower-oil/areas.csv"));
    }
}
