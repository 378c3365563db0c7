package splitledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import splitledger.base.Problem;
import splitledger.study.Choice;
import splitledger.study.Flag;
import splitledger.study.InjectionTable;
import splitledger.study.Place;
import splitledger.study.State;
import splitledger.study.Study;

class TableReadingTest {
    private static final String WIDE = "- {file: areas.csv, form: wide}";

    private static StudyFiles wide(String areas) {
        return StudyFiles.replacing("- {file: areas.csv}", WIDE)
                .with("studies/oil/areas.csv", areas);
    }

    private static List<String> areaTexts(String areas) {
        return StudyFiles.areas(areas).texts();
    }

    @Test
    void aCellThatIsNoNumberIsToldWithRowColumnAndWhatToDo() {
        assertThat(
                        areaTexts(
                                """
                                injection,compound,area
                                A1,limonene,"4,1"
                                A1,linalool,NaN
                                A2,limonene,"1,234.5"
                                A2,linalool,12 counts
                                """))
                .containsExactly(
                        """
                        areas.csv:2: 'area': found '4,1', expected a number
                          what to do: write a dot as decimal mark and no thousands marks; or, if all numbers of the table are written like this, say decimal: ',' at it""",
                        """
                        areas.csv:3: 'area': found 'NaN', expected a number
                          what to do: leave the cell empty where there is no number""",
                        """
                        areas.csv:4: 'area': found '1,234.5', expected a number
                          what to do: take the thousands marks out; or, if all numbers of the table are written like this, say decimal: '.' and thousands: ',' at it""",
                        """
                        areas.csv:5: 'area': found '12 counts', expected a number
                          what to do: write the number alone; a unit belongs into the heading""");
    }

    @Test
    void manyBadCellsOfOneColumnAreCountedAfterTheFirstTen() {
        final StringBuilder areas = new StringBuilder("injection,compound,area\n");
        for (int i = 1; i <= 14; i++) {
            areas.append("A").append(i).append(",limonene,x\n");
        }
        final List<Problem> problems =
                StudyFiles.areas(areas.toString()).problems().stream()
                        .filter(p -> p.column().equals("area"))
                        .toList();

        assertThat(problems).hasSize(11);
        assertThat(problems.get(10).text())
                .isEqualTo(
                        """
                        areas.csv:12: 'area': found 4 more such cells from here on, expected cells as above
                          what to do: mend the column as a whole""");
    }

    @Test
    void theFirstDataRowTooMustBeAsWideAsTheHeader() {
        assertThat(areaTexts("injection,compound,area\nA1,limonene\nA1,linalool,1,2\n"))
                .containsExactly(
                        """
                        areas.csv:2: found 2 cells, expected 3 cells, as in the header
                          what to do: add or remove cells; a text that holds the character between cells needs quotes around it""",
                        """
                        areas.csv:3: found 4 cells, expected 3 cells, as in the header
                          what to do: add or remove cells; a text that holds the character between cells needs quotes around it""");
    }

    @Test
    void aQuoteThatIsNotClosedIsToldAtTheRowWhereItBegins() {
        assertThat(areaTexts("injection,compound,area\nA1,limonene,1\n\"A1,linalool,2\n"))
                .containsExactly(
                        """
                        areas.csv:3: found a quote that is not closed, expected quotes in pairs around a whole cell
                          what to do: close the quote; a quote inside a quoted cell is written twice""");
    }

    @Test
    void textBehindAClosingQuoteIsTold() {
        assertThat(areaTexts("injection,compound,area\nA1,\"limonene\"x,1\n"))
                .containsExactly(
                        """
                        areas.csv:2: found text behind a closing quote, or a cell without end, expected quotes in pairs around a whole cell
                          what to do: close the quote; a quote inside a quoted cell is written twice""");
    }

    @Test
    void anEmptyFileIsAProblem() {
        assertThat(areaTexts(""))
                .containsExactly(
                        """
                        areas.csv: found an empty file, expected a header and rows
                          what to do: export the table again""");
    }

    @Test
    void aHeaderAloneIsAProblem() {
        assertThat(areaTexts("injection,compound,area\n,,\n"))
                .containsExactly(
                        """
                        areas.csv:2: found a header without rows, expected a header and rows
                          what to do: export the table again""");
    }

    @Test
    void quotedNewlinesByteOrderMarkAndWindowsLineEndsChangeNothingButTheLine() {
        final String text =
                "\ufeffinjection,compound,area,remark\r\nA1,limonene,10.5,\"two\r\nlines, one cell\"\r\n"
                        + "A1,linalool,20,\r\nA2,limonene,-0.5,\r\n\r\nA2,\"linalool\",n.a.,\"a \"\"b\"\"\"\r\n";
        final InjectionTable table = StudyFiles.areas(text).read().table();

        assertThat(table.area(0)).isEqualTo(10.5);
        assertThat(table.label("remark", 0)).isEqualTo("two\r\nlines, one cell");
        assertThat(table.label("remark", 3)).isEqualTo("a \"b\"");
        assertThat(List.of(0, 1, 2, 3).stream().map(i -> table.place(i).row()))
                .containsExactly(2, 4, 5, 7);
    }

    @Test
    void anEmptyInjectionOrCompoundIsAProblem() {
        assertThat(areaTexts("injection,compound,area\n,limonene,1\nA1, ,1\n"))
                .containsExactly(
                        """
                        areas.csv:2: 'injection': found an empty cell, expected a label
                          what to do: fill it in, or take the row out""",
                        """
                        areas.csv:3: 'compound': found an empty cell, expected a label
                          what to do: fill it in, or take the row out""");
    }

    @Test
    void twoHeadingsAlikeAreAProblem() {
        assertThat(areaTexts("injection,compound,area,day,day\nA1,limonene,1,a,b\n"))
                .containsExactly(
                        """
                        areas.csv:1: 'day': found the heading 'day' in columns 4 and 5, expected each heading once
                          what to do: give one of the columns another heading""");
    }

    @Test
    void twoColumnsForOneNameAreAProblem() {
        assertThat(
                        StudyFiles.replacing("areas.csv}", "areas.csv, columns: {batch: Lot}}")
                                .with(
                                        "studies/oil/areas.csv",
                                        "injection,compound,area,batch,Lot\nA1,limonene,1,a,b\n")
                                .texts())
                .containsExactly(
                        """
                        areas.csv:1: 'Lot': found the columns 'batch' and 'Lot' for the name 'batch', expected one column for a name
                          what to do: map one of them to another name, or give it another heading""");
    }

    @Test
    void aMappedHeadingThatTheTableLacksIsAnsweredWithTheNearestOne() {
        assertThat(
                        StudyFiles.replacing("areas.csv}", "areas.csv, columns: {area: Peak aera}}")
                                .with(
                                        "studies/oil/areas.csv",
                                        "injection,compound,Peak area\nA1,limonene,1\n")
                                .texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:4: 'tables.1.columns.area': found 'Peak aera', which is no heading of areas.csv, expected a heading of that table
                          what to do: did you mean 'Peak area'?""");
    }

    @Test
    void aMissingColumnIsAnsweredWithTheMappingThatMayBeMeant() {
        assertThat(areaTexts("Injektion,compound,area\nA1,limonene,1\n"))
                .containsExactly(
                        """
                        areas.csv:1: found no column 'injection', expected a column 'injection'
                          what to do: map the heading that holds it, perhaps columns: {injection: Injektion}""");
    }

    @Test
    void aColumnWithoutHeadingIsLeftOutAndFlagged() {
        final Study study =
                StudyFiles.areas(
                                """
                                ,injection,compound,area
                                0,A1,limonene,1
                                1,A1,linalool,1
                                2,A2,limonene,1
                                3,A2,linalool,1
                                """)
                        .read();

        assertThat(study.flags())
                .containsExactly(
                        new Flag(
                                new Place("areas.csv", 1, ""),
                                "column 1",
                                "has no heading and is left out"));
    }

    @Test
    void twoRowsOfOneInjectionAndCompoundAreToldWithBothLines() {
        assertThat(areaTexts(StudyFiles.GOOD_AREAS + "A1,linalool,20\n"))
                .containsExactly(
                        """
                        areas.csv:6: 'injection': found injection 'A1' with compound 'linalool' a second time, expected one row for each injection and compound
                          what to do: it stands in line 3 of areas.csv already: keep one of them, or give each injection a label of its own""");
    }

    @Test
    void twoRowsOfOneInjectionInAWideTableAreToldOnce() {
        assertThat(wide("injection,limonene,linalool\nA1,1,2\nA2,3,4\nA1,1,2\n").texts())
                .containsExactly(
                        """
                        areas.csv:4: 'injection': found injection 'A1' a second time, expected one row for each injection
                          what to do: it stands in line 2 of areas.csv already: keep one of them, or give each injection a label of its own""");
    }

    @Test
    void aZeroIsAQuestionAskedOnceForATable() {
        assertThat(areaTexts(StudyFiles.GOOD_AREAS.replace("20", "0").replace("-0.5", "0.0")))
                .containsExactly(
                        """
                        areas.csv:3: 'area': found an area of 0 (2 cells in all), expected an answer to: does 0 mean that the peak was measured as 0, or that none was detected?
                          what to do: add zero-means: measured, or zero-means: not-detected, at this table in the protocol""");
    }

    @Test
    void aZeroMayMeanThatNothingWasDetected() {
        final Study study =
                StudyFiles.replacing("areas.csv}", "areas.csv, zero-means: not-detected}")
                        .with("studies/oil/areas.csv", StudyFiles.GOOD_AREAS.replace("20", "0"))
                        .read();

        assertThat(study.table().state(1)).isEqualTo(State.NOT_DETECTED);
        assertThat(study.table().area(1)).isNaN();
        assertThat(StudyFiles.decisions(study))
                .containsExactly(
                        new Choice(
                                "intake",
                                "",
                                "an area of 0 in areas.csv means not detected",
                                "zero-means is stated at the table; areas of 0 in it: 1",
                                "as stated in the protocol"));
    }

    @Test
    void aZeroMayBeMeasured() {
        final InjectionTable table =
                StudyFiles.replacing("areas.csv}", "areas.csv, zero-means: measured}")
                        .with("studies/oil/areas.csv", StudyFiles.GOOD_AREAS.replace("20", "-0"))
                        .read()
                        .table();

        assertThat(table.state(1)).isEqualTo(State.MEASURED);
        assertThat(table.area(1)).isEqualTo(0.0);
    }

    @Test
    void peaksOfALongTableThatAreNotInTheStudyAreIgnoredAndCounted() {
        final Study study =
                StudyFiles.areas(
                                StudyFiles.GOOD_AREAS
                                        + "A1,camphor,0\nA2,camphor,x\nA1,borneol,3\n")
                        .read();
        final Place place = new Place("areas.csv", 0, "compound");

        assertThat(study.table().size()).isEqualTo(4);
        assertThat(study.flags())
                .contains(
                        new Flag(
                                place,
                                "borneol",
                                "a peak that is not in the study is ignored (1 row)"),
                        new Flag(
                                place,
                                "camphor",
                                "a peak that is not in the study is ignored (2 rows)"));
    }

    @Test
    void anInjectionThatHasOnlyPeaksOutsideTheStudyStaysWithAbsentRows() {
        final InjectionTable table =
                StudyFiles.areas(StudyFiles.GOOD_AREAS + "A3,camphor,5\n")
                        .with("studies/oil/runs.csv", StudyFiles.GOOD_RUNS + "A3,blank,F3,\n")
                        .read()
                        .table();

        assertThat(table.size()).isEqualTo(6);
        assertThat(table.state(4)).isEqualTo(State.ABSENT);
        assertThat(table.label("series", 5)).isEqualTo("blank");
    }

    @Test
    void columnsOfNumbersInAWideTableThatAreNotInTheStudyAreFlaggedAsPeaks() {
        final Study study =
                wide("injection,limonene,linalool,camphor,remark\nA1,1,2,3,ok\nA2,3,4,nd,\n")
                        .read();

        assertThat(study.table().columns()).doesNotContain("camphor", "remark");
        assertThat(study.flags())
                .containsExactly(
                        new Flag(
                                new Place("areas.csv", 0, "camphor"),
                                "camphor",
                                "a column of numbers that is not in the study is ignored"));
    }

    @Test
    void aWideTableMustHaveEveryCompound() {
        assertThat(wide("injection,limonene,linalol\nA1,1,2\nA2,3,4\n").texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:6: 'compounds.targets.2': found the compound 'linalool', which areas.csv does not have, expected a compound as the table names it
                          what to do: did you mean 'linalol'?""");
    }

    @Test
    void aLongTableMustHaveEveryCompound() {
        assertThat(areaTexts(StudyFiles.GOOD_AREAS.replace("linalool", "linalol")))
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:6: 'compounds.targets.2': found the compound 'linalool', which areas.csv does not have, expected a compound as the table names it
                          what to do: did you mean 'linalol'?""");
    }

    @Test
    void aLongTableReadAsWideIsTold() {
        assertThat(wide("injection,compound,area\nA1,limonene,1\n").texts())
                .contains(
                        """
                        areas.csv:1: 'compound': found a column 'compound', expected a wide table: one column for each compound
                          what to do: say form: long if each row is one peak""");
    }

    @Test
    void columnsThatTheMeasurandNamesAreNumbersAndOthersLabels() {
        final String areas =
                """
                injection,compound,area,oil,tray
                A1,limonene,1,99.5,01
                A1,linalool,2,99.5,01
                A2,limonene,3,nd,02
                A2,linalool,4,,02
                """;
        final InjectionTable table =
                StudyFiles.adding(
                                """
                                measurand:
                                  {name: n, unit: "1", equation: found / oil,
                                   inputs: {oil: {column: oil, unit: mg}}, results-for: {series: sample}}
                                """)
                        .with("studies/oil/areas.csv", areas)
                        .read()
                        .table();

        assertThat(table.number("oil", 0)).isEqualTo(99.5);
        assertThat(table.number("oil", 2)).isNaN();
        assertThat(table.label("tray", 0)).isEqualTo("01");
    }
}
