package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** How calibrants were made, through the command line. */
class StandardsTest {
    private static final String CALIBRATION =
            """
            conventions: {amount-unit: mg/L}
            characteristics: {calibration: {where: {series: calibration}, weights: none, predict: {series: sample}}}
            """;
    private static final String EXACT_GLASS =
            """
            name,form,volume_mL,tolerance_mL,source
            flask 100,one-mark,100,0,exact
            flask 1000,one-mark,1000,0,exact
            burette 10,graduated,10,0,exact
            """;

    @TempDir Path folder;
    private Bench bench;

    @BeforeEach
    void newBench() {
        bench = new Bench(folder);
    }

    /**
     * Five levels of one preparation, slope 10, intercept 0 and residual variance 0.01 exactly: the
     * residuals follow the contrast 2 -1 -2 -1 2, of which the squares sum to 14.
     */
    private void line(boolean amounts) {
        final double unit = Math.sqrt(0.03 / 14);
        final double[] contrast = {2, -1, -2, -1, 2};
        for (int i = 0; i < 5; i++) {
            bench.row(
                    "calibration",
                    "p" + (i + 1),
                    "L" + (i + 1),
                    amounts ? Integer.toString(i + 1) : "",
                    10 * (i + 1) + unit * contrast[i]);
        }
        bench.row("sample", "s", "", "", 25);
    }

    private static String levels() {
        final StringBuilder all = new StringBuilder();
        for (int i = 1; i <= 5; i++) {
            all.append("  L").append(i).append(": {take: ").append(i);
            all.append(" mL, of: stock, with: burette 10, into: flask 1000}\n");
        }
        return all.toString();
    }

    private double number(String quantity, String column) {
        return bench.number("calibration", "", quantity, "", column);
    }

    private void sharedStock() {
        assertThat(Math.pow(number("slope", "standard_uncertainty"), 2))
                .isCloseTo(0.001 + 0.01, within(1e-12));
        assertThat(number("slope", "standard_uncertainty")).isCloseTo(0.104881, within(5e-7));
        assertThat(Math.pow(number("intercept", "standard_uncertainty"), 2))
                .isCloseTo(0.011, within(1e-12));
        assertThat(number("intercept-slope-covariance", "value")).isCloseTo(-0.003, within(1e-12));
        assertThat(number("residual-sd", "value")).isCloseTo(0.1, within(1e-12));
    }

    /** Worked by hand: a stock with a standard uncertainty of 1 % that all levels share. */
    @Test
    void aSharedStockWidensTheSlopeAlone() {
        line(false);
        bench.write("glass.csv", EXACT_GLASS)
                .write(
                        "weighings.csv",
                        "compound,mass,mass_u,purity,purity_half_width\nc,100,1,1,0\n");
        final Bench.Ran ran =
                bench.evaluate(
                        CALIBRATION
                                + "standards:\n  glassware: glass.csv\n"
                                + "  stock: {weighed: weighings.csv, into: flask 100}\n"
                                + levels());
        assertThat(ran).extracting(Bench.Ran::exit, Bench.Ran::err).containsExactly(0, "");
        sharedStock();
        assertThat(bench.number("calibration", "level=L4", "standard-amount", "", "value"))
                .isCloseTo(4, within(1e-12));
        final double x0 = 2.5;
        assertThat(
                        bench.number(
                                "calibration",
                                "preparation=s",
                                "predicted-amount",
                                "fieller",
                                "standard_uncertainty"))
                .isCloseTo(
                        Math.sqrt(
                                0.01 * (1 + 0.2 + (x0 - 3) * (x0 - 3) / 10) / 100 + 1e-4 * x0 * x0),
                        within(1e-9));
    }

    /** The same by the column of stated uncertainties. */
    @Test
    void statedUncertaintiesOfTheAmountsMayBeOneErrorOfAllLevels() throws Exception {
        statedAmounts("common");
        sharedStock();
    }

    @Test
    void statedUncertaintiesOfSinglePreparationsAreInTheScatterAlready() throws Exception {
        statedAmounts("each-level");
        assertThat(Math.pow(number("slope", "standard_uncertainty"), 2))
                .isCloseTo(0.001, within(1e-12));
        assertThat(Files.readString(folder.resolve("out/results.json")))
                .contains("Errors of the amount of one calibrant preparation alone are not added");
    }

    private void statedAmounts(String how) {
        line(true);
        bench.table();
        bench.write("levels.csv", "level,amount_u\nL1,0.01\nL2,0.02\nL3,0.03\nL4,0.04\nL5,0.05\n");
        final Bench.Ran ran =
                bench.run(
                        "splitledger: 1\ntables: [{file: areas.csv}, {file: levels.csv, joins-on: level}]\n"
                                + "compounds: {targets: [c]}\n"
                                + CALIBRATION.replace(
                                        "weights", "amount-errors: " + how + ", weights"));
        assertThat(ran).extracting(Bench.Ran::exit, Bench.Ran::err).containsExactly(0, "");
    }

    /**
     * Three preparations a level whose amount is uncertain by u: the error is one of all three and
     * moves the line by the sum of their derivatives. Worked by hand for the level x = 3, the mean
     * of the amounts: da = -b u/5 - 0, db = r u/Sxx summed over the level = 0 as residuals cancel.
     */
    @Test
    void anErrorThatThePreparationsOfALevelShareIsAdded() {
        for (int level = 1; level <= 5; level++) {
            for (int p = -1; p <= 1; p++) {
                bench.row(
                        "calibration",
                        "p" + level + p,
                        "L" + level,
                        Integer.toString(level),
                        10 * level + 0.1 * p);
            }
        }
        bench.table();
        bench.write("levels.csv", "level,amount_u\nL3,0.05\n");
        final Bench.Ran ran =
                bench.run(
                        "splitledger: 1\ntables: [{file: areas.csv}, {file: levels.csv, joins-on: level}]\n"
                                + "compounds: {targets: [c]}\n"
                                + CALIBRATION.replace(", predict: {series: sample}", ""));
        assertThat(ran).extracting(Bench.Ran::exit, Bench.Ran::err).containsExactly(0, "");
        // s^2 = 5 * 0.02 / 13, Sxx = 30, n = 15
        final double s2 = 0.1 / 13;
        assertThat(Math.pow(number("slope", "standard_uncertainty"), 2))
                .isCloseTo(s2 / 30, within(1e-12));
        assertThat(Math.pow(number("intercept", "standard_uncertainty"), 2))
                .isCloseTo(s2 * (1 / 15.0 + 9 / 30.0) + 0.1 * 0.1, within(1e-12));
    }

    /**
     * EURACHEM/CITAC CG 4:2012, example A1: 100.28 mg (u 0.05 mg) of purity 0.9999 +- 0.0001 in 100
     * mL (u 0.07 mL as the guide rounds it): 1002.7 mg/L, u = 0.9 mg/L.
     */
    @Test
    void theCalibrationStandardOfThePublicGuide() {
        guide("{is: flask 100 mL A, standard-uncertainty: 0.07 mL}", "");
        final String stock = "level=stock";
        assertThat(bench.number("calibration", stock, "standard-amount", "", "value"))
                .isCloseTo(1002.7, within(0.05));
        final double u =
                bench.number("calibration", stock, "standard-amount", "", "standard_uncertainty");
        assertThat(u).isCloseTo(0.9, within(0.05));
        // one digit more than the guide prints, from its rounded inputs 0.000058, 0.05 and 0.07
        assertThat(u).isCloseTo(0.8637, within(5e-5));
        assertThat(bench.number("calibration", "level=half", "standard-amount", "", "value"))
                .isCloseTo(501.34986, within(1e-9));
    }

    /**
     * The same with the volume taken apart as in the guide: limits +- 0.1 mL (triangular),
     * repeatability 0.02 mL, 4 K at 0.00021 per kelvin (rectangular, 0.084 mL; the glass neglected
     * as there). u(V) is 0.0665 mL, which the guide rounds to 0.07 before it goes on; unrounded,
     * u(c) is 0.835 mg/L.
     */
    @Test
    void theGuidesVolumeByItsThreeCauses() {
        guide(
                "{is: flask 100 mL A, repeatability: 0.02 mL, expansion: 0}",
                "  laboratory: 20 degC +- 4\n  solvent: water\n");
        final double volume = 0.01 / 6 + 0.0004 + 0.084 * 0.084 / 3;
        assertThat(Math.sqrt(volume)).isCloseTo(0.07, within(0.005));
        final double relative =
                Math.pow(0.05 / 100.28, 2) + Math.pow(0.0001 / 0.9999, 2) / 3 + volume / 1e4;
        assertThat(
                        bench.number(
                                "calibration",
                                "level=stock",
                                "standard-amount",
                                "",
                                "standard_uncertainty"))
                .isCloseTo(1002.69972 * Math.sqrt(relative), within(1e-9));
    }

    @Test
    void theReportNamesSubstancesAndGlasswareWithTheirCertificates() throws Exception {
        guide("{is: flask 100 mL A, standard-uncertainty: 0.07 mL}", "");

        assertThat(Files.readString(folder.resolve("out/report.html")))
                .containsSubsequence(
                        "Substances and glassware of the standards",
                        "c in stock",
                        "100.28 (u 0.05) mg, purity 0.9999",
                        "certificate",
                        "F (flask 100 mL A)",
                        "pipette 25 mL A, for half",
                        "ISO 648");
    }

    private void guide(String flask, String laboratory) {
        bench.row("calibration", "p1", "stock", "", 1002.7)
                .row("calibration", "p2", "half", "", 501.5)
                .row("calibration", "p3", "tenth", "", 100.3)
                .write(
                        "weighings.csv",
                        "compound,mass,mass_u,purity,purity_half_width,source\nc,100.28,0.05,0.9999,0.0001,certificate\n");
        final Bench.Ran ran =
                bench.evaluate(
                        CALIBRATION.replace(", predict: {series: sample}", "")
                                + "standards:\n"
                                + laboratory
                                + "  pieces: {F: "
                                + flask
                                + "}\n"
                                + "  stock: {weighed: weighings.csv, into: F}\n"
                                + "  half: {take: 25 mL, of: stock, with: pipette 25 mL A, into: flask 50 mL A}\n"
                                + "  tenth: {take: 10 mL, of: stock, with: pipette 10 mL A, into: flask 100 mL A}\n");
        assertThat(ran).extracting(Bench.Ran::exit, Bench.Ran::err).containsExactly(0, "");
    }

    /** The demo form: the temperature stands at the stock, no solvent is named. */
    @Test
    void theTemperatureMayStandAtTheStockAndTheSolventMayBeUnknown() throws Exception {
        line(false);
        bench.write("glass.csv", EXACT_GLASS)
                .write("w.csv", "compound,mass,mass_u,purity,purity_u\nc,100,0,100 %,0\n");
        final Bench.Ran ran =
                bench.evaluate(
                        CALIBRATION
                                + "standards:\n  glassware: glass.csv\n"
                                + "  stock: {weighed: w.csv, into: flask 100, laboratory: 20 degC +- 3}\n"
                                + levels());
        assertThat(ran).extracting(Bench.Ran::exit, Bench.Ran::err).containsExactly(0, "");
        assertThat(
                        bench.number(
                                "calibration",
                                "level=L5",
                                "standard-amount",
                                "",
                                "standard_uncertainty"))
                .isCloseTo(5 * 0.0016 * 3 / Math.sqrt(3), within(1e-12));
        assertThat(Files.readString(folder.resolve("out/report.html")))
                .contains("mount of a standard", "the protocol names no solvent");
    }

    /** The result carries the stock's error, and the budget shows it in a row of its own. */
    @Test
    void theBudgetShowsTheStandardsErrorByItself() {
        line(false);
        bench.write("glass.csv", EXACT_GLASS)
                .write("w.csv", "compound,mass,mass_u,purity,purity_u\nc,100,1,1,0\n");
        final Bench.Ran ran =
                bench.evaluate(
                        CALIBRATION.replace(", predict: {series: sample}", "")
                                + "measurand: {name: amount, unit: mg/L, equation: found * V, results-for: {series: sample},"
                                + " inputs: {V: {value: 2}}}\n"
                                + "standards:\n  glassware: glass.csv\n"
                                + "  stock: {weighed: w.csv, into: flask 100}\n"
                                + levels());
        assertThat(ran).extracting(Bench.Ran::exit, Bench.Ran::err).containsExactly(0, "");
        final double scatter = 0.01 * (1 + 0.2 + 0.25 / 10) / 100;
        assertThat(
                        bench.number(
                                "budget",
                                "preparation=s",
                                "combined-standard-uncertainty",
                                "",
                                "value"))
                .isCloseTo(2 * Math.sqrt(scatter + 1e-4 * 2.5 * 2.5), within(1e-9));
        // Welch-Satterthwaite: the stock's size is taken as known, the scatter has 3
        final double share = scatter / (scatter + 1e-4 * 2.5 * 2.5);
        assertThat(
                        bench.number(
                                "budget",
                                "preparation=s",
                                "effective-degrees-of-freedom",
                                "",
                                "value"))
                .isCloseTo(3 / (share * share), within(1e-6));
        assertThat(Bench.rows(folder.resolve("out/budget.csv")))
                .filteredOn(row -> row.contains("standard-amount"))
                .hasSize(5)
                .allSatisfy(row -> assertThat(row).contains("calibrant"));
    }
}
