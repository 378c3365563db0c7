package splitledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import splitledger.study.Study;

class UnitsTest {
    private static final String AMOUNTS =
            """
            injection,compound,area,HEADING
            A1,limonene,10.5,250
            A1,linalool,20,0.3
            A2,limonene,-0.5,
            A2,linalool,n.a.,7
            """;

    private static StudyFiles table(String heading, String keys, String conventions) {
        return StudyFiles.protocol(
                        StudyFiles.GOOD_PROTOCOL.replace(
                                        "{file: areas.csv}", "{file: areas.csv" + keys + "}")
                                + conventions)
                .with("studies/oil/areas.csv", AMOUNTS.replace("HEADING", heading));
    }

    /** Factors worked by hand. */
    @ParameterizedTest
    @CsvSource({
        "ug/L, mg/L, 250, 0.25",
        "ng/mL, mg/L, 250, 0.25",
        "\u00b5g/mL, mg/L, 0.3, 0.3",
        "g/L, mg/mL, 0.3, 0.3",
        "%, 1, 7, 0.07",
        "mg/kg, %, 250, 0.025",
        "K, degC, 273.15, 0",
        "degF, degC, 212, 100",
        "\u00b0C, K, 25, 298.15",
        "psi, kPa, 100, 689.4757293168361",
        "bar, kPa, 1.5, 150",
        "L/h, mL/min, 3, 50",
        "pA*s, nA*s, 250, 0.25",
        "mmol/L, umol/mL, 4, 4"
    })
    void numbersAreConvertedOnce(String from, String to, double number, double expected) {
        final Units.Conversion conversion =
                Units.of(from).orElseThrow().to(Units.of(to).orElseThrow()).orElseThrow();

        assertThat(conversion.apply(number))
                .isCloseTo(
                        expected,
                        org.assertj.core.data.Offset.offset(1e-12 * Math.abs(expected) + 1e-13));
    }

    @Test
    void unitsOfOtherKindsOrUnknownOnesAreNotConverted() {
        assertThat(Units.of("mg/L").orElseThrow().to(Units.of("mg/kg").orElseThrow())).isEmpty();
        assertThat(Units.of("ppm")).isEmpty();
        assertThat(Units.of("kmin")).isEmpty();
        assertThat(Units.of("")).isEmpty();
    }

    @Test
    void aUnitAtTheTableIsConvertedToThatOfTheConventionsAndTold() {
        final Study study =
                table("amount", ", units: {amount: ug/L}", "conventions: {amount-unit: mg/L}\n")
                        .read();

        assertThat(study.table().number("amount", 0)).isEqualTo(0.25);
        assertThat(study.protocol().conventions().amountUnit()).isEqualTo("mg/L");
        assertThat(StudyFiles.decisions(study))
                .anyMatch(
                        c ->
                                c.what()
                                                .equals(
                                                        "amount of areas.csv is converted from ug/L to"
                                                                + " mg/L")
                                        && c.why().equals("divided by 1000"));
    }

    @Test
    void aUnitInTheHeadingIsRead() {
        final Study study =
                table("amount [ng/mL]", "", "conventions: {amount-unit: mg/L}\n").read();

        assertThat(study.table().number("amount", 1)).isEqualTo(0.3 / 1000);
    }

    @Test
    void withoutAConventionTheUnitOfTheTableIsTheUnit() {
        final Study study = table("Conc. (mg/L)", ", columns: {amount: Conc. (mg/L)}", "").read();

        assertThat(study.protocol().conventions().amountUnit()).isEqualTo("mg/L");
        assertThat(study.table().number("amount", 0)).isEqualTo(250);
    }

    @Test
    void areasAreConvertedToo() {
        final Study study =
                table("amount", ", units: {area: nA*s}", "conventions: {area-unit: pA*s}\n").read();

        assertThat(study.table().area(0)).isEqualTo(10_500);
    }

    @Test
    void aUnitThatDoesNotFitIsAProblem() {
        assertThat(
                        table(
                                        "amount",
                                        ", units: {amount: mg/kg}",
                                        "conventions: {amount-unit: mg/L}\n")
                                .texts())
                .containsExactly(
                        """
                        areas.csv:1: 'amount': found the unit 'mg/kg' of amount, expected 'mg/L' or a unit that can be converted to it
                          what to do: correct the unit, or the one it is converted to""");
    }

    @Test
    void headingAndTableMustNotContradictEachOther() {
        assertThat(table("amount [mg/L]", ", units: {amount: g/L}", "").texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:4: 'tables.1.units.amount': found the unit 'g/L' where the heading says 'mg/L', expected one unit for a column
                          what to do: take one of them out""");
    }

    @Test
    void aUnitAtOneTableOnlyIsAsked() {
        assertThat(
                        StudyFiles.protocol(
                                        StudyFiles.GOOD_PROTOCOL.replace(
                                                "{file: areas.csv}",
                                                "{file: areas.csv, units: {amount: mg/L}}\n"
                                                        + "  - {file: more.csv, prefix: B}"))
                                .with("studies/oil/areas.csv", AMOUNTS.replace("HEADING", "amount"))
                                .with("studies/oil/more.csv", AMOUNTS.replace("HEADING", "amount"))
                                .with(
                                        "studies/oil/runs.csv",
                                        StudyFiles.GOOD_RUNS + "BA1,sample,F3,\nBA2,sample,F4,\n")
                                .texts())
                .containsExactly(
                        """
                        more.csv:1: 'amount': found no unit, while another table has mg/L, expected a unit at every table with this column
                          what to do: add units: {amount: mg/L} at this table if it is the same""");
    }
}
