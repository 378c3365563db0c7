package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static splitledger.statistics.PrecisionSets.factor;
import static splitledger.statistics.PrecisionSets.letters;
import static splitledger.statistics.PrecisionSets.prepared;
import static splitledger.statistics.PrecisionSets.structure;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import splitledger.statistics.ScatterStructure.Confounded;
import splitledger.statistics.ScatterStructure.Kind;
import splitledger.statistics.ScatterStructure.Relation;

class ScatterStructureTest {

    @Test
    void twoAnalystsEveryDayAreCrossed() {
        final ScatterStructure found =
                prepared(
                        factor("p", 24, 2, 2),
                        factor("day", 24, 8, 3),
                        factor("analyst", 24, 4, 2));

        assertThat(found.names())
                .containsExactly("day", "analyst", "day:analyst", "preparation", "injection");
        assertThat(found.relations()).containsExactly(new Relation("day", "analyst", Kind.CROSSED));
        assertThat(found.tree())
                .containsExactlyInAnyOrderEntriesOf(
                        Map.of("day:analyst", "day", "preparation", "day:analyst"));
        assertThat(found.confounded()).isEmpty();
        assertThat(found.terms().get(3).levels()).isEqualTo(12);
    }

    @Test
    void anAnalystWithDaysOfHisOwnHoldsThem() {
        final ScatterStructure found =
                structure(factor("day", 12, 2, 6), factor("analyst", 12, 6, 2));

        assertThat(found.names()).containsExactly("day", "analyst", "injection");
        assertThat(found.relations()).containsExactly(new Relation("day", "analyst", Kind.NESTED));
        assertThat(found.tree()).containsExactlyEntriesOf(Map.of("day", "analyst"));
    }

    /** The same label of a preparation under two days is another preparation. */
    @Test
    void preparationsLieWithinTheCellUnlessToldOtherwise() {
        final ScatterFactor preparation = factor("p", 12, 2, 2);
        final ScatterFactor day = factor("day", 12, 4, 3);

        assertThat(prepared(preparation, day).terms().get(1).levels()).isEqualTo(6);
        final ScatterStructure unique =
                ScatterStructure.read(
                        List.of(day), Optional.of(preparation), Map.of("preparation", ""));
        assertThat(unique.terms().get(1).levels()).isEqualTo(2);
    }

    @Test
    void anOverrideReadsLabelsWithinAnotherFactor() {
        final ScatterStructure found =
                ScatterStructure.read(
                        List.of(factor("day", 12, 4, 3), factor("analyst", 12, 2, 2)),
                        Optional.empty(),
                        Map.of("analyst", "day"));

        assertThat(found.names()).containsExactly("day", "analyst", "injection");
        assertThat(found.terms().get(1).levels()).isEqualTo(6);
        assertThat(found.relations()).containsExactly(new Relation("analyst", "day", Kind.NESTED));
    }

    @Test
    void preparationsInjectedOnceAreTheResidual() {
        final ScatterStructure found = prepared(factor("p", 12, 1, 4), factor("day", 12, 4, 3));

        assertThat(found.names()).containsExactly("day", "preparation");
        assertThat(found.repeatability(3)).containsExactly(0, 1);
    }

    @Test
    void whatChangesTogetherIsConfounded() {
        final ScatterStructure found =
                structure(
                        factor("day", 12, 4, 3),
                        factor("column", 12, 4, 3),
                        factor("instrument", 12, 12, 1));

        assertThat(found.names()).containsExactly("day", "injection");
        assertThat(found.confounded())
                .containsExactly(new Confounded("column", "day"), new Confounded("instrument", ""));
    }

    @Test
    void onePreparationACellStandsForTheCombinationAndOneADayForNothing() {
        final ScatterStructure cell =
                prepared(
                        factor("p", 12, 12, 1),
                        factor("day", 12, 4, 3),
                        factor("analyst", 12, 2, 2));
        assertThat(cell.names()).containsExactly("day", "analyst", "preparation", "injection");
        assertThat(cell.confounded()).containsExactly(new Confounded("day:analyst", "preparation"));

        final ScatterStructure day = prepared(factor("p", 12, 12, 1), factor("day", 12, 4, 3));
        assertThat(day.names()).containsExactly("day", "injection");
        assertThat(day.confounded()).containsExactly(new Confounded("preparation", "day"));
    }

    @Test
    void aCombinationWithoutDegreesOfFreedomIsLeftOut() {
        // days a b, analysts x y, but never b with y: three cells, nothing left for day:analyst
        final ScatterStructure read =
                structure(
                        ScatterFactor.of("day", letters("aaaabb")),
                        ScatterFactor.of("analyst", letters("xxyyxx")));
        final ScatterStructure kept = Outcomes.value(ScatterDesign.of(read, 6)).structure();

        assertThat(read.names()).contains("day:analyst");
        assertThat(kept.names()).containsExactly("day", "analyst", "injection");
        assertThat(kept.confounded())
                .containsExactly(new Confounded("day:analyst", "the terms before it"));
    }

    @Test
    void sumsCountWhatChangesUnderTheirConditions() {
        final ScatterStructure found = prepared(factor("p", 12, 2, 2), factor("day", 12, 4, 3));

        assertThat(found.repeatability(2)).containsExactly(0, 1, 0.5);
        assertThat(found.intermediate(4)).containsExactly(1, 1, 0.25);
    }
}
