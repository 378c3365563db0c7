package splitledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import splitledger.study.Flag;
import splitledger.study.InjectionTable;
import splitledger.study.Place;

class QuestionsTest {
    private static final String WHERE = "{where: {series: calibration}}";

    private static StudyFiles where(String where) {
        return StudyFiles.replacing(WHERE, "{where: " + where + "}");
    }

    @Test
    void theMeaningOfAPreparationIsAskedWithBothRemedies() {
        assertThat(StudyFiles.replacing(", preparation: Flask", "").texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:7: 'characteristics': found no column 'preparation', which calibration must know, expected an answer to: which injections are of one independently made solution?
                          what to do: map the column that tells flasks apart (columns: {preparation: HEADING}); or, if every injection was of a solution made for it alone, say conventions: {preparation: each-injection}""");
    }

    @Test
    void characteristicsThatDoNotNeedPreparationsDoNotAsk() {
        final InjectionTable table =
                StudyFiles.protocol(
                                StudyFiles.GOOD_PROTOCOL
                                        .replace(", preparation: Flask", "")
                                        .replace("calibration: {where", "losses: {where"))
                        .read()
                        .table();

        assertThat(table.has("preparation")).isFalse();
    }

    @Test
    void aPreparationHasOneMeaningOnly() {
        assertThat(StudyFiles.adding("conventions: {preparation: each-injection}\n").texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:9: 'conventions.preparation': found each-injection beside a column 'preparation', expected one meaning of a preparation
                          what to do: take the convention out, or map the column to another name""");
    }

    @Test
    void theConventionOfASplitRatioIsAsked() {
        final String runs =
                "injection,Experiment,Flask,split_ratio\nA1,calibration,F1,50\nA2,sample,F2,50\n";
        assertThat(StudyFiles.good().with("studies/oil/runs.csv", runs).texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml: 'conventions': found no key 'split-ratio' though runs.csv has a column 'split_ratio', expected an answer to: is it (vent + column flow)/column flow, or vent flow/column flow?
                          what to do: add split-ratio: total-to-column, or split-ratio: vent-to-column""");
        assertThat(
                        StudyFiles.adding("conventions: {split-ratio: vent-to-column}\n")
                                .with("studies/oil/runs.csv", runs)
                                .read()
                                .protocol()
                                .conventions()
                                .splitRatio())
                .isEqualTo("vent-to-column");
    }

    @Test
    void aColumnThatNoTableHasIsAnsweredWithTheNearestOne() {
        assertThat(where("{serie: calibration}").texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:8: 'characteristics.calibration.where.serie': found the column 'serie', which no table has, expected a column of the tables
                          what to do: did you mean 'series'?""");
    }

    @Test
    void factorsAndColumnsOfInputsMustBeInATableToo() {
        assertThat(
                        StudyFiles.adding(
                                        """
                                          repeatability: {where: {series: sample}, factors: [series, analyts]}
                                        measurand:
                                          {name: n, unit: "1", equation: found / oil, inputs: {oil: {column: oil, unit: mg}}}
                                        """)
                                .problems())
                .extracting(p -> p.row() + " " + p.column() + " " + p.found())
                .containsExactly(
                        "9 characteristics.repeatability.factors the column 'analyts', which no table has",
                        "11 measurand.inputs.oil.column the column 'oil', which no table has");
    }

    @Test
    void conditionsThatNoRowMeetsAreAnsweredWithTheLabelsOfTheColumn() {
        assertThat(where("{series: calibratoin}").texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:8: 'characteristics.calibration.where': found no row where series is calibratoin, expected at least one row
                          what to do: the column 'series' holds: calibration, sample""");
    }

    @Test
    void conditionsThatAreMetOnlyOneByOneAreTold() {
        assertThat(where("{series: calibration, level: ''}").texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:8: 'characteristics.calibration.where': found no row where series is calibration, level is , expected at least one row
                          what to do: each condition alone is met by rows, all together by none""");
    }

    @Test
    void otherOptionsThatAreConditionsAreCheckedToo() {
        assertThat(
                        StudyFiles.adding(
                                        """
                                          recovery: {where: {series: sample}, native: {series: native}}
                                        measurand: {name: n, unit: "1", equation: found, results-for: {series: result}}
                                        """)
                                .problems())
                .extracting(p -> p.row() + " " + p.column() + " " + p.found())
                .containsExactly(
                        "9 characteristics.recovery.native no row where series is native",
                        "10 measurand.results-for no row where series is result");
    }

    @Test
    void boundsNeedAColumnOfNumbers() {
        assertThat(where("{level: {at-least: 1}}").texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:8: 'characteristics.calibration.where.level': found bounds on the column 'level', which holds labels, expected labels, or a column of numbers
                          what to do: list the labels""");
    }

    @Test
    void oneLabelOfSeveralThatNoRowHasIsFlagged() {
        assertThat(where("{series: [calibration, blank]}").read().flags())
                .contains(
                        new Flag(
                                new Place(
                                        StudyFiles.PROTOCOL,
                                        8,
                                        "characteristics.calibration.where"),
                                "series",
                                "no row where series is blank"));
    }

    @Test
    void exclusionsThatMatchNothingAreRefused() {
        assertThat(
                        StudyFiles.adding(
                                        """
                                        exclusions:
                                          - {injection: A11, reason: r, who: w}
                                          - {injection: A1, compound: linalol, reason: r, who: w}
                                        """)
                                .texts())
                .containsExactly(
                        """
                        studies/oil/protocol.yaml:10: 'exclusions.1': found the injection 'A11', which no table has, expected an injection of the tables
                          what to do: did you mean 'A1'?""",
                        """
                        studies/oil/protocol.yaml:11: 'exclusions.2': found the compound 'linalol', which is not in the study, expected a compound of the study, or all
                          what to do: did you mean 'linalool'?""");
    }

    @Test
    void anUnquotedInjectionOfDigitsKeepsItsText() {
        final InjectionTable table =
                StudyFiles.adding("exclusions: [{injection: 0317, reason: r, who: w}]\n")
                        .with("studies/oil/areas.csv", StudyFiles.GOOD_AREAS.replace("A2", "0317"))
                        .with("studies/oil/runs.csv", StudyFiles.GOOD_RUNS.replace("A2", "0317"))
                        .read()
                        .table();

        assertThat(table.size()).isEqualTo(2);
        assertThat(table.injection(1)).isEqualTo("A1");
    }
}
