package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** One uncertainty for every result, worked by hand. */
final class ResultBudgetTest {
    private static final String CALIBRATION =
            "characteristics: {calibration: {where: {series: calibration}, weights: none}";

    @TempDir private Path folder;
    private Bench bench;

    @BeforeEach
    void lineOfFive() {
        bench = new Bench(folder);
        final double[] y = {10.1, 19.9, 30.2, 39.8, 50.1};
        for (int i = 0; i < y.length; i++) {
            bench.row("calibration", "k" + i, "L" + (i + 1), String.valueOf(i + 1), y[i]);
        }
    }

    private String measurand(String equation, String inputs, String more) {
        return "measurand: {name: amount, unit: mg/L, equation: "
                + equation
                + ", results-for: {series: sample}, inputs: {"
                + inputs
                + "}"
                + more
                + "}\n";
    }

    private void evaluated(String protocol) {
        final Bench.Ran ran = bench.evaluate(protocol);
        assertThat(ran.err()).isEmpty();
        assertThat(ran.exit()).isZero();
    }

    private double value(String condition, String quantity) {
        return bench.number("budget", condition, quantity, "", "value");
    }

    @Test
    void aFactorThatActsOnCalibrantsAndSamplesAlikeIsSetToOneWithItsSentence() throws Exception {
        bench.row("sample", "s", "", "", 25);
        evaluated(CALIBRATION + "}\n" + measurand("found", "", ""));
        final double plain = value("preparation=s", "result");
        final double u = value("preparation=s", "combined-standard-uncertainty");
        evaluatedAgain(
                CALIBRATION
                        + "}\n"
                        + measurand(
                                "found / D",
                                "D: {value: 0.85, standard-uncertainty: 0.02, effect: discrimination}",
                                ""));
        assertThat(value("preparation=s", "result")).isEqualTo(plain);
        assertThat(value("preparation=s", "combined-standard-uncertainty")).isEqualTo(u);
        assertThat(Files.readString(folder.resolve("out/results.json")))
                .contains("D is set to 1 without uncertainty")
                .contains("acts on both alike and cancels");
    }

    @Test
    void aFactorEntersWhereTheProtocolSaysWhyItDiffers() {
        bench.row("sample", "s", "", "", 25);
        evaluated(
                CALIBRATION
                        + "}\n"
                        + measurand(
                                "found / D",
                                "D: {value: 0.85, standard-uncertainty: 0.02, effect: discrimination,"
                                        + " differs: calibrants were injected on-column}",
                                ""));
        assertThat(value("preparation=s", "result"))
                .isCloseTo((25 - 0.05) / 9.99 / 0.85, within(1e-12));
    }

    @Test
    void calibratedAtOneSplitAndMeasuredAtAnotherTheConventionDecidesTheFactor() {
        // worked by hand: 100 against 20 is 5 as total flow to column flow, 101/21 as vent to
        // column
        assertThat(found("total-to-column")).isCloseTo((25 - 0.05) / 9.99 / 5, within(1e-12));
        assertThat(found("vent-to-column"))
                .isCloseTo((25 - 0.05) / 9.99 / (101.0 / 21), within(1e-12));
    }

    private double found(String convention) {
        final StringBuilder table =
                new StringBuilder(
                        "injection,compound,area,series,preparation,level,amount,split_ratio\n");
        final double[] y = {10.1, 19.9, 30.2, 39.8, 50.1};
        for (int i = 0; i < y.length; i++) {
            table.append(
                    String.format(
                            "i%d,c,%s,calibration,k%d,L%d,%d,100%n", i, y[i], i, i + 1, i + 1));
        }
        table.append("i9,c,25,sample,s,,,20\n");
        bench.write("areas.csv", table.toString());
        final Bench.Ran ran =
                bench.run(
                        Bench.usual()
                                + "conventions: {split-ratio: "
                                + convention
                                + "}\n"
                                + CALIBRATION
                                + "}\n"
                                + measurand(
                                        "found / S",
                                        "S: {factor: split, standard-uncertainty: 2 %}",
                                        ""),
                        "--replace");
        assertThat(ran.exit()).isZero();
        assertThat(
                        value("preparation=s", "combined-standard-uncertainty")
                                / value("preparation=s", "result"))
                .isGreaterThan(0.02);
        return value("preparation=s", "result");
    }

    @Test
    void ofTwoPrecisionFactorsTheWidestStays() throws Exception {
        bench.row("sample", "s", "", "", 35);
        for (int p = 0; p < 6; p++) {
            bench.row("repeat", "r" + p, "", "", 20 + (p % 3 - 1) * 0.3);
        }
        final String with =
                CALIBRATION
                        + ", repeatability: {where: {series: repeat}}}\n"
                        + measurand(
                                "found * p * q",
                                "p: {value: 1, spread-of: rsd-repeatability},"
                                        + " q: {value: 1, standard-uncertainty: 1 %, effect: preparation}",
                                "");
        evaluated(with);
        final double both = value("preparation=s", "combined-standard-uncertainty");
        evaluatedAgain(
                CALIBRATION
                        + ", repeatability: {where: {series: repeat}}}\n"
                        + measurand(
                                "found * p", "p: {value: 1, spread-of: rsd-repeatability}", ""));
        // rsd = sqrt(0.072)/20 = 1.34 %, the larger of the two
        assertThat(both)
                .isCloseTo(value("preparation=s", "combined-standard-uncertainty"), within(1e-12));
    }

    @Test
    void resultsAreHeldAgainstSpecificationsWithAGuardBandAndAgainstValuesFromOutside() {
        bench.row("sample", "s", "", "", 25).row("sample", "t", "", "", 29.9);
        evaluated(
                CALIBRATION
                        + "}\n"
                        + measurand(
                                "found",
                                "",
                                ", specification: [{at-most: 3 mg/L, source: ours}], evidence: [{name: e, kind: reference-material,"
                                        + " of: c, result: s, value: 2.45 mg/L, expanded: 0.04 mg/L, k: 2, source: certificate}]"));
        // 3 df: t(0.95) = 2.353363, u = 0.0209262 at 2.4974975 (m = 1)
        final double u = value("preparation=s", "combined-standard-uncertainty");
        assertThat(u).isCloseTo(0.020926, within(5e-7));
        assertThat(value("preparation=s", "guard-band")).isCloseTo(2.3533634 * u, within(1e-8));
        assertThat(value("preparation=s", "conforms")).isEqualTo(1);
        assertThat(value("preparation=s", "conformance-probability")).isGreaterThan(0.999);
        assertThat(bench.result("budget", "preparation=t", "conforms", "").get("reason"))
                .isEqualTo("undecided");
        final double d = 24.95 / 9.99 - 2.45;
        assertThat(value("evidence=e;preparation=s", "zeta"))
                .isCloseTo(d / Math.sqrt(u * u + 0.02 * 0.02), within(1e-9));
        assertThat(value("evidence=e;preparation=s", "e-n"))
                .isCloseTo(
                        d / Math.sqrt(3.1824463 * 3.1824463 * u * u + 0.04 * 0.04), within(1e-7));
    }

    @Test
    void belowALimitWordsTakeThePlaceOfTheValueWhereTheProtocolAsksForThem() {
        bench.row("sample", "low", "", "", 0.5).row("sample", "s", "", "", 25);
        evaluated(
                CALIBRATION
                        + ", detection: {where: {series: calibration}}}\n"
                        + measurand("found * 2", "", ", below-limit: {report: words}"));
        final Map<String, String> low = bench.result("budget", "preparation=low", "result", "");
        assertThat(low.get("status")).isEqualTo("bound-only");
        assertThat(low.get("note")).startsWith("below the quantification limit");
        assertThat(low.get("value")).isEmpty();
        assertThat(value("preparation=s", "result")).isCloseTo(2 * 24.95 / 9.99, within(1e-12));
    }

    @Test
    void aBlankIsTakenOffWithTheErrorsOfTheLineItShares() {
        bench.row("sample", "s", "", "", 25)
                .row("blank", "b1", "", "", 5.0)
                .row("blank", "b2", "", "", 5.1);
        evaluated(
                CALIBRATION
                        + "}\n"
                        + measurand(
                                "external-standard", "blank: {amount-of: {series: blank}}", ""));
        assertThat(value("preparation=s", "result")).isCloseTo((25 - 5.05) / 9.99, within(1e-12));
        // s^2/b^2 (1 + 1/2) of the scatter, the slope over the difference; the intercept cancels
        final double s2 = 0.107 / 3;
        final double b = 9.99;
        final double d = (25 - 5.05) / b;
        assertThat(value("preparation=s", "combined-standard-uncertainty"))
                .isCloseTo(Math.sqrt(s2 * (1.5 + d * d / 10)) / b, within(1e-9));
    }

    @Test
    void theMeanOfASamplesPreparationsSharesWhatTheyShare() {
        bench.write("runs.csv", "injection,sample\ni006,A\ni007,A\n");
        bench.row("sample", "s1", "", "", 25).row("sample", "s2", "", "", 25.4);
        bench.table();
        final Bench.Ran ran =
                bench.run(
                        "splitledger: 1\ntitle: worked by hand\ntables: [{file: areas.csv}, {file: runs.csv, joins-on: injection, unmatched: ignore}]\n"
                                + "compounds: {targets: [c]}\n"
                                + CALIBRATION
                                + "}\n"
                                + measurand("found", "", ", routine: {sample: sample}"));
        assertThat(ran.err()).isEmpty();
        assertThat(value("sample=A", "result")).isCloseTo((25.2 - 0.05) / 9.99, within(1e-12));
        final double s2 = 0.107 / 3;
        final double x = 25.15 / 9.99;
        assertThat(value("sample=A", "combined-standard-uncertainty"))
                .isCloseTo(
                        Math.sqrt(s2 * (0.5 + 0.2 + (x - 3) * (x - 3) / 10)) / 9.99, within(1e-9));
    }

    @Test
    void areaNormalisationDividesByAllPeaksOfTheCompounds() {
        bench.write(
                "areas.csv",
                """
                injection,compound,area,series,preparation
                i1,a,30,sample,s
                i1,b,70,sample,s
                i2,a,32,sample,s
                i2,b,68,sample,s
                """);
        final Bench.Ran ran =
                bench.run(
                        """
                        splitledger: 1
                        title: t
                        tables: [{file: areas.csv}]
                        compounds: {targets: [a, b]}
                        measurand: {name: share, unit: "%", equation: area-normalisation, results-for: {series: sample}}
                        """);
        assertThat(ran.err()).isEmpty();
        final List<List<String>> rows = Bench.rows(folder.resolve("out/results.csv"));
        final List<String> a =
                rows.stream()
                        .filter(
                                r ->
                                        r.get(1).equals("a")
                                                && r.get(2).equals("preparation=s")
                                                && r.get(3).equals("result"))
                        .findFirst()
                        .orElseThrow();
        assertThat(Double.parseDouble(a.get(5))).isCloseTo(31, within(1e-12));
        assertThat(Double.parseDouble(a.get(7))).isCloseTo(1, within(1e-12));
    }

    @Test
    void halvingTheOnlySourceHalvesTheUncertainty() {
        bench.row("sample", "s", "", "", 25);
        evaluated(
                CALIBRATION
                        + "}\n"
                        + measurand("found * V", "V: {value: 1, standard-uncertainty: 50 %}", ""));
        // at L3: u(found)/found = 0.18886/9.99 sqrt(1 + 1/5)/3 = 0.0069; half of 0.5 with it
        final double f = 0.188856 / 9.99 * Math.sqrt(1.2) / 3;
        assertThat(value("level=L3;source=V", "shrink"))
                .isCloseTo(
                        Math.sqrt(0.25 * 0.25 + f * f) / Math.sqrt(0.5 * 0.5 + f * f),
                        within(2e-5));
    }

    @Test
    void theUncertaintyOverTheLevelsIsAConstantAndAProportionalPart() {
        bench.row("sample", "s", "", "", 25);
        evaluated(
                CALIBRATION
                        + "}\n"
                        + measurand("found * V", "V: {value: 1, standard-uncertainty: 10 %}", ""));
        // far from the line's own 0.02: u1 near 10 %, u0 of its size
        assertThat(value("", "uncertainty-proportional")).isCloseTo(0.1, within(0.001));
        assertThat(value("", "uncertainty-constant")).isBetween(0.018, 0.03);
    }

    @Test
    void theTrialsCountTheScatterOfTheSampleNoMoreThanTheFormulasDo() {
        bench.row("sample", "s", "", "", 35);
        for (int p = 0; p < 6; p++) {
            bench.row("repeat", "r" + p, "", "", 20 + (p % 3 - 1) * 0.03);
        }
        evaluated(
                CALIBRATION
                        + ", repeatability: {where: {series: repeat}}}\n"
                        + measurand(
                                "found * p", "p: {value: 1, spread-of: rsd-repeatability}", ""));
        // at L5 the line alone is 0.18886/9.99 sqrt(1/5 + 4/10) = 0.01464 and the factor 0.0067;
        // the scatter of one sample, 0.0189, would make the trials' interval 1.5 times as wide. The
        // trials' tails lie between those of 4.3 degrees of freedom (2.71, the formulas) and 3
        // (3.18)
        final double trials = value("level=L5", "mc-upper") - value("level=L5", "mc-lower");
        assertThat(trials / (2 * value("level=L5", "expanded-uncertainty")))
                .isBetween(1.0, 3.18 / 2.71);
    }

    @Test
    void aRequirementSetAfterTheFirstInjectionIsMarked() throws Exception {
        bench.write(
                "areas.csv",
                """
                injection,compound,area,series,preparation,level,amount,acquired
                i1,c,10.1,calibration,k1,L1,1,2026-03-02T08:00:00
                i2,c,19.9,calibration,k2,L2,2,2026-03-02T09:00:00
                i3,c,30.2,calibration,k3,L3,3,2026-03-02T10:00:00
                i4,c,39.8,calibration,k4,L4,4,2026-03-03T08:00:00
                """);
        final Bench.Ran ran =
                bench.run(
                        Bench.usual()
                                + CALIBRATION
                                + "}\nrequirements:\n"
                                + "  - {quantity: r-squared, at-least: 0.9, source: ours, set: 2026-03-03}\n"
                                + "  - {quantity: slope, at-least: 1, source: ours, set: 2026-03-01}\n");
        assertThat(ran.err()).isEmpty();
        assertThat(Files.readString(folder.resolve("out/results.json")))
                .contains("requirement of r-squared")
                .contains("set on 2026-03-03, after the first injection of 2026-03-02")
                .doesNotContain("requirement of slope");
    }

    private void evaluatedAgain(String protocol) {
        bench.table();
        final Bench.Ran ran = bench.run(Bench.usual() + protocol, "--replace");
        assertThat(ran.err()).isEmpty();
        assertThat(ran.exit()).isZero();
    }
}
