package splitledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.Collections;
import java.util.List;
import java.util.function.Consumer;
import java.util.function.UnaryOperator;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.apache.commons.compress.archivers.zip.ZipArchiveEntry;
import org.apache.commons.compress.archivers.zip.ZipFile;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import splitledger.study.Choice;
import splitledger.study.InjectionTable;
import splitledger.study.Study;

class WorkbookTest {
    private static final String FILE = "studies/oil/areas.xlsx";

    private static byte[] workbook(Consumer<Workbook> fill) {
        final ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (Workbook book = new Workbook(out, "tests", "1.0")) {
            fill.accept(book);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toByteArray();
    }

    private static byte[] sheet(Consumer<Worksheet> fill) {
        return workbook(
                book -> {
                    final Worksheet sheet = book.newWorksheet("Areas");
                    row(sheet, 0, "injection", "compound", "area", "day");
                    fill.accept(sheet);
                });
    }

    private static void row(Worksheet sheet, int row, Object... cells) {
        for (int i = 0; i < cells.length; i++) {
            if (cells[i] instanceof Number number) {
                sheet.value(row, i, number);
            } else {
                sheet.value(row, i, String.valueOf(cells[i]));
            }
        }
    }

    private static void good(Worksheet sheet) {
        row(sheet, 1, "A1", "limonene", 10.5, "");
        row(sheet, 2, "A1", "linalool", "20", "");
        row(sheet, 3, "A2", "limonene", -0.5, "");
        row(sheet, 4, "A2", "linalool", "n.a.", "");
    }

    private static StudyFiles files(byte[] workbook) {
        return files("", workbook);
    }

    private static StudyFiles files(String keys, byte[] workbook) {
        return StudyFiles.replacing("{file: areas.csv}", "{file: areas.xlsx" + keys + "}")
                .with(FILE, workbook);
    }

    /** The workbook with parts changed. */
    private static byte[] changed(byte[] workbook, String part, UnaryOperator<String> change) {
        final ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (ZipFile in = ZipFile.builder().setByteArray(workbook).get();
                ZipOutputStream zip = new ZipOutputStream(out)) {
            for (ZipArchiveEntry e : Collections.list(in.getEntries())) {
                final String text =
                        new String(in.getInputStream(e).readAllBytes(), StandardCharsets.UTF_8);
                zip.putNextEntry(new ZipEntry(e.getName()));
                final String now = e.getName().equals(part) ? change.apply(text) : text;
                zip.write(now.getBytes(StandardCharsets.UTF_8));
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toByteArray();
    }

    @Test
    void theOnlySheetIsReadWithNumbersAlsoWhereTheyAreStoredAsText() {
        final Study study = files(sheet(WorkbookTest::good)).read();
        final InjectionTable table = study.table();

        assertThat(List.of(table.area(0), table.area(1), table.area(2)))
                .containsExactly(10.5, 20.0, -0.5);
        assertThat(table.area(3)).isNaN();
        assertThat(table.place(2).row()).isEqualTo(4);
        assertThat(study.choices())
                .extracting(Choice::what)
                .contains(
                        "areas.xlsx is read as: sheet 'Areas' of a workbook, headings in row 1,"
                                + " '.' as decimal mark");
    }

    @Test
    void numbersStoredAsTextWithDecimalCommasStandBesideRealNumbers() {
        final InjectionTable table =
                files(
                                sheet(
                                        s -> {
                                            good(s);
                                            row(s, 2, "A1", "linalool", "20,25", "");
                                        }))
                        .read()
                        .table();

        assertThat(table.area(1)).isEqualTo(20.25);
        assertThat(table.area(0)).isEqualTo(10.5);
    }

    @Test
    void anOpenNumberStoredAsTextIsAsked() {
        assertThat(
                        files(
                                        sheet(
                                                s -> {
                                                    good(s);
                                                    row(s, 2, "A1", "linalool", "20.250", "");
                                                }))
                                .texts())
                .contains(
                        """
                        areas.xlsx:3: 'area': found '20.250', which may be 20.250 or 20250, expected a number that can be read in one way
                          what to do: say at this table what the mark is: decimal: '.' if it is 20.250, thousands: '.' if it is 20250""");
    }

    @Test
    void datesAreDates() {
        final InjectionTable table =
                files(
                                sheet(
                                        s -> {
                                            good(s);
                                            s.value(1, 3, LocalDate.of(2026, 3, 4));
                                            s.style(1, 3).format("yyyy-mm-dd").set();
                                            s.value(2, 3, LocalDate.of(2026, 3, 4));
                                            s.style(2, 3).format("dd.mm.yy").set();
                                            s.value(3, 3, LocalDateTime.of(2026, 3, 4, 10, 11, 12));
                                            s.style(3, 3).format("d/m/yyyy hh:mm").set();
                                            row(s, 4, "A2", "linalool", "n.a.", 46085);
                                        }))
                        .read()
                        .table();

        assertThat(List.of(0, 1, 2, 3).stream().map(r -> table.label("day", r)))
                .containsExactly("2026-03-04", "2026-03-04", "2026-03-04T10:11:12", "46085");
    }

    @ParameterizedTest
    @CsvSource({
        "1, false, 1900-01-01",
        "59, false, 1900-02-28",
        "61, false, 1900-03-01",
        "0.5, false, 12:00:00",
        "46085.5, false, 2026-03-04T12:00:00",
        "0, true, 1904-01-01",
        "44623, true, 2026-03-04"
    })
    void serialDaysFollowTheCalendarOfTheWorkbook(double serial, boolean from1904, String day) {
        assertThat(WorkbookDates.text(serial, from1904)).isEqualTo(day);
    }

    @Test
    void aDayThatNeverWasIsNoDate() {
        assertThat(WorkbookDates.text(60, false)).isEmpty();
        assertThat(WorkbookDates.isDate("0.00")).isFalse();
        assertThat(WorkbookDates.isDate("[Red]0.0 \"days\"")).isFalse();
        assertThat(WorkbookDates.isDate("General")).isFalse();
        assertThat(WorkbookDates.isDate("[h]:mm")).isTrue();
    }

    @Test
    void ofSeveralSheetsOneMustBeNamed() {
        final byte[] two =
                workbook(
                        book -> {
                            final Worksheet first = book.newWorksheet("Notes");
                            row(first, 0, "nothing");
                            final Worksheet sheet = book.newWorksheet("Areas");
                            row(sheet, 0, "injection", "compound", "area", "day");
                            good(sheet);
                        });

        assertThat(files(two).texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:4: 'tables.1': found areas.xlsx with 2 sheets, expected an answer to: which sheet is the table?
                          what to do: add sheet: NAME at this table; it has: Notes, Areas""");
        assertThat(files(", sheet: Areas", two).read().table().area(0)).isEqualTo(10.5);
        assertThat(files(", sheet: Aeras", two).texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:4: 'tables.1': found the sheet 'Aeras', which areas.xlsx does not have, expected a sheet of that workbook
                          what to do: did you mean 'Areas'?""");
    }

    @Test
    void aPreambleAndEmptyRowsArePassedOver() {
        final byte[] book =
                workbook(
                        b -> {
                            final Worksheet s = b.newWorksheet("Areas");
                            row(s, 0, "Sequence of Monday");
                            row(s, 3, "injection", "compound", "area");
                            row(s, 5, "A1", "limonene", 10.5);
                            row(s, 6, "A1", "linalool", 20);
                            row(s, 8, "A2", "limonene", -0.5);
                            row(s, 9, "A2", "linalool");
                        });
        final InjectionTable table = files(book).read().table();

        assertThat(table.place(0).row()).isEqualTo(6);
        assertThat(table.area(3)).isNaN();
    }

    @Test
    void mergedCellsInTheHeaderOrBelowAreRefused() {
        final byte[] book =
                sheet(
                        s -> {
                            good(s);
                            s.range(0, 2, 0, 3).merge();
                            s.range(1, 0, 2, 0).merge();
                        });

        assertThat(files(book).texts())
                .containsExactlyInAnyOrder(
                        """
                        areas.xlsx:1: found merged cells C1:D1 in the header: which column or row the text belongs to cannot be told, expected one text in each cell
                          what to do: take the merging back and fill in every cell""",
                        """
                        areas.xlsx:2: found merged cells A2:A3: which column or row the text belongs to cannot be told, expected one text in each cell
                          what to do: take the merging back and fill in every cell""");
    }

    @Test
    void anErrorInACellIsNoNumber() {
        final byte[] book =
                changed(
                        sheet(
                                s -> {
                                    good(s);
                                    row(s, 1, "A1", "limonene", 12345, "");
                                }),
                        "xl/worksheets/sheet1.xml",
                        xml ->
                                xml.replaceFirst(
                                        "<c r=\"C2\"([^>]*)><v>12345</v>",
                                        "<c r=\"C2\" t=\"e\"><v>#DIV/0!</v>"));

        assertThat(files(book).texts())
                .containsExactly(
                        """
                        areas.xlsx:2: 'area': found '#DIV/0!', expected a number
                          what to do: write a number, or leave the cell empty""");
    }

    @Test
    void partsThatDeclareEntitiesAreRefused() {
        final byte[] book =
                changed(
                        sheet(WorkbookTest::good),
                        "xl/worksheets/sheet1.xml",
                        xml ->
                                xml.replaceFirst(
                                        "<worksheet",
                                        "<!DOCTYPE worksheet [<!ENTITY x SYSTEM"
                                                + " \"file:///etc/hostname\">]><worksheet"));

        assertThat(files(book).texts())
                .containsExactly(
                        """
                        areas.xlsx: found declarations of entities or of a document type in xl/worksheets/sheet1.xml, expected a workbook as spreadsheets write it
                          what to do: do not trust this file; export its sheet as CSV UTF-8""");
    }

    @Test
    void aPartThatUnpacksToFarMoreThanItsSizeIsRefused() {
        final byte[] book =
                changed(
                        sheet(WorkbookTest::good),
                        "xl/worksheets/sheet1.xml",
                        xml ->
                                xml.replaceFirst(
                                        "<worksheet",
                                        " ".repeat((int) Limits.SUSPECT_BYTES + 1) + "<worksheet"));

        assertThat(book.length).isLessThan(100_000);
        assertThat(files(book).texts())
                .containsExactly(
                        """
                        areas.xlsx: found a part that unpacks to more than 200 times its size, expected a workbook as spreadsheets write it
                          what to do: do not trust this file; export its sheet as CSV UTF-8""");
    }

    @Test
    void aTornWorkbookIsRefused() {
        final byte[] whole = sheet(WorkbookTest::good);
        for (int length : new int[] {4, 40, whole.length / 2, whole.length - 30}) {
            assertThat(files(java.util.Arrays.copyOf(whole, length)).texts())
                    .as("%d of %d bytes", length, whole.length)
                    .containsExactly(
                            """
                            areas.xlsx: found a workbook that cannot be read, expected a whole workbook of the form .xlsx
                              what to do: open and save it again, or export its sheet as CSV UTF-8""");
        }
    }
}
