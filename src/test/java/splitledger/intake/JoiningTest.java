package splitledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import splitledger.study.Flag;
import splitledger.study.InjectionTable;
import splitledger.study.Place;
import splitledger.study.Study;

class JoiningTest {
    private static final String RUNS = "studies/oil/runs.csv";
    private static final String AMOUNTS =
            """
            level,compound,amount,amount_u
            L1,limonene,5,0.1
            L1,linalool,6,0.2
            """;

    private static StudyFiles withAmounts(String amounts) {
        return StudyFiles.replacing(
                        "compounds:",
                        "  - {file: amounts.csv, joins-on: [level, compound]}\ncompounds:")
                .with("studies/oil/amounts.csv", amounts);
    }

    @Test
    void injectionsThatOneSideLacksAreListedForBothSides() {
        assertThat(
                        StudyFiles.good()
                                .with(
                                        RUNS,
                                        "injection,Experiment,Flask\nA1,calibration,F1\nA3,sample,F2\nA4,sample,F2\n")
                                .texts())
                .containsExactly(
                        """
                        runs.csv: 'injection': found no row for 1 injection of the tables of areas: A2, expected the same injections in both
                          what to do: mend the labels, or say unmatched: ignore at this table if they do not belong together""",
                        """
                        runs.csv:3: 'injection': found rows for 2 injections that no table of areas has: A3, A4, expected the same injections in both
                          what to do: mend the labels, or say unmatched: ignore at this table if they do not belong together""");
    }

    @Test
    void ofManyInjectionsTenAreNamed() {
        final StringBuilder areas = new StringBuilder(StudyFiles.GOOD_AREAS);
        for (int i = 10; i < 23; i++) {
            areas.append("B").append(i).append(",limonene,1\n");
        }

        assertThat(StudyFiles.areas(areas.toString()).texts())
                .containsExactly(
                        """
                        runs.csv: 'injection': found no row for 13 injections of the tables of areas: B10, B11, B12, B13, B14, B15, B16, B17, B18, B19 and 3 more, expected the same injections in both
                          what to do: mend the labels, or say unmatched: ignore at this table if they do not belong together""");
    }

    @Test
    void unmatchedInjectionsMayBeIgnoredAndAreThenFlagged() {
        final Study study =
                StudyFiles.replacing(
                                "joins-on: injection,", "joins-on: injection, unmatched: ignore,")
                        .with(RUNS, "injection,Experiment,Flask\nA1,calibration,F1\nA3,sample,F2\n")
                        .read();

        assertThat(study.table().label("series", 2)).isEmpty();
        assertThat(study.flags())
                .contains(
                        new Flag(
                                new Place("runs.csv", 0, "injection"),
                                "injection",
                                "no row for 1 injection of the tables of areas: A2"),
                        new Flag(
                                new Place("runs.csv", 3, "injection"),
                                "injection",
                                "rows for 1 injection that no table of areas has: A3"));
    }

    @Test
    void anInjectionTwiceInARunListIsToldWithBothLines() {
        assertThat(StudyFiles.good().with(RUNS, StudyFiles.GOOD_RUNS + "A1,sample,F9,\n").texts())
                .containsExactly(
                        """
                        runs.csv:4: 'injection': found injection 'A1' a second time, expected one row for each injection
                          what to do: it stands in line 2 already: keep one of them""");
    }

    @Test
    void labelsOtherThanInjectionsBringColumnsToEveryRowThatHasThem() {
        final InjectionTable table = withAmounts(AMOUNTS).read().table();

        assertThat(table.number("amount", 0)).isEqualTo(5);
        assertThat(table.number("amount_u", 1)).isEqualTo(0.2);
        assertThat(table.number("amount", 2)).isNaN();
    }

    @Test
    void aJoinOnLabelsFlagsWhatMatchesNothing() {
        final Study study = withAmounts(AMOUNTS.replace("L1,linalool", "L2,linalool")).read();

        assertThat(study.flags())
                .contains(
                        new Flag(
                                new Place("amounts.csv", 3, ""),
                                "level, compound",
                                "rows that belong to no injection: level 'L2' with compound 'linalool'"),
                        new Flag(
                                new Place("amounts.csv", 0, ""),
                                "level, compound",
                                "no row for level 'L1' with compound 'linalool'"));
    }

    @Test
    void theSameLabelsTwiceInATableThatJoinsAreToldWithBothLines() {
        assertThat(withAmounts(AMOUNTS + "L1,limonene,7,0.1\n").texts())
                .containsExactly(
                        """
                        amounts.csv:4: 'level, compound': found level 'L1' with compound 'limonene' a second time, expected one row for each level and compound
                          what to do: it stands in line 2 already: keep one of them""");
    }

    @Test
    void aJoinOnAColumnThatNoTableHasIsAnsweredWithTheNearestOne() {
        assertThat(
                        StudyFiles.replacing(
                                        "compounds:",
                                        "  - {file: amounts.csv, joins-on: [levl, compound]}\ncompounds:")
                                .with("studies/oil/amounts.csv", AMOUNTS.replace("level", "levl"))
                                .texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:6: 'tables.3': found a join on 'levl', a column that no table before this one has, expected a column of the tables before
                          what to do: did you mean 'level'?""");
    }

    @Test
    void aJoinThatWouldOverwriteALabelWithAnotherIsRefused() {
        assertThat(
                        StudyFiles.areas(
                                        StudyFiles.GOOD_AREAS
                                                .replace("area\n", "area,level\n")
                                                .replace("10.5\n", "10.5,L1\n")
                                                .replace("20\n", "20,L9\n")
                                                .replace("-0.5\n", "-0.5,\n")
                                                .replace("n.a.\n", "n.a.,\n"))
                                .texts())
                .containsExactly(
                        """
                        runs.csv:2: 'level': found 'L1' where another table says 'L9' (1 row in all), expected one value for a cell
                          what to do: take the column out of one table, or map it to another name""");
    }

    @Test
    void aJoinThatWouldOverwriteANumberWithAnotherIsRefused() {
        assertThat(
                        withAmounts(AMOUNTS)
                                .with(
                                        RUNS,
                                        "injection,Experiment,Flask,level,amount\nA1,calibration,F1,L1,5\nA2,sample,F2,,\n")
                                .texts())
                .containsExactly(
                        """
                        amounts.csv:3: 'amount': found '6' where another table says '5' (1 row in all), expected one value for a cell
                          what to do: take the column out of one table, or map it to another name""");
    }

    @Test
    void aTableThatJoinsBringsNoAreas() {
        assertThat(
                        StudyFiles.good()
                                .with(
                                        RUNS,
                                        "injection,Experiment,Flask,area\nA1,calibration,F1,1\nA2,sample,F2,2\n")
                                .texts())
                .containsExactly(
                        """
                        runs.csv:1: 'area': found a column 'area', expected no areas in a table that joins on labels
                          what to do: take joins-on out if it is a table of areas""");
    }

    @Test
    void keysThatDoNotFitTheKindOfTableAreRefused() {
        final List<String> texts =
                StudyFiles.replacing(
                                "compounds:",
                                """
                                  - {file: amounts.csv, joins-on: [split_ratio], unmatched: ignore, zero-means: measured, form: wide}
                                compounds:""")
                        .with("studies/oil/amounts.csv", "split_ratio,lot\n5,a\n")
                        .texts();

        assertThat(texts)
                .contains(
                        """
                        studies/oil/protocol.yaml:6: 'tables.3.unmatched': found the key 'unmatched' here, expected only together with 'joins-on: injection'
                          what to do: take it out or change it""",
                        """
                        studies/oil/protocol.yaml:6: 'tables.3.form': found the key 'form' here, expected no 'form: wide' at a table that joins on labels
                          what to do: take it out or change it""",
                        """
                        studies/oil/protocol.yaml:6: 'tables.3.zero-means': found the key 'zero-means' here, expected only at a table of areas
                          what to do: take it out or change it""",
                        """
                        studies/oil/protocol.yaml:6: 'tables.3.joins-on': found the key 'joins-on' here, expected columns of labels; 'split_ratio' holds numbers
                          what to do: take it out or change it""");
    }

    @Test
    void tablesThatJoinNeedOneToJoinTo() {
        assertThat(StudyFiles.replacing("- {file: areas.csv}\n  ", "").texts())
                .contains(
                        """
                        studies/oil/protocol.yaml:3: 'tables': found only tables that join, expected at least one table of areas
                          what to do: add the table of areas, or take joins-on out of it""");
    }
}
