package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.Locale;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Models of the calibration, groups and standard additions through the command line. */
class CalibrationModelTest {
    private static final double[] LEVELS = {1, 2, 5, 10, 20, 50};

    /** Deviations of three preparations a level, in units of their standard deviation. */
    private static final double[][] DEVIATIONS = {
        {-0.6, 1.1, -0.3}, {0.9, -1.2, 0.4}, {-1.0, 0.2, 0.7},
        {1.3, -0.4, -0.8}, {0.1, -1.1, 1.2}, {-0.7, 0.9, 0.3}
    };

    @TempDir Path folder;
    private Bench bench;

    @BeforeEach
    void newBench() {
        bench = new Bench(folder);
    }

    /** Preparations whose scatter grows with the response, and one sample. */
    private void growing() {
        for (int i = 0; i < LEVELS.length; i++) {
            for (int p = 0; p < 3; p++) {
                final double mean = 10 * LEVELS[i] + 1;
                bench.row(
                        "calibration",
                        "p" + i + p,
                        "L" + i,
                        Double.toString(LEVELS[i]),
                        mean + DEVIATIONS[i][p] * (0.3 + 0.02 * mean));
            }
        }
        bench.row("sample", "s", "", "", 101);
    }

    private static String calibration(String options) {
        return "characteristics: {calibration: {where: {series: calibration}" + options + "}}\n";
    }

    private double number(String condition, String quantity, String method, String column) {
        return bench.number("calibration", condition, quantity, method, column);
    }

    @Test
    void withoutWeightsInTheProtocolBothPartsOfTheScatterAreFound() {
        growing();
        assertThat(bench.evaluate(calibration("")).exit()).isZero();

        assertThat(bench.result("calibration", "", "slope", ""))
                .containsEntry("method", "line, variance model");
        assertThat(number("", "signal-sd-proportional", "", "value")).isBetween(1.0, 5.0);
        assertThat(number("", "variance-ratio-top-to-bottom", "", "value")).isGreaterThan(10);
        assertThat(number("", "homoscedasticity-p", "", "value")).isLessThan(0.01);
        assertThat(number("", "working-range-low", "", "value")).isEqualTo(1);
        assertThat(number("", "working-range-high", "", "value")).isEqualTo(50);
    }

    /** What the equation adds nothing to has the interval of the amount found, to the last bits. */
    @Test
    void aResultThatIsTheAmountFoundHasItsInterval() {
        growing();
        final String budget =
                calibration("")
                        + "measurand: {name: amount, unit: mg/L, equation: found, results-for: {series: sample}}\n";
        assertThat(bench.evaluate(budget).exit()).isZero();
        final String s = "preparation=s";
        for (String column :
                new String[] {
                    "value", "standard_uncertainty", "degrees_of_freedom", "lower", "upper"
                }) {
            final double found = number(s, "predicted-amount", "first-order", column);
            assertThat(bench.number("budget", s, "result", "", column))
                    .as(column)
                    .isCloseTo(found, within(1e-12 * Math.abs(found)));
        }
    }

    /** Line 2.4 + 9.4 x: read back by 12.8, -6.4, -2.1, 0 and 1.3 %. */
    @Test
    void theWorkingRangeEndsWhereALevelIsReadBackWrongly() {
        final double[] y = {13, 20, 30, 40, 50};
        for (int i = 0; i < y.length; i++) {
            bench.row("calibration", "p" + i, "L" + i, Integer.toString(i + 1), y[i]);
        }
        final String options = ", weights: none, deviation-allowed: 5";
        assertThat(bench.evaluate(calibration(options)).exit()).isZero();

        assertThat(number("level=L1", "back-calculated-deviation", "", "value"))
                .isCloseTo(100 * (17.6 / 9.4 - 2) / 2, within(1e-9));
        assertThat(number("", "working-range-low", "", "value")).isEqualTo(3);
        assertThat(number("", "working-range-high", "", "value")).isEqualTo(5);
    }

    @Test
    void tooFewPreparationsForTwoPartsOfTheScatterAreFittedAlike() {
        bench.row("calibration", "p1", "L1", "1", 10.1)
                .row("calibration", "p2", "L2", "2", 19.9)
                .row("calibration", "p3", "L3", "3", 30.2)
                .row("calibration", "p4", "L4", "4", 39.8);
        assertThat(bench.evaluate(calibration("")).exit()).isZero();

        assertThat(bench.result("calibration", "", "slope", ""))
                .containsEntry("method", "line, unweighted")
                .containsEntry("degrees_of_freedom", "2");
        assertThat(bench.result("calibration", "", "homoscedasticity-p", ""))
                .containsEntry("status", "not-estimable")
                .containsEntry("reason", "too-few-points");
    }

    @Test
    void aLineThroughTheOriginHasNoInterceptAndReadsBackInProportion() {
        growing();
        final String options = ", model: through-origin, weights: none, predict: {series: sample}";
        assertThat(bench.evaluate(calibration(options)).exit()).isZero();

        assertThat(bench.result("calibration", "", "intercept", ""))
                .containsEntry("status", "not-estimable")
                .containsEntry("reason", "not-in-the-model");
        final double slope = number("", "slope", "", "value");
        assertThat(number("preparation=s", "predicted-amount", "fieller", "value"))
                .isCloseTo(101 / slope, within(1e-10));
    }

    /** Points on 1 + 2 x - 0.05 x^2 with deviations that are orthogonal to 1, x and x^2. */
    @Test
    void aQuadraticCalibrationFindsItsCoefficientsAndReadsBack() {
        final double[] deviations = {0.01, -0.03, 0.03, -0.01};
        for (int x = 0; x < 4; x++) {
            final double y = 1 + 2 * x - 0.05 * x * x;
            bench.row("calibration", "p" + x, "L" + x, Integer.toString(x), y + deviations[x])
                    .row("calibration", "q" + x, "L" + x, Integer.toString(x), y - deviations[x]);
        }
        bench.row("sample", "s", "", "", 1 + 2 * 1.5 - 0.05 * 2.25);
        final String options = ", model: quadratic, weights: none, predict: {series: sample}";
        assertThat(bench.evaluate(calibration(options)).exit()).isZero();

        assertThat(number("", "intercept", "", "value")).isCloseTo(1, within(1e-9));
        assertThat(number("", "slope", "", "value")).isCloseTo(2, within(1e-9));
        assertThat(number("", "quadratic", "", "value")).isCloseTo(-0.05, within(1e-9));
        assertThat(number("preparation=s", "predicted-amount", "fieller", "value"))
                .isCloseTo(1.5, within(1e-9));
    }

    @Test
    void weightsByTheAmountAreForALineOnly() {
        growing();
        assertThat(bench.evaluate(calibration(", model: quadratic, weights: 1/x^2")).exit())
                .isZero();

        assertThat(bench.result("calibration", "", "slope", ""))
                .containsEntry("status", "not-estimable")
                .containsEntry("reason", "not-in-the-model");
    }

    /** Line of R's lm and the roots of Fieller's quadratic, computed in R 4.2. */
    @Test
    void standardAdditionIsWhereTheLineMeetsNoResponse() {
        final double[] y = {10.2, 14.9, 20.3, 24.8, 30.1};
        for (int x = 0; x < y.length; x++) {
            bench.row("addition", "a" + x, "", Integer.toString(x), y[x]);
        }
        final String asked =
                "characteristics: {calibration: {where: {series: addition}, weights: none,"
                        + " additions: {series: addition}}}\n";
        assertThat(bench.evaluate(asked).exit()).isZero();

        final String amount = "amount-by-addition";
        assertThat(number("", amount, "", "value")).isCloseTo(2.0362173038229376, within(1e-12));
        assertThat(number("", amount, "", "standard_uncertainty"))
                .isCloseTo(0.06343020369164916, within(1e-13));
        assertThat(number("", amount, "", "lower")).isCloseTo(1.842939967, within(5e-10));
        assertThat(number("", amount, "", "upper")).isCloseTo(2.247518545, within(5e-10));
        assertThat(number("", amount, "", "degrees_of_freedom")).isEqualTo(3);
    }

    /**
     * Worked by hand: 3 % that all additions share move the slope by -3 % and the intercept not at
     * all, so the amount a/b by 3 % of itself, beside the 0.0634302 of the scatter. Where each
     * addition has an error of its own, it is in the scatter already.
     */
    @Test
    void anErrorThatAllAdditionsShareGoesToTheAmountInFull() {
        final double[] y = {10.2, 14.9, 20.3, 24.8, 30.1};
        final StringBuilder table =
                new StringBuilder("injection,compound,area,series,preparation,amount,amount_u\n");
        for (int x = 0; x < y.length; x++) {
            table.append(
                    String.format(
                            Locale.ROOT, "i%d,c,%s,addition,a%d,%d,%s%n", x, y[x], x, x, 0.03 * x));
        }
        bench.write("areas.csv", table.toString().replace("\r", ""));
        final String asked =
                "characteristics: {calibration: {where: {series: addition}, weights: none,"
                        + " amount-errors: %s, additions: {series: addition}}}\n";
        final String amount = "amount-by-addition";
        final double alone = 0.06343020369164916;

        assertThat(bench.run(Bench.usual() + String.format(asked, "each-level")).exit()).isZero();
        assertThat(number("", amount, "", "standard_uncertainty")).isCloseTo(alone, within(1e-12));
        assertThat(bench.run(Bench.usual() + String.format(asked, "common"), "--replace").exit())
                .isZero();
        final double shared = 0.03 * 2.0362173038229376;
        assertThat(number("", amount, "", "standard_uncertainty"))
                .isCloseTo(Math.sqrt(alone * alone + shared * shared), within(1e-12));
        // Satterthwaite: the shared part is known, the other has 3 degrees of freedom
        final double ratio = 1 + shared * shared / (alone * alone);
        assertThat(number("", amount, "", "degrees_of_freedom"))
                .isCloseTo(3 * ratio * ratio, within(1e-6));
    }

    /** Two lines of R's lm; standard uncertainty and degrees of freedom of the ratio in R 4.2. */
    @Test
    void slopesOfGroupsAreComparedWithTheFirst() {
        final double[] solvent = {10.1, 19.8, 30.3, 39.9};
        final double[] matrix = {8.1, 16.2, 23.8, 32.1};
        final StringBuilder table =
                new StringBuilder("injection,compound,area,series,preparation,amount,matrix\n");
        for (int x = 0; x < 4; x++) {
            final String form = "i%s%d,c,%s,calibration,%s%d,%d,%s%n";
            table.append(
                    String.format(Locale.ROOT, form, "s", x, solvent[x], "s", x, x + 1, "solvent"));
            table.append(
                    String.format(Locale.ROOT, form, "m", x, matrix[x], "m", x, x + 1, "extract"));
        }
        bench.write("areas.csv", table.toString());
        final String options = ", weights: none, groups: matrix, reference-group: solvent";
        assertThat(bench.run(Bench.usual() + calibration(options)).exit()).isZero();

        final String condition = "factor=matrix;group=extract;reference=solvent";
        for (String quantity : new String[] {"sensitivity-ratio", "matrix-effect"}) {
            assertThat(number(condition, quantity, "", "value"))
                    .isCloseTo(0.79679679680, within(5e-12));
            assertThat(number(condition, quantity, "", "standard_uncertainty"))
                    .isCloseTo(0.01325440673, within(5e-12));
            assertThat(number(condition, quantity, "", "degrees_of_freedom"))
                    .isCloseTo(3.983371122, within(5e-9));
        }
    }
}
