package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import splitledger.Oracle;

/**
 * Recovery from the command line. Expected values are worked by hand from the definitions: the
 * calibration has the slope 100 and next to no scatter, so that an area is 100 times the amount.
 */
class RecoveryTest {
    private static final double[] SIX = {0.94, 0.97, 0.95, 0.93, 0.96, 0.95};
    private static final String REFERENCE = "kind=reference-material";
    private static final String PROCEDURE = "kind=procedure";

    @TempDir Path folder;
    private Bench bench;

    @BeforeEach
    void calibrated() {
        bench = new Bench(folder);
        for (int level = 1; level <= 5; level++) {
            for (int i = 0; i < 2; i++) {
                final double off = i == 0 ? 1e-7 : -1e-7;
                bench.row(
                        "cal",
                        "k" + level + i,
                        "L" + level,
                        Integer.toString(level),
                        100 * level + off);
            }
        }
    }

    private Bench.Ran evaluate(String recovery) {
        return bench.evaluate(
                "characteristics:\n  calibration: {where: {series: cal}}\n  recovery: "
                        + recovery
                        + "\n");
    }

    private double value(String condition, String quantity) {
        return bench.number("recovery", condition, quantity, "", "value");
    }

    private double cell(String condition, String column) {
        return bench.number("recovery", condition, "recovery", "", column);
    }

    private String reason(String condition) {
        final Map<String, String> cells = bench.result("recovery", condition, "recovery", "");
        assertThat(cells.get("value")).isEmpty();
        return cells.getOrDefault("reason", "");
    }

    private void six(String amount) {
        for (int i = 0; i < SIX.length; i++) {
            bench.row("m", "m" + i, "M", amount, 300 * SIX[i]);
        }
    }

    @Test
    void theUncertaintyOfTheReferenceValueIsPartOfTheTest() {
        six("");
        evaluate(
                "{reference-material: {series: m}, reference-value: 3, reference-uncertainty: 0.03}");

        assertThat(value(REFERENCE, "recovery")).isCloseTo(0.95, within(1e-9));
        assertThat(cell(REFERENCE, "standard_uncertainty")).isCloseTo(0.0111168, within(1e-6));
        assertThat(value(REFERENCE, "recovery-t")).isCloseTo(4.50, within(0.005));
        assertThat(cell(REFERENCE, "degrees_of_freedom")).isCloseTo(68.7, within(0.05));
        assertThat(value(REFERENCE, "recovery-rsd")).isCloseTo(1.48864, within(1e-4));
    }

    @Test
    void withoutItOnlyThePreparationsCount() {
        six("3");
        evaluate("{where: {series: m}}");

        assertThat(value(PROCEDURE, "recovery-t")).isCloseTo(8.66, within(0.005));
        assertThat(cell(PROCEDURE, "degrees_of_freedom")).isCloseTo(5, within(0.01));
        assertThat(bench.result("recovery", PROCEDURE, "recovery", "").get("note"))
                .contains("spikes do not prove the recovery of the native analyte")
                .contains("3 levels with 3 each are wanted")
                .contains("does not say what is done");
    }

    @Test
    void bothWaysToTreatADeviationAreShown() {
        six("3");
        evaluate("{where: {series: m}, decision: include}");
        final Map<String, String> include =
                bench.result("recovery", "decision=include;kind=procedure", "recovery-factor", "");
        final Map<String, String> correct =
                bench.result("recovery", "decision=correct;kind=procedure", "recovery-factor", "");

        // u^2 = (0.0141421 / sqrt 6)^2 + (0.05 / 2)^2
        assertThat(Double.parseDouble(include.get("value"))).isEqualTo(1);
        assertThat(Double.parseDouble(include.get("standard_uncertainty")))
                .isCloseTo(0.0256580, within(1e-6));
        assertThat(include.get("note")).contains("so decided by the protocol");
        assertThat(Double.parseDouble(correct.get("value"))).isCloseTo(0.95, within(1e-9));
        assertThat(Double.parseDouble(correct.get("standard_uncertainty")))
                .isCloseTo(0.00577350, within(1e-7));
        assertThat(correct.get("note")).contains("the protocol decides otherwise");
    }

    @Test
    void theNativeAmountIsTakenOffWithItsUncertainty() {
        // native 1.0 +- 0.1 / sqrt 2; found 2.9, 3.0, 3.1 after 2 was added: R = 1, s = 0.05
        bench.row("n", "n1", "", "", 90).row("n", "n2", "", "", 110);
        bench.row("s", "s1", "S", "2", 290).row("s", "s2", "S", "2", 300);
        bench.row("s", "s3", "S", "2", 310);
        evaluate("{where: {series: s}, native: {series: n}}");

        // native: s = 0.141421, over sqrt 2 = 0.1; over 2 that was added = 0.05
        final double u = Math.sqrt(0.05 * 0.05 / 3 + 0.05 * 0.05);
        assertThat(value(PROCEDURE + ";level=S", "recovery")).isCloseTo(1, within(1e-8));
        assertThat(cell(PROCEDURE + ";level=S", "standard_uncertainty")).isCloseTo(u, within(1e-7));
        // u^4 / (scatter^4 / 2 + native^4 / 1)
        final double scatter = 0.05 * 0.05 / 3;
        final double own = 0.05 * 0.05;
        assertThat(cell(PROCEDURE + ";level=S", "degrees_of_freedom"))
                .isCloseTo(u * u * u * u / (scatter * scatter / 2 + own * own), within(1e-4));
    }

    @Test
    void injectionsOfAPreparationAreAveraged() {
        bench.row("s", "s1", "S", "2", 190).row("s", "s1", "S", "2", 194);
        bench.row("s", "s2", "S", "2", 196).row("s", "s3", "S", "2", 200);
        evaluate("{where: {series: s}}");

        assertThat(value(PROCEDURE, "recovery")).isCloseTo(0.98, within(1e-9));
        assertThat(cell(PROCEDURE, "degrees_of_freedom")).isCloseTo(2, within(1e-6));
    }

    @Test
    void levelsThatDifferAreNotPutTogether() {
        for (int i = 0; i < 3; i++) {
            bench.row("s", "a" + i, "S1", "1", 99 + i);
            bench.row("s", "b" + i, "S2", "2", 2 * (79.0 + i));
            bench.row("s", "c" + i, "S3", "3", 3 * (98.5 + i));
        }
        evaluate("{where: {series: s}}");

        assertThat(reason(PROCEDURE)).isEqualTo("not-homogeneous");
        assertThat(value(PROCEDURE, "recovery-homogeneity-p")).isLessThan(0.001);
        assertThat(value(PROCEDURE + ";level=S2", "recovery")).isCloseTo(0.8, within(1e-9));
    }

    @Test
    void aNativeAmountAboveTheSpikeIsSaidToBeBadlyConditioned() {
        bench.row("n", "n1", "", "", 299).row("n", "n2", "", "", 301);
        bench.row("s", "s1", "S", "1", 398).row("s", "s2", "S", "1", 402);
        evaluate("{where: {series: s}, native: {series: n}}");

        assertThat(bench.result("recovery", PROCEDURE + ";level=S", "recovery", "").get("note"))
                .contains("the native amount is 3 times what was added")
                .contains("fewer than 3");
    }

    @Test
    void preparationsThatAgreeExactlyTellNoUncertainty() {
        bench.row("same", "e1", "S", "2", 190).row("same", "e2", "S", "2", 190);
        evaluate("{where: {series: same}}");

        assertThat(reason(PROCEDURE)).isEqualTo("no-scatter");
    }

    @Test
    void onePreparationIsTooFew() {
        bench.row("one", "o1", "S", "2", 190);
        evaluate("{where: {series: one}}");

        assertThat(reason(PROCEDURE)).isEqualTo("too-few-preparations");
    }

    @Test
    void nothingAddedHasNoRecovery() {
        bench.row("zero", "z1", "S", "0", 190).row("zero", "z2", "S", "0", 191);
        evaluate("{where: {series: zero}}");

        assertThat(reason(PROCEDURE)).isEqualTo("zero-amount");
    }

    @Test
    void aSingleUnspikedPreparationTellsNoUncertaintyOfTheNativeAmount() {
        bench.row("n", "n1", "", "", 90);
        bench.row("s", "s1", "S", "2", 290).row("s", "s2", "S", "2", 300);
        evaluate("{where: {series: s}, native: {series: n}}");

        assertThat(reason(PROCEDURE)).isEqualTo("too-few-preparations");
    }

    @Test
    void standardAdditionComparesTheSlopes() {
        // found 1 + 0.9 added, off by -0.01, 0.02, -0.01 at 0, 1, 2, twice
        for (int i = 0; i < 2; i++) {
            bench.row("a", "x" + i, "A0", "0", 99);
            bench.row("a", "y" + i, "A1", "1", 192);
            bench.row("a", "z" + i, "A2", "2", 279);
        }
        evaluate("{standard-addition: {series: a}}");

        // s^2 = 2 (0.0001 + 0.0004 + 0.0001) / 4, over the spread of amounts, 4
        assertThat(value(PROCEDURE, "recovery")).isCloseTo(0.9, within(1e-9));
        assertThat(cell(PROCEDURE, "standard_uncertainty"))
                .isCloseTo(Math.sqrt(0.0003 / 4), within(1e-8));
        assertThat(cell(PROCEDURE, "degrees_of_freedom")).isCloseTo(4, within(1e-3));
    }

    @Test
    void splitAgainstOnColumnIsTheRatioOfResponsesOfOneSolution() {
        bench.write(
                "areas.csv",
                """
                injection,compound,area,series,preparation,split_ratio
                1,c,9,hot,a,50
                2,c,9.4,hot,a,50
                3,c,500,cold,a,
                4,c,500.1,cold,a,
                5,c,18.8,hot,b,50
                6,c,1000,cold,b,
                7,c,27.3,hot,d,50
                8,c,1500,cold,d,
                """);
        bench.run(
                Bench.usual()
                        + "conventions: {split-ratio: total-to-column}\ncharacteristics:\n"
                        + "  recovery: {split-injections: {series: hot}, on-column: {series: cold}}\n");

        // 460 / 500.05, 940 / 1000, 1365 / 1500
        final double mean = (460 / 500.05 + 0.94 + 0.91) / 3;
        assertThat(value("kind=transfer", "recovery")).isCloseTo(mean, within(1e-12));
        assertThat(cell("kind=transfer", "degrees_of_freedom")).isCloseTo(2, within(1e-9));
    }

    @Test
    void levelsThatAgreeArePutTogetherAsAnIndependentProgramDoes() {
        final double[][] levels = {
            {0.91, 0.97, 0.94},
            {0.985, 0.955, 0.99, 0.962},
            {0.931, 0.948, 0.951, 0.94, 0.936}
        };
        for (int k = 0; k < levels.length; k++) {
            for (int j = 0; j < levels[k].length; j++) {
                final int added = k + 2;
                bench.row(
                        "s",
                        "s" + k + j,
                        "S" + k,
                        Integer.toString(added),
                        100 * added * levels[k][j]);
            }
        }
        evaluate("{where: {series: s}}");

        assertThat(value(PROCEDURE, "recovery-homogeneity-p"))
                .isCloseTo(oracle("levels", "p"), within(1e-7));
        assertThat(value(PROCEDURE, "recovery")).isCloseTo(oracle("pooled", "mean"), within(1e-9));
        assertThat(cell(PROCEDURE, "standard_uncertainty"))
                .isCloseTo(oracle("pooled", "u"), within(1e-8));
        assertThat(cell(PROCEDURE, "degrees_of_freedom"))
                .isCloseTo(oracle("pooled", "df"), within(1e-5));
        assertThat(cell(PROCEDURE, "lower")).isCloseTo(oracle("pooled", "lower"), within(1e-7));
        assertThat(cell(PROCEDURE, "upper")).isCloseTo(oracle("pooled", "upper"), within(1e-7));
        assertThat(value(PROCEDURE, "recovery-t")).isCloseTo(oracle("pooled", "t"), within(1e-4));
        assertThat(value(PROCEDURE, "recovery-p")).isCloseTo(oracle("pooled", "p"), within(1e-7));
    }

    @Test
    void whatASampleHoldsGoesWithItsTestPortion() {
        final double[] portion = {50.1, 49.7, 50.4, 48.9, 51.2, 50.0, 49.5, 50.8};
        final double[] found = {30.2, 29.6, 49.1, 47.9, 67.5, 66.0, 84.9, 86.3};
        final StringBuilder table =
                new StringBuilder("injection,compound,area,series,preparation,amount,m\n");
        for (int level = 0; level < 5; level++) {
            for (int i = 0; i < 2; i++) {
                final double x = 20.0 * (level + 1);
                table.append(
                        String.format(
                                "k%d%d,c,%s,cal,k%d%d,%s,%n",
                                level, i, 100 * x + (i == 0 ? 1e-6 : -1e-6), level, i, x));
            }
        }
        for (int i = 0; i < found.length; i++) {
            table.append(
                    String.format(
                            "s%d,c,%s,add,s%d,%d,%s%n",
                            i, 100 * found[i], i, 20 * (i / 2), portion[i]));
        }
        bench.write("areas.csv", table.toString());
        bench.run(
                Bench.usual()
                        + "characteristics:\n  calibration: {where: {series: cal}}\n"
                        + "  recovery: {standard-addition: {series: add}, per: m}\n");

        assertThat(value(PROCEDURE, "recovery"))
                .isCloseTo(oracle("addition", "slope"), within(1e-8));
        assertThat(cell(PROCEDURE, "standard_uncertainty"))
                .isCloseTo(oracle("addition", "u"), within(1e-7));
    }

    @Test
    void aNativeAmountThatIsNotDetectedIsNotTakenForNothing() {
        bench.write(
                "areas.csv",
                """
                injection,compound,area,series,preparation,amount
                1,c,100.0001,cal,k1,1
                2,c,99.9999,cal,k2,1
                3,c,200.0001,cal,k3,2
                4,c,199.9999,cal,k4,2
                5,c,300.0001,cal,k5,3
                6,c,299.9999,cal,k6,3
                7,c,nd,n,n1,
                8,c,nd,n,n2,
                9,c,190,s,s1,2
                10,c,195,s,s2,2
                """);
        bench.run(
                Bench.usual()
                        + "characteristics:\n  calibration: {where: {series: cal}}\n"
                        + "  recovery: {where: {series: s}, native: {series: n}}\n");

        assertThat(reason(PROCEDURE)).isEqualTo("not-detected");
    }

    private static double oracle(String name, String quantity) {
        return Oracle.lines("/oracle/recovery.csv").stream()
                .map(line -> line.split(",", -1))
                .filter(cells -> cells[0].equals(name) && cells[1].equals(quantity))
                .mapToDouble(cells -> Double.parseDouble(cells[2]))
                .findFirst()
                .orElseThrow();
    }
}
