package splitledger.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;
import splitledger.base.Digests;
import splitledger.study.Choice;
import splitledger.study.Flag;
import splitledger.study.InjectionTable;
import splitledger.study.InputFile;
import splitledger.study.Place;
import splitledger.study.State;
import splitledger.study.Study;

class StudyReaderTest {

    @Test
    void aGoodStudyHasARowForEachInjectionAndCompound() {
        final InjectionTable table = StudyFiles.good().read().table();

        assertThat(table.size()).isEqualTo(4);
        assertThat(table.columns())
                .containsExactly("area", "compound", "injection", "level", "preparation", "series");
        assertThat(row(table, 0)).isEqualTo("A1 limonene calibration F1 L1 10.5 MEASURED line 2");
        assertThat(row(table, 1)).isEqualTo("A1 linalool calibration F1 L1 20.0 MEASURED line 3");
        assertThat(row(table, 2)).isEqualTo("A2 limonene sample F2  -0.5 MEASURED line 4");
        assertThat(row(table, 3)).isEqualTo("A2 linalool sample F2  NaN NOT_DETECTED line 5");
    }

    private static String row(InjectionTable t, int i) {
        return String.join(
                " ",
                t.injection(i),
                t.compound(i),
                t.label("series", i),
                t.label("preparation", i),
                t.label("level", i),
                Double.toString(t.area(i)),
                t.state(i).name(),
                "line " + t.place(i).row());
    }

    @Test
    void everyFileIsRecordedWithItsRoleNamesAndDigest() {
        assertThat(StudyFiles.good().read().inputs())
                .containsExactly(
                        input(
                                "area-table",
                                "studies/oil/areas.csv",
                                "areas.csv",
                                StudyFiles.GOOD_AREAS),
                        input(
                                "protocol",
                                StudyFiles.PROTOCOL,
                                StudyFiles.PROTOCOL,
                                StudyFiles.GOOD_PROTOCOL),
                        input(
                                "run-list",
                                "studies/oil/runs.csv",
                                "runs.csv",
                                StudyFiles.GOOD_RUNS));
    }

    private static InputFile input(String role, String name, String written, String text) {
        return new InputFile(
                role, name, written, Digests.sha256(text.getBytes(StandardCharsets.UTF_8)));
    }

    @Test
    void whatWasNotDetectedIsFlaggedWithItsCount() {
        assertThat(StudyFiles.good().read().flags())
                .containsExactly(
                        new Flag(Place.NONE, "linalool", "not detected in 1 of 2 injections"));
    }

    @Test
    void namesAreRelativeToTheProtocolAndMayClimbWithinTheVault() {
        final Study study =
                StudyFiles.replacing("areas.csv", "../../shared/./areas.csv")
                        .without("studies/oil/areas.csv")
                        .with("shared/areas.csv", StudyFiles.GOOD_AREAS)
                        .read();

        assertThat(study.inputs())
                .contains(
                        input(
                                "area-table",
                                "shared/areas.csv",
                                "../../shared/./areas.csv",
                                StudyFiles.GOOD_AREAS));
        assertThat(study.table().place(0).file()).isEqualTo("../../shared/./areas.csv");
    }

    @Test
    void aMissingFileIsToldAtTheKeyThatNamesIt() {
        assertThat(StudyFiles.good().without("studies/oil/areas.csv").texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:4: 'tables.1.file': found 'areas.csv', which is not there, expected a file that can be read
                          what to do: names are relative to the folder of the protocol: check name and folder""");
    }

    @Test
    void aNameThatLeadsOutsideIsRefused() {
        assertThat(StudyFiles.replacing("areas.csv", "../../../areas.csv").texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:4: 'tables.1.file': found '../../../areas.csv', which leads outside the folder that may be read, expected a file below that folder
                          what to do: start the program in a folder that holds both, or put the file beside the protocol""");
    }

    @Test
    void anAbsoluteNameIsRefused() {
        assertThat(StudyFiles.replacing("areas.csv", "\"C:/data/areas.csv\"").texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:4: 'tables.1.file': found 'C:/data/areas.csv', expected a name relative to the protocol
                          what to do: put the file beside the protocol and name it from there""");
    }

    @Test
    void aNameWithBackslashesIsAnsweredWithTheOneWithSlashes() {
        assertThat(StudyFiles.replacing("areas.csv", "data\\areas.csv").texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:4: 'tables.1.file': found 'data\\areas.csv', expected a name with / between folders
                          what to do: write 'data/areas.csv'""");
    }

    @Test
    void aMissingProtocolIsAProblemToo() {
        assertThat(StudyFiles.good().without(StudyFiles.PROTOCOL).texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml: found no such file, expected a protocol that can be read
                          what to do: check name and folder""");
    }

    @Test
    void problemsOfProtocolAndSeveralTablesAreToldInOneGo() {
        final List<String> texts =
                StudyFiles.protocol(StudyFiles.GOOD_PROTOCOL + "titel: x\n")
                        .with("studies/oil/areas.csv", "injection,compound,area\nA1,limonene,x\n")
                        .with(
                                "studies/oil/runs.csv",
                                "injection,Experiment,Flask\nA1,calibration\n")
                        .texts();

        assertThat(texts)
                .containsExactly(
                        """
                        areas.csv:2: 'area': found 'x', expected a number
                          what to do: write a number, or leave the cell empty""",
                        """
                        runs.csv:2: found 2 cells, expected 3 cells, as in the header
                          what to do: add or remove cells; a text that holds the character between cells needs quotes around it""",
                        """
                        studies/oil/protocol.yaml:9: 'titel': found the unknown key 'titel', expected one of the keys that may stand here
                          what to do: did you mean 'title'?""");
    }

    @Test
    void withoutItsSchemaTheProgramIsAtFault() {
        assertThatThrownBy(() -> ProtocolSchema.read("/splitledger/no-such.schema.json"))
                .isInstanceOf(IllegalStateException.class)
                .hasMessage("the resource /splitledger/no-such.schema.json is missing");
    }

    @Test
    void aBudgetNeedsNeitherTablesNorCompounds() {
        final Study study =
                StudyFiles.protocol(
                                """
                                splitledger: 1
                                title: A dilution
                                purpose: budget
                                measurand:
                                  {name: volume, unit: mL, equation: V, inputs: {V: {value: 10 mL}}}
                                """)
                        .read();

        assertThat(study.table().size()).isZero();
        assertThat(study.compounds().all()).isEmpty();
        assertThat(study.protocol().measurand()).isPresent();
    }

    @Test
    void anythingElseNeedsTablesAndCompounds() {
        assertThat(StudyFiles.protocol("splitledger: 1\ntitle: x\n").texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:1: found no key 'compounds', expected the compounds of the study
                          what to do: add compounds with targets""",
                        """
                        studies/oil/protocol.yaml:1: found no key 'tables', expected the tables of injections
                          what to do: add tables, each with its file""");
    }

    @Test
    void aRowThatALongTableLacksIsAbsentAndKeepsTheLabelsOfItsInjection() {
        final Study study =
                StudyFiles.areas(
                                """
                                injection,compound,area,batch,retention,inlet_temperature
                                A1,limonene,10,B7,4.2,250
                                A2,limonene,11,B8,4.2,250
                                A2,linalool,12,B8,5.1,250
                                """)
                        .read();
        final InjectionTable table = study.table();

        assertThat(table.compound(1)).isEqualTo("linalool");
        assertThat(table.state(1)).isEqualTo(State.ABSENT);
        assertThat(table.area(1)).isNaN();
        assertThat(table.label("batch", 1)).isEqualTo("B7");
        assertThat(table.number("inlet_temperature", 1)).isEqualTo(250);
        assertThat(table.number("retention", 1)).isNaN();
        assertThat(table.place(1)).isEqualTo(new Place("areas.csv", 2, ""));
        assertThat(study.flags())
                .containsExactly(new Flag(Place.NONE, "linalool", "no row in 1 of 2 injections"));
    }

    @Test
    void injectionsStandInRunOrderWhereATableTellsIt() {
        final InjectionTable table =
                StudyFiles.good()
                        .with(
                                "studies/oil/runs.csv",
                                "injection,Experiment,Flask,order\nA1,calibration,F1,2\nA2,sample,F2,1\n")
                        .read()
                        .table();

        assertThat(table.injection(0)).isEqualTo("A2");
        assertThat(table.injection(2)).isEqualTo("A1");
        assertThat(table.compound(2)).isEqualTo("limonene");
    }

    @Test
    void severalTablesOfAreasAreStacked() {
        final InjectionTable table =
                StudyFiles.replacing(
                                "- {file: areas.csv}", "- {file: areas.csv}\n  - {file: more.csv}")
                        .with("studies/oil/more.csv", "injection,compound,area\nA3,linalool,7\n")
                        .with("studies/oil/runs.csv", StudyFiles.GOOD_RUNS + "A3,sample,F3,\n")
                        .read()
                        .table();

        assertThat(table.size()).isEqualTo(6);
        assertThat(table.state(4)).isEqualTo(State.ABSENT);
        assertThat(table.area(5)).isEqualTo(7);
        assertThat(table.place(5)).isEqualTo(new Place("more.csv", 2, ""));
    }

    @Test
    void exclusionsAreTakenOutOfTheTable() {
        final Study study =
                StudyFiles.adding(
                                """
                                exclusions:
                                  - {injection: A2, compound: linalool, reason: overlap, who: M. Invented}
                                """)
                        .read();

        assertThat(study.table().size()).isEqualTo(3);
        assertThat(study.protocol().exclusions()).hasSize(1);
    }

    @Test
    void eachInjectionAsItsOwnPreparationIsAStatedChoice() {
        final Study study =
                StudyFiles.protocol(
                                StudyFiles.GOOD_PROTOCOL.replace(", preparation: Flask", "")
                                        + "conventions: {preparation: each-injection}\n")
                        .read();

        assertThat(study.table().label("preparation", 2)).isEqualTo("A2");
        assertThat(StudyFiles.decisions(study))
                .containsExactly(
                        new Choice(
                                "intake",
                                "",
                                "every injection is a preparation of its own",
                                "conventions say preparation: each-injection",
                                "as stated in the protocol"));
    }
}
