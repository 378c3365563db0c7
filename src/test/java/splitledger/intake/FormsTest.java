package splitledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import splitledger.study.Choice;
import splitledger.study.InjectionTable;
import splitledger.study.Study;

/** Tables as data systems, spreadsheets and people leave them. */
class FormsTest {
    private static final String AREAS = "studies/oil/areas.csv";

    /** The good table with other marks. */
    private static String semicolons() {
        return StudyFiles.GOOD_AREAS.replace(',', ';').replace('.', ',').replace("n,a,", "n.a.");
    }

    private static StudyFiles table(String keys) {
        return StudyFiles.replacing("{file: areas.csv}", "{file: areas.csv, " + keys + "}");
    }

    private static String form(Study study) {
        return study.choices().stream()
                .map(Choice::what)
                .filter(w -> w.startsWith("areas.csv is read as: "))
                .findFirst()
                .orElse("");
    }

    private static void isTheGoodTable(InjectionTable table) {
        assertThat(List.of(table.area(0), table.area(1), table.area(2)))
                .containsExactly(10.5, 20.0, -0.5);
        assertThat(table.area(3)).isNaN();
        assertThat(table.size()).isEqualTo(4);
    }

    @Test
    void semicolonsWithDecimalCommasAreFoundAndTold() {
        final Study study = StudyFiles.areas(semicolons()).read();

        isTheGoodTable(study.table());
        assertThat(form(study))
                .isEqualTo(
                        "areas.csv is read as: UTF-8, ';' between cells, headings in line 1, ','"
                                + " as decimal mark");
    }

    @Test
    void tabsAreFound() {
        final Study study = StudyFiles.areas(StudyFiles.GOOD_AREAS.replace(',', '\t')).read();

        isTheGoodTable(study.table());
        assertThat(form(study)).contains("tabs between cells", "'.' as decimal mark");
    }

    @Test
    void decimalCommasInQuotesBetweenCommasAreFound() {
        final String areas =
                """
                injection,compound,area
                A1,limonene,"10,5"
                A1,linalool,20
                A2,limonene,"-0,5"
                A2,linalool,n.a.
                """;

        isTheGoodTable(StudyFiles.areas(areas).read().table());
    }

    @ParameterizedTest
    @ValueSource(strings = {"\n", "\r\n", "\r"})
    void everyLineEndIsRead(String end) {
        final InjectionTable table =
                StudyFiles.areas(StudyFiles.GOOD_AREAS.replace("\n", end)).read().table();

        isTheGoodTable(table);
        assertThat(table.place(3).row()).isEqualTo(5);
    }

    @ParameterizedTest
    @ValueSource(strings = {"UTF-8", "UTF-16LE", "UTF-16BE", "windows-1252"})
    void encodingsAreToldApartWithAndWithoutMark(String name) {
        final Charset charset = Charset.forName(name);
        final String text =
                StudyFiles.GOOD_AREAS
                        .replace("compound,area", "compound,area,Prüfer")
                        .replace(".5\n", ".5,Jörg\n")
                        .replace("20\n", "20,Jörg\n")
                        .replace("n.a.\n", "n.a.,Jörg\n");
        final List<String> marks = name.startsWith("UTF") ? List.of("", "\ufeff") : List.of("");
        for (String mark : marks) {
            final Study study =
                    StudyFiles.good().with(AREAS, (mark + text).getBytes(charset)).read();

            isTheGoodTable(study.table());
            assertThat(study.table().label("Prüfer", 0)).isEqualTo("Jörg");
            assertThat(form(study)).containsIgnoringCase(name.replaceAll("[LB]E$", ""));
        }
    }

    @Test
    void bytesThatAreNoTextAreRefused() {
        assertThat(
                        StudyFiles.good()
                                .with(AREAS, new byte[] {'a', 0, 'b', (byte) 0x81, 0, 0, 7, '\n'})
                                .texts())
                .containsExactly(
                        """
                        areas.csv: found a file that is no text, or of an unknown encoding, expected text in UTF-8, UTF-16 or Windows-1252, or a workbook of the form .xlsx
                          what to do: export or save the table as CSV UTF-8""");
    }

    @Test
    void aStatedEncodingThatDoesNotFitIsToldWithItsLine() {
        final byte[] bytes =
                (StudyFiles.GOOD_AREAS + "Ä1,limonene,1\n").getBytes(StandardCharsets.ISO_8859_1);

        assertThat(table("encoding: utf-8").with(AREAS, bytes).texts())
                .containsExactly(
                        """
                        areas.csv:6: found characters that are not UTF-8, expected a file in UTF-8
                          what to do: change or take out encoding at this table, or save the table as CSV UTF-8""");
    }

    @Test
    void aPreambleAboveTheHeaderIsPassedOver() {
        final String preamble =
                "sep=,\nSequence \"Monday\" run, by night\n\nOperator,M. Invented\nUnits: area, counts\n";
        final Study study = StudyFiles.areas(preamble + StudyFiles.GOOD_AREAS).read();

        isTheGoodTable(study.table());
        assertThat(study.table().place(0).row()).isEqualTo(7);
        assertThat(form(study)).contains("headings in line 6");
    }

    @Test
    void theHeaderRowCanBeStated() {
        final String areas =
                StudyFiles.GOOD_AREAS.replaceFirst("\n", "\ninjection,compound,area\n");
        final Study study = table("header-row: 2").with(AREAS, areas).read();

        isTheGoodTable(study.table());
        assertThat(table("header-row: 9").texts())
                .contains(
                        """
                        areas.csv:9: found no headings in the line that header-row names, expected the headings of the table
                          what to do: count lines from 1, empty ones too, or take header-row out""");
    }

    @Test
    void aNumberThatCanBeReadInTwoWaysIsAsked() {
        final String areas = StudyFiles.GOOD_AREAS.replace("20", "\"1,234\"");

        assertThat(StudyFiles.areas(areas).texts())
                .containsExactly(
                        """
                        areas.csv:3: 'area': found '1,234', which may be 1.234 or 1234, expected a number that can be read in one way
                          what to do: say at this table what the mark is: decimal: ',' if it is 1.234, thousands: ',' if it is 1234""");
        assertThat(table("thousands: ','").with(AREAS, areas).read().table().area(1))
                .isEqualTo(1234);
    }

    @Test
    void betweenSemicolonsADotBeforeThreeDigitsIsAskedToo() {
        final String areas = semicolons().replace("10,5", "10.500").replace("-0,5", "2");

        assertThat(StudyFiles.areas(areas).texts())
                .containsExactly(
                        """
                        areas.csv:2: 'area': found '10.500', which may be 10.500 or 10500, expected a number that can be read in one way
                          what to do: say at this table what the mark is: decimal: '.' if it is 10.500, thousands: '.' if it is 10500""");
        assertThat(table("decimal: '.'").with(AREAS, areas).read().table().area(0)).isEqualTo(10.5);
        assertThat(table("thousands: '.'").with(AREAS, areas).read().table().area(0))
                .isEqualTo(10_500);
    }

    @ParameterizedTest
    @ValueSource(strings = {"1.234.567,5", "1 234 567,5", "1'234'567,5", "1\u202f234\u00a0567,5"})
    void thousandsMarksAreFoundWhereNothingElseIsPossible(String number) {
        final String areas = semicolons().replace("20", number);
        final InjectionTable table = StudyFiles.areas(areas).read().table();

        assertThat(table.area(1)).isEqualTo(1_234_567.5);
        assertThat(table.area(0)).isEqualTo(10.5);
    }

    @Test
    void aDecimalCommaThatBeginsBehindTheSampleIsAProblemNeverAGuess() {
        final StringBuilder areas = new StringBuilder("injection;compound;area\n");
        for (int i = 0; i < Limits.SAMPLE_ROWS + 5; i++) {
            areas.append("B").append(i).append(";limonene;").append(i + 1).append('\n');
        }
        areas.append("B0;linalool;3,25\n");

        assertThat(StudyFiles.areas(areas.toString()).texts())
                .contains(
                        """
                        areas.csv:1007: 'area': found '3,25', expected a number
                          what to do: write a dot as decimal mark and no thousands marks; or, if all numbers of the table are written like this, say decimal: ',' at it""");
    }

    @Test
    void trailingEmptyColumnsAreNothing() {
        final String areas =
                """
                injection,compound,area,,
                A1,limonene,10.5,,
                A1,linalool,20
                A2,limonene,-0.5,
                A2,linalool,n.a.,,,,
                """;
        final Study study = StudyFiles.areas(areas).read();

        isTheGoodTable(study.table());
        assertThat(study.flags()).noneMatch(f -> f.what().contains("heading"));
    }

    @Test
    void aCellBehindTheLastHeadingIsAProblem() {
        assertThat(StudyFiles.areas(StudyFiles.GOOD_AREAS.replace("20", "20,x")).texts())
                .containsExactly(
                        """
                        areas.csv:3: found 4 cells, expected 3 cells, as in the header
                          what to do: add or remove cells; a text that holds the character between cells needs quotes around it""");
    }

    @Test
    void vialsNamedWithANumberSignAreLabels() {
        final Study study =
                StudyFiles.good()
                        .with(AREAS, StudyFiles.GOOD_AREAS.replace("A", "#1"))
                        .with("studies/oil/runs.csv", StudyFiles.GOOD_RUNS.replace("A", "#1"))
                        .read();

        assertThat(study.table().injection(0)).isEqualTo("#11");
    }

    @Test
    void rowsOfTotalsAreAskedAboutAndLeftOutWhenNamed() {
        final String areas = StudyFiles.GOOD_AREAS + "Mean,limonene,5\nRSD %,limonene,3\n";

        assertThat(StudyFiles.areas(areas).texts())
                .contains(
                        """
                        areas.csv: 'injection': found a row 'Mean', which looks like a total, expected rows of injections only
                          what to do: take it out, or name it at this table: not-injections: ['Mean']""");
        final Study study = table("not-injections: [Mean, RSD %]").with(AREAS, areas).read();
        isTheGoodTable(study.table());
        assertThat(study.flags())
                .anyMatch(
                        f ->
                                f.place().row() == 6
                                        && f.what()
                                                .equals(
                                                        "2 rows are no injection, as stated, and left"
                                                                + " out"));
    }

    @Test
    void gzipIsUnpacked() {
        final Study study =
                StudyFiles.good().with(AREAS, packed(StudyFiles.GOOD_AREAS.getBytes(UTF))).read();

        isTheGoodTable(study.table());
        assertThat(form(study)).contains("packed with gzip");
    }

    @Test
    void aTornGzipFileIsRefused() {
        final byte[] whole = packed(StudyFiles.GOOD_AREAS.getBytes(UTF));

        assertThat(
                        StudyFiles.good()
                                .with(AREAS, java.util.Arrays.copyOf(whole, whole.length - 12))
                                .texts())
                .containsExactly(
                        """
                        areas.csv: found a packed file that cannot be unpacked to its end, expected a whole file
                          what to do: pack or copy it again""");
    }

    @Test
    void anOldBinaryWorkbookIsRefusedWithAWayOut() {
        final byte[] start = {(byte) 0xD0, (byte) 0xCF, 0x11, (byte) 0xE0, 0, 0};

        assertThat(StudyFiles.good().with(AREAS, start).texts())
                .containsExactly(
                        """
                        areas.csv: found a workbook of the old binary form (.xls), expected a text table or a workbook of the form .xlsx
                          what to do: save it as .xlsx or as CSV UTF-8""");
    }

    @Test
    void twoExportsThatBothCountFromOneAreToldApartByAPrefix() {
        final StudyFiles files =
                StudyFiles.protocol(
                                """
                                splitledger: 1
                                tables:
                                  - {file: areas.csv, set: {day: 1}}
                                  - {file: areas2.csv, prefix: second-, set: {day: 2}}
                                  - {file: runs.csv, joins-on: injection}
                                  - {file: runs2.csv, joins-on: injection, prefix: second-}
                                compounds: {targets: [limonene]}
                                """)
                        .with(AREAS, "injection,compound,area\n1,limonene,5\n2,limonene,6\n")
                        .with(
                                "studies/oil/areas2.csv",
                                "injection,compound,area\n1,limonene,7\n2,limonene,8\n")
                        .with("studies/oil/runs.csv", "injection,series\n1,a\n2,b\n")
                        .with("studies/oil/runs2.csv", "injection,series\n1,c\n2,d\n");
        final InjectionTable table = files.read().table();

        assertThat(List.of(0, 1, 2, 3).stream().map(table::injection))
                .containsExactly("1", "2", "second-1", "second-2");
        assertThat(List.of(0, 1, 2, 3).stream().map(r -> table.label("day", r)))
                .containsExactly("1", "1", "2", "2");
        assertThat(List.of(0, 1, 2, 3).stream().map(r -> table.label("series", r)))
                .containsExactly("a", "b", "c", "d");
    }

    @Test
    void withoutPrefixTheSameLabelInTwoFilesIsAProblemThatNamesTheRemedy() {
        assertThat(
                        StudyFiles.replacing(
                                        "- {file: areas.csv}",
                                        "- {file: areas.csv}\n  - {file: areas2.csv}")
                                .with(
                                        "studies/oil/areas2.csv",
                                        "injection,compound,area\nA1,limonene,7\n")
                                .texts())
                .containsExactly(
                        """
                        areas2.csv:2: 'injection': found injection 'A1' with compound 'limonene' a second time, expected one row for each injection and compound
                          what to do: it stands in line 2 of areas.csv already: keep one of them, or give each injection a label of its own (prefix: TEXT at one of the tables does that)""");
    }

    private static final Charset UTF = StandardCharsets.UTF_8;

    static byte[] packed(byte[] bytes) {
        final ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (GZIPOutputStream gzip = new GZIPOutputStream(out)) {
            gzip.write(bytes);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toByteArray();
    }
}
