package splitledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import splitledger.study.InjectionTable;
import splitledger.study.State;
import splitledger.study.Study;

/** What a table says about a peak beside its area. */
class StatesTest {
    private static StudyFiles table(String keys, String areas) {
        return StudyFiles.replacing("{file: areas.csv}", "{file: areas.csv" + keys + "}")
                .with("studies/oil/areas.csv", areas);
    }

    private static List<State> states(InjectionTable table) {
        return List.of(table.state(0), table.state(1), table.state(2), table.state(3));
    }

    @Test
    void aColumnOfStatesIsRead() {
        final InjectionTable table =
                table(
                                "",
                                """
                                injection,compound,area,state
                                A1,limonene,10.5,saturated
                                A1,linalool,20,
                                A2,limonene,-0.5,measured
                                A2,linalool,,below-threshold
                                """)
                        .read()
                        .table();

        assertThat(states(table))
                .containsExactly(
                        State.SATURATED, State.MEASURED, State.MEASURED, State.BELOW_THRESHOLD);
        assertThat(table.area(0)).as("the area that stands there is kept").isEqualTo(10.5);
        assertThat(table.area(2)).as("areas have signs").isEqualTo(-0.5);
        assertThat(table.has("state")).isFalse();
    }

    @Test
    void wordsOfTheTableCanBeMappedAndStandInTheAreaItself() {
        final Study study =
                table(
                                ", states: {saturated: [OVR, over range], aborted: stop}, columns: {state: Flag}",
                                """
                                injection,compound,area,Flag
                                A1,limonene,OVR,
                                A1,linalool,20,over range
                                A2,limonene,5,stop
                                A2,linalool,7,
                                """)
                        .read();

        assertThat(states(study.table()))
                .containsExactly(State.SATURATED, State.SATURATED, State.ABORTED, State.MEASURED);
        assertThat(study.flags())
                .anyMatch(
                        f ->
                                f.subject().equals("saturated")
                                        && f.place().row() == 2
                                        && f.what()
                                                .equals(
                                                        "2 cells from here on; no characteristic uses"
                                                                + " them"));
    }

    @Test
    void aWordThatMeansNothingIsAsked() {
        assertThat(
                        table(
                                        "",
                                        StudyFiles.GOOD_AREAS
                                                .replace("area\n", "area,state\n")
                                                .replace("10.5\n", "10.5,satturated\n")
                                                .replace("20\n", "20,\n")
                                                .replace("-0.5\n", "-0.5,\n")
                                                .replace("n.a.\n", "n.a.,\n"))
                                .texts())
                .containsExactly(
                        """
                        areas.csv:2: 'state': found 'satturated', expected one of measured, not-detected, absent, below-threshold, saturated, aborted, re-injected
                          what to do: did you mean 'saturated'? or say what it means: states: {saturated: 'satturated'}""");
    }

    @Test
    void anAreaInARowThatWasNotDetectedIsAContradiction() {
        assertThat(
                        table(
                                        "",
                                        """
                                        injection,compound,area,state
                                        A1,limonene,10,not-detected
                                        A1,linalool,1,
                                        A2,limonene,1,
                                        A2,linalool,1,
                                        """)
                                .texts())
                .containsExactly(
                        """
                        areas.csv:2: 'area': found the area '10' in a row that says not-detected, expected no area there, or another state
                          what to do: empty the cell, or correct the state""");
    }

    @Test
    void withTheThresholdOfTheIntegratorAnEmptyCellIsCensoredNotLost() {
        final Study study =
                table(", threshold: 15, zero-means: not-detected", GOOD_WITH_ZERO).read();

        assertThat(states(study.table()))
                .containsExactly(
                        State.MEASURED,
                        State.MEASURED,
                        State.BELOW_THRESHOLD,
                        State.BELOW_THRESHOLD);
        assertThat(StudyFiles.decisions(study))
                .anyMatch(
                        c ->
                                c.what()
                                        .equals(
                                                "a cell without an area in areas.csv means an area"
                                                        + " below the integrator's threshold, 15"));
        assertThat(study.flags())
                .anyMatch(
                        f ->
                                f.place().row() == 2
                                        && f.what()
                                                .equals(
                                                        "1 area lies below the threshold that is"
                                                                + " stated, kept as measured"));
    }

    private static final String GOOD_WITH_ZERO =
            "injection,compound,area\nA1,limonene,10.5\nA1,linalool,20\nA2,limonene,0\nA2,linalool,\n";

    @Test
    void aReInjectionTakesThePlaceOfTheRowItReplaces() {
        final Study study =
                table(
                                "",
                                """
                                injection,compound,area,state
                                A1,limonene,1,aborted
                                A1,linalool,2,aborted
                                A1,limonene,10.5,
                                A1,linalool,20,
                                A2,limonene,-0.5,
                                A2,linalool,5,
                                """)
                        .read();

        assertThat(study.table().area(0)).isEqualTo(10.5);
        assertThat(study.table().place(0).row()).isEqualTo(4);
        assertThat(study.flags())
                .anyMatch(
                        f ->
                                f.place().row() == 2
                                        && f.what()
                                                .equals(
                                                        "aborted: line 4 of areas.csv takes its place"));
    }

    @Test
    void aStateInTheRunListGoesForAllPeaksOfItsInjection() {
        final InjectionTable table =
                StudyFiles.good()
                        .with(
                                "studies/oil/runs.csv",
                                """
                                injection,Experiment,Flask,level,state
                                A1,calibration,F1,L1,
                                A2,sample,F2,,re-injected
                                """)
                        .read()
                        .table();

        assertThat(states(table))
                .containsExactly(
                        State.MEASURED, State.MEASURED, State.RE_INJECTED, State.RE_INJECTED);
    }
}
