package splitledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class CellsTest {

    @ParameterizedTest
    @CsvSource({"0,0", "-0.5,-0.5", "+3,3", "1e3,1000", "1.5E-2,0.015", ".5,0.5", "5.,5"})
    void aNumberIsSignDigitsDotAndExponent(String cell, double expected) {
        assertThat(Cells.number(cell)).isEqualTo(expected);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "1,5",
                "1 000",
                "1'000",
                "12 mg",
                "1d",
                "1f",
                "0x1p3",
                "NaN",
                "Infinity",
                "-inf",
                "1e999",
                "e3",
                "1e",
                "1e+",
                ".",
                "+",
                "--1",
                "1.2.3",
                "١"
            })
    void anythingElseIsNone(String cell) {
        assertThat(Cells.number(cell)).isNaN();
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "-", "nd", "ND", "n.a.", "N.A.", "n.A."})
    void thereAreFourWaysToWriteNothing(String cell) {
        assertThat(Cells.isNothing(cell)).isTrue();
    }

    @ParameterizedTest
    @ValueSource(strings = {"0", "na", "NaN", "--", "null", "*", "<LOD", "n.d."})
    void andNoOther(String cell) {
        assertThat(Cells.isNothing(cell)).isFalse();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "4,1|write a dot as decimal mark and no thousands marks",
                "1,234.5|take the thousands marks out",
                "1 234|take the thousands marks out",
                "12 mg/L|write the number alone; a unit belongs into the heading",
                "NaN|leave the cell empty where there is no number",
                "-Infinity|leave the cell empty where there is no number",
                "1e999|the number is too large: check it",
                "<LOD|write a number, or leave the cell empty"
            })
    void aHintSaysWhatToDo(String cell, String hint) {
        assertThat(Cells.hint(cell)).isEqualTo(hint);
    }
}
