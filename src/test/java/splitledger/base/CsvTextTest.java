package splitledger.base;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalStateException;

import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class CsvTextTest {
    private static String text(CsvText csv) {
        return new String(csv.bytes(), StandardCharsets.UTF_8);
    }

    private static String oneCell(String value) {
        return text(new CsvText(List.of("h", "i")).cell(value).empty().endRow());
    }

    @Test
    void writesHeaderRowsAndLineFeedsAlone() {
        final CsvText csv = new CsvText(List.of("name", "value"));
        csv.cell("limonene").cell(0.002).endRow();
        csv.cell("linalool").empty().endRow();

        assertThat(text(csv)).isEqualTo("name,value\nlimonene,0.002\nlinalool,\n");
    }

    @Test
    void isUtf8WithoutByteOrderMark() {
        assertThat(new CsvText(List.of("µ", "ü")).bytes())
                .isEqualTo("µ,ü\n".getBytes(StandardCharsets.UTF_8));
    }

    /** Quoting as RFC 4180, section 2, rules 5 to 7. */
    @Test
    void quotesCommasQuotesAndLineBreaksOnly() {
        assertThat(oneCell("a,b")).isEqualTo("h,i\n\"a,b\",\n");
        assertThat(oneCell("5 \"inch\"")).isEqualTo("h,i\n\"5 \"\"inch\"\"\",\n");
        assertThat(oneCell("a\nb")).isEqualTo("h,i\n\"a\nb\",\n");
        assertThat(oneCell("a\rb")).isEqualTo("h,i\n\"a\rb\",\n");
        assertThat(oneCell("a b;c'd")).isEqualTo("h,i\na b;c'd,\n");
    }

    @ParameterizedTest
    @ValueSource(strings = {"=1+1", "+1", "-1", "@a", "\t=1"})
    void noTextCellIsTakenForAFormula(String value) {
        assertThat(oneCell(value)).isEqualTo("h,i\n'" + value + ",\n");
    }

    @Test
    void aFormulaWithACommaIsMarkedInsideTheQuotes() {
        assertThat(oneCell("=SUM(A1,B1)")).isEqualTo("h,i\n\"'=SUM(A1,B1)\",\n");
    }

    @Test
    void aNegativeNumberIsNoFormula() {
        assertThat(text(new CsvText(List.of("v")).cell(-1.5).endRow())).isEqualTo("v\n-1.5\n");
    }

    @Test
    void aRowOfAnotherWidthThanTheHeaderIsRefused() {
        final CsvText csv = new CsvText(List.of("a", "b"));
        csv.cell("1");

        assertThatIllegalStateException()
                .isThrownBy(csv::endRow)
                .withMessageContaining("1 cells")
                .withMessageContaining("2");
    }
}
