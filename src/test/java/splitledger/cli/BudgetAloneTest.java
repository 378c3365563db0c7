package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Budgets without tables, worked by hand, through the command line. */
class BudgetAloneTest {
    private static final String HEAD =
            "splitledger: 1\ntitle: by hand\npurpose: budget\nmeasurand:\n";

    @TempDir Path folder;

    private Bench.Ran run(String measurand) {
        return new Bench(folder).run(HEAD + measurand.indent(2));
    }

    private void evaluated(String measurand) {
        assertThat(run(measurand))
                .extracting(Bench.Ran::exit, Bench.Ran::err)
                .containsExactly(0, "");
    }

    private double number(String quantity) {
        return new Bench(folder).number("budget", "", quantity, "", "value");
    }

    private String note(String quantity) {
        return new Bench(folder).result("budget", "", quantity, "").getOrDefault("note", "");
    }

    private double u() {
        return number("combined-standard-uncertainty");
    }

    /** Squares of the seven standard uncertainties: 1, 4, 0.25, 3, 1/6, 0.125, 1.25/6 x 4. */
    @Test
    void everyFormOfAStatedUncertaintyGivesItsStandardUncertainty() {
        evaluated(
                """
                unit: g
                equation: a + b + c + d + e + f + g
                inputs:
                  a: {value: 10 g, standard-uncertainty: 1 g}
                  b: {value: 10 g, expanded: 4 g, k: 2}
                  c: {value: 10 g, standard-deviation: 1 g, mean-of: 4}
                  d: {value: 10 g, half-width: 3 g, shape: rectangular}
                  e: {value: 10 g, half-width: 1 g, shape: triangular}
                  f: {value: 10 g, half-width: 0.5 g, shape: arcsine}
                  g: {value: 10 g, half-width: 2 g, top-half-width: 1 g}
                """);
        final double squares = 1 + 4 + 0.25 + 3 + 1.0 / 6 + 0.125 + 4 * 1.25 / 6;
        assertThat(u()).isCloseTo(Math.sqrt(squares), within(1e-12));
        assertThat(number("result")).isEqualTo(70);
        final List<List<String>> rows = Bench.rows(folder.resolve("out/budget.csv"));
        assertThat(rows.stream().skip(1).limit(7).map(r -> r.get(10)))
                .containsExactly(
                        "normal",
                        "normal",
                        "normal",
                        "rectangular",
                        "triangular",
                        "arcsine",
                        "trapezoidal");
        assertThat(
                        rows.stream()
                                .skip(1)
                                .limit(7)
                                .mapToDouble(r -> Double.parseDouble(r.get(14)))
                                .sum())
                .isCloseTo(100, within(1e-9));
    }

    /** 1.96 of a normal and 2.571 of t with 5 degrees of freedom. */
    @Test
    void aCertificateThatStatesItsCoverageIsDividedByThatFactor() {
        evaluated(
                """
                equation: a + b
                inputs:
                  a: {value: 1, expanded: 1.959964, coverage: 0.95}
                  b: {value: 1, expanded: 2.570582, coverage: 0.95, degrees-of-freedom: 5}
                """);
        assertThat(u()).isCloseTo(Math.sqrt(2), within(1e-6));
        // (1 + 1)^2 / (1/5)
        assertThat(number("effective-degrees-of-freedom")).isCloseTo(20, within(1e-4));
    }

    /** 2, 4, 4, 4, 5, 5, 7, 9: mean 5, squares 32, s 2.13809, s / sqrt(8) = 0.755929. */
    @Test
    void readingsGiveMeanAndItsStandardUncertainty() {
        evaluated("equation: a\ninputs: {a: {values: [2, 4, 4, 4, 5, 5, 7, 9]}}\n");
        assertThat(number("result")).isEqualTo(5);
        assertThat(u()).isCloseTo(Math.sqrt(32.0 / 7 / 8), within(1e-12));
        assertThat(number("effective-degrees-of-freedom")).isCloseTo(7, within(1e-9));
    }

    @Test
    void readingsMayTakeAPooledStandardDeviation() {
        evaluated(
                """
                unit: nm
                equation: a
                inputs: {a: {values: [214 nm, 216 nm], standard-deviation: 0.013 um, degrees-of-freedom: 24}}
                """);
        assertThat(number("result")).isEqualTo(215);
        assertThat(u()).isCloseTo(13 / Math.sqrt(2), within(1e-9));
        assertThat(number("effective-degrees-of-freedom")).isCloseTo(24, within(1e-9));
    }

    /** u^2 = 9 + 16 + 2 r 12. */
    @Test
    void aStatedCorrelationEntersTheSum() {
        evaluated(
                """
                equation: a + b
                inputs:
                  a: {value: 1, standard-uncertainty: 3}
                  b: {value: 1, standard-uncertainty: 4}
                correlations: [{between: [a, b], r: -0.5}]
                """);
        assertThat(u()).isCloseTo(Math.sqrt(25 - 12), within(1e-12));
        // shares 100 c_a u_a (c_a u_a + r c_b u_b) / u^2: 9 - 6 and 16 - 6 of 13
        final List<List<String>> rows = Bench.rows(folder.resolve("out/budget.csv"));
        assertThat(Double.parseDouble(rows.get(1).get(14))).isCloseTo(300.0 / 13, within(1e-9));
        assertThat(Double.parseDouble(rows.get(2).get(14))).isCloseTo(1000.0 / 13, within(1e-9));
        assertThat(number("mc-standard-uncertainty")).isCloseTo(Math.sqrt(13), within(0.1));
    }

    @Test
    void correlationsThatCannotHoldTogetherAreRefused() {
        final Bench.Ran ran =
                run(
                        """
                        equation: a + b + c
                        inputs:
                          a: {value: 1, standard-uncertainty: 1}
                          b: {value: 1, standard-uncertainty: 1}
                          c: {value: 1, standard-uncertainty: 1}
                        correlations: [{between: [a, b], r: 0.9}, {between: [b, c], r: 0.9}, {between: [a, c], r: -0.9}]
                        """);
        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.err()).contains("that cannot hold together", "positive semidefinite");
        assertThat(new Bench(folder).leftSomething()).isFalse();
    }

    @Test
    void correlationsOfTheWrongInputsAreRefusedEachWithItsPlace() {
        final Bench.Ran ran =
                run(
                        """
                        equation: a + b + c
                        inputs:
                          a: {value: 1, half-width: 1, shape: rectangular}
                          b: {values: [1, 2, 3]}
                          c: {values: [1, 2]}
                        correlations:
                          - {between: [a, b], r: 0.9}
                          - {between: [b, c], from: values}
                          - {between: [b, d], r: 0.1}
                          - {between: [b, c]}
                        """);
        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.err())
                .contains("the input 'a'")
                .contains("readings of different number")
                .contains("the symbol 'd', which is no input")
                .contains("a correlation without r");
    }

    @Test
    void inputsThatDoNotFitTogetherAreRefused() {
        final Bench.Ran ran =
                run(
                        """
                        equation: a + b + c + d + e + f
                        inputs:
                          a: {values: [1]}
                          b: {values: [1 g, 2 mg]}
                          c: {value: 1, expanded: 2}
                          d: {value: 1, standard-uncertainty: 1, shape: t}
                          e: {value: 1, half-width: 1, shape: trapezoidal}
                          f: {value: -1, standard-uncertainty: 1, shape: lognormal}
                        """);
        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.err())
                .contains("found one reading")
                .contains("found the unit 'mg'")
                .contains("an expanded uncertainty without k")
                .contains("'t' without degrees-of-freedom")
                .contains("a trapezium without top")
                .contains("'lognormal' of a value");
    }

    /** 2 mg/mL is 2000 mg/L; the equation has no number that says so. */
    @Test
    void aFactorBetweenUnitsIsPutInAndSaid() {
        evaluated(
                """
                unit: mg/L
                equation: m / V
                inputs: {m: {value: 20 mg, standard-uncertainty: 1 %}, V: {value: 10 mL}}
                """);
        assertThat(number("result")).isEqualTo(2000);
        assertThat(u()).isCloseTo(20, within(1e-9));
        assertThat(folder.resolve("out/results.json")).content().contains("multiplied by 1000");
    }

    @Test
    void aNumberThatConvertsIsNotPutInTwice() {
        evaluated(
                """
                unit: mg/L
                equation: 1000 * m / V
                inputs: {m: {value: 20 mg, standard-uncertainty: 1 %}, V: {value: 10 mL}}
                """);
        assertThat(number("result")).isEqualTo(2000);
    }

    @Test
    void unitsThatDoNotFitAreSaidAndNothingIsChanged() {
        evaluated(
                """
                unit: mg/kg
                equation: 5 * m / V
                inputs: {m: {value: 20 mg, standard-uncertainty: 1 %}, V: {value: 10 mL}}
                """);
        assertThat(number("result")).isEqualTo(10);
        assertThat(folder.resolve("out/results.json"))
                .content()
                .contains("do not give the unit of the result");
    }

    @Test
    void aUnitThatIsNotUnderstoodIsAWord() {
        evaluated(
                """
                unit: spoons
                equation: 5 * m
                inputs: {m: {value: 20 pinches, standard-uncertainty: 1 %}}
                """);
        assertThat(folder.resolve("out/results.json"))
                .content()
                .contains("not understood: m in 'pinches', the result in 'spoons'");
    }

    @Test
    void anIntervalBelowZeroIsNotLeftWithoutAWord() {
        evaluated(
                "unit: mg/kg\nequation: a\ninputs: {a: {value: 1 mg/kg, standard-uncertainty: 1 mg/kg}}\n");
        assertThat(note("result")).contains("reaches below 0", "cannot be negative");
    }

    @Test
    void aPoolOfTwoDegreesOfFreedomHasAnIntervalAndNoSimulatedDeviation() {
        evaluated("equation: a\ninputs: {a: {values: [10.1, 9.9, 10.3]}}\n");
        assertThat(new Bench(folder).result("budget", "", "mc-standard-uncertainty", ""))
                .containsEntry("status", "not-estimable");
        assertThat(number("propagation-validated")).isEqualTo(1);
    }

    @Test
    void theDossierOfABudgetHasItsChartsAndWords() {
        evaluated(
                "unit: g\nequation: a / b\ninputs: {a: {value: 1 g, standard-uncertainty: 5 %}, b: {value: 1, standard-uncertainty: 30 %}}\n");
        assertThat(folder.resolve("out/figures/shares.svg")).exists();
        assertThat(folder.resolve("out/figures/distribution.svg")).exists();
        assertThat(folder.resolve("out/report.html"))
                .content()
                .contains("Quote the Monte Carlo interval")
                .contains("longer tail towards large values");
        assertThat(note("result")).contains("Monte Carlo does not confirm U");
    }
}
