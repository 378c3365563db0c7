package splitledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import splitledger.report.Page.Part;
import splitledger.report.Page.Row;
import splitledger.report.Page.Table;

class SaidOnceTest {
    private static final String GENERAL =
            "Spikes do not prove the recovery of the native analyte, which may be held faster";

    @Test
    void aGeneralClauseStandsOnceUnderAHeadingAndTheRestOfTheRemarkStays() {
        final List<Row> rows =
                shortened(
                        row("level R1", GENERAL + "; t = 0.3"),
                        row("level R2", GENERAL + "; differs by 2"));

        assertThat(rows.get(0).remarks()).containsExactly(GENERAL + "; t = 0.3");
        assertThat(rows.get(1).remarks()).containsExactly("Differs by 2");
    }

    @Test
    void aClauseThatHoldsANumberIsSaidAgain() {
        final String counted = "the native amount is 3 times as large as what was added to it";
        final List<Row> rows = shortened(row("level R1", counted), row("level R2", counted));

        assertThat(rows.get(1).remarks()).containsExactly(counted);
    }

    @Test
    void aSymbolAtTheBeginningKeepsItsSmallLetter() {
        final List<Row> rows =
                shortened(
                        row("level R1", GENERAL + "; u(R) = 0.3"),
                        row("level R2", GENERAL + "; u(R) = 0.2"));

        assertThat(rows.get(1).remarks()).containsExactly("u(R) = 0.2");
    }

    @Test
    void theTableSaysThatSomethingIsNotRepeated() {
        final Table table = table(row("level R1", GENERAL), row("level R2", GENERAL));

        assertThat(once(table).remark()).contains("not repeated");
        assertThat(once(table(row("level R1", GENERAL))).remark()).isEmpty();
    }

    private static List<Row> shortened(Row... rows) {
        return once(table(rows)).rows();
    }

    private static Table once(Table table) {
        return SaidOnce.in(List.of(new Part(Optional.of(table), Optional.empty())))
                .get(0)
                .table()
                .orElseThrow();
    }

    private static Table table(Row... rows) {
        return new Table(
                "limonene", "limonene", "", "95 %", List.of(), List.of(rows), false, List.of(), "");
    }

    private static Row row(String what, String remark) {
        final Page.Cell none = Page.Cell.EMPTY;
        return new Row(
                false,
                true,
                what,
                List.of(remark),
                none,
                none,
                none,
                none,
                none,
                "",
                "",
                new Page.Badge("", ""));
    }
}
