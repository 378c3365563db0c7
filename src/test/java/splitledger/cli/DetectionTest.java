package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Detection limits by each document's own definition, through the command line. */
class DetectionTest {
    private static final String ISO = "ISO 11843-2";
    private static final String DIN = "DIN 32645, calibration";

    @TempDir Path folder;
    private Bench bench;

    @BeforeEach
    void newBench() {
        bench = new Bench(folder);
    }

    private static String protocol(String weights, String options) {
        return "characteristics: {calibration: {where: {series: calibration}"
                + weights
                + "}, detection: {where: {series: [calibration, blank]}"
                + options
                + "}}\n";
    }

    private void line() {
        final double[] x = {0.5, 1, 2, 4, 8};
        final double[] y = {5.3, 9.6, 20.5, 39.4, 80.6};
        for (int i = 0; i < x.length; i++) {
            bench.row("calibration", "p" + i, "L" + i, Double.toString(x[i]), y[i]);
        }
    }

    private double number(String condition, String quantity, String method, String column) {
        return bench.number("detection", condition, quantity, method, column);
    }

    /** Critical value, minimum detectable value (uniroot over pt with ncp) and ICH in R 4.2. */
    @Test
    void limitsOfAnUnweightedLineAreThoseOfTheirFormulas() {
        line();
        assertThat(bench.evaluate(protocol(", weights: none", "")).exit()).isZero();

        assertThat(number("", "critical-value", ISO, "value"))
                .isCloseTo(0.1704246831, within(5e-10));
        assertThat(number("", "detection-limit", ISO, "value"))
                .isCloseTo(0.3227184873, within(5e-8));
        assertThat(number("", "detection-limit", DIN, "value"))
                .isCloseTo(2 * 0.1704246831, within(1e-9));
        assertThat(number("", "detection-limit", "ICH Q2(R2), residual SD", "value"))
                .isCloseTo(0.1978923621, within(5e-10));
        assertThat(number("", "detection-limit", "ICH Q2(R2), intercept SD", "value"))
                .isCloseTo(0.1339737625, within(5e-10));
        assertThat(bench.result("detection", "", "quantification-limit", ISO))
                .containsEntry("status", "not-estimable")
                .containsEntry("reason", "not-defined-by-this-document");
    }

    @Test
    void errorRatesOfADecisionAreThoseItWasMadeFor() {
        line();
        assertThat(bench.evaluate(protocol(", weights: none", "")).exit()).isZero();

        // risks of 5 %, 2000 imagined repetitions: four standard errors
        assertThat(number("", "expected-false-positive-rate", ISO, "value"))
                .isCloseTo(0.05, within(4 * Math.sqrt(0.05 * 0.95 / 2000)));
        assertThat(number("", "expected-false-negative-rate", ISO, "value"))
                .isCloseTo(0.05, within(4 * Math.sqrt(0.05 * 0.95 / 2000)));
        // an amount at a limit that is its own threshold is missed every second time
        assertThat(
                        number(
                                "calibration=kept",
                                "expected-false-negative-rate",
                                "ICH Q2(R2), residual SD",
                                "value"))
                .isCloseTo(0.5, within(1e-9));
    }

    @Test
    void scatterNearNothingThatWasNotSeenGivesABoundOnly() {
        final double[] deviations = {-0.02, 0.03, -0.01};
        for (int i = 0; i < 6; i++) {
            for (int p = 0; p < 3; p++) {
                final double x = 100 * (i + 1);
                final double turned = deviations[(p + i) % 3];
                bench.row(
                        "calibration", "p" + i + p, "L" + i, Double.toString(x), x * (1 + turned));
            }
        }
        assertThat(bench.evaluate(protocol("", "")).exit()).isZero();

        assertThat(bench.result("detection", "", "detection-limit", ISO))
                .containsEntry("status", "bound-only")
                .containsEntry("reason", "scatter-near-nothing-not-seen")
                .containsEntry("lower", "");
        assertThat(bench.result("detection", "", "detection-limit", DIN))
                .containsEntry("reason", "not-defined-by-this-document");
    }

    @Test
    void tenBlanksGiveTheLimitsThatRestOnBlanks() {
        line();
        // standard deviation exactly 1 in area: pairs of +-d with 10 d^2 / 9 = 1
        final double d = Math.sqrt(0.9);
        for (int i = 0; i < 10; i++) {
            bench.row("blank", "b" + i, "", "", 1 + (i % 2 == 0 ? d : -d));
        }
        assertThat(bench.evaluate(protocol(", weights: none", "")).exit()).isZero();
        final double slope = bench.number("calibration", "", "slope", "", "value");
        // t(0.95, 9) = 1.833113 by tables
        final double critical = 1.833113 * Math.sqrt(1.1) / slope;

        assertThat(number("", "critical-value", "Currie, blanks", "value"))
                .isCloseTo(critical, within(1e-6));
        assertThat(number("", "detection-limit", "DIN 32645, blanks", "value"))
                .isCloseTo(2 * critical, within(1e-6));
        assertThat(number("", "quantification-limit", "Currie, blanks", "value"))
                .isCloseTo(10 * Math.sqrt(1.1) / slope, within(1e-9));
        assertThat(bench.result("detection", "", "critical-value", "Currie, blanks"))
                .containsEntry("status", "estimable");
    }

    @Test
    void fewBlanksGiveABoundOnly() {
        line();
        bench.row("blank", "b1", "", "", 0.4)
                .row("blank", "b2", "", "", 0.6)
                .row("blank", "b3", "", "", 0.5);
        assertThat(bench.evaluate(protocol(", weights: none", "")).exit()).isZero();

        assertThat(bench.result("detection", "", "critical-value", "Currie, blanks"))
                .containsEntry("status", "bound-only")
                .containsEntry("reason", "too-few-blanks");
    }

    @Test
    void aClaimedLimitIsPutToTheTest() {
        line();
        for (int i = 0; i < 6; i++) {
            bench.row("verify", "v" + i, "", "1", i % 2 == 0 ? 10.2 : 9.8);
        }
        final String asked =
                ", verification: {series: verify}, recovery-allowed: 20, rsd-allowed: 10";
        assertThat(bench.evaluate(protocol(", weights: none", asked)).exit()).isZero();
        assertThat(number("", "limit-verified", "", "value")).isEqualTo(1);

        final String strict = asked.replace("rsd-allowed: 10", "rsd-allowed: 1");
        final Path second = folder.resolve("second");
        assertThat(second.toFile().mkdir()).isTrue();
        bench = new Bench(second);
        line();
        for (int i = 0; i < 6; i++) {
            bench.row("verify", "v" + i, "", "1", i % 2 == 0 ? 10.2 : 9.8);
        }
        assertThat(bench.evaluate(protocol(", weights: none", strict)).exit()).isZero();
        assertThat(number("", "limit-verified", "", "value")).isZero();
    }

    /** Height 12, noise 4: the ratio is 6 by 2H/h and 3 by H/h. */
    @Test
    void theSignalToNoiseRatioIsTheOneThatTheProtocolNames() {
        final StringBuilder table =
                new StringBuilder(
                        "injection,compound,area,series,preparation,level,amount,height,noise\n");
        for (int i = 1; i <= 4; i++) {
            table.append("i").append(i).append(",c,").append(10 * i + (i % 2) * 0.1);
            table.append(",calibration,p").append(i).append(",L").append(i).append(',').append(i);
            table.append(',').append(12 * i).append(",4\n");
        }
        bench.write("areas.csv", table.toString());
        final String named = ", signal-to-noise: 2H/h, noise-is: peak-to-peak";
        assertThat(bench.run(Bench.usual() + protocol(", weights: none", named)).exit()).isZero();
        assertThat(number("ratio=3", "signal-to-noise-limit", "2H/h, peak-to-peak", "value"))
                .isCloseTo(0.5, within(1e-12));
        assertThat(number("ratio=10", "signal-to-noise-limit", "2H/h, peak-to-peak", "value"))
                .isCloseTo(10 / 6.0, within(1e-12));
    }
}
