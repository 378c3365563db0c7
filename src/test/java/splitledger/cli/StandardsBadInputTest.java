package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Mistakes in how the calibrants were made: exit 2, where and what to do, nothing written. */
class StandardsBadInputTest {
    private static final String HEAD =
            """
            conventions: {amount-unit: mg/L}
            characteristics: {calibration: {where: {series: calibration}}}
            standards:
            """;
    private static final String STOCK = "  stock: {weighed: w.csv, into: flask 100 mL A}\n";
    private static final String LEVELS =
            """
              L1: {take: 10 mL, of: stock, with: pipette 10 mL A, into: flask 100 mL A}
              L2: {take: 20 mL, of: stock, with: pipette 20 mL A, into: flask 100 mL A}
              L3: {take: 30 mL, of: stock, with: burette 50 mL A, into: flask 100 mL A}
            """;

    @TempDir Path folder;
    private Bench bench;

    @BeforeEach
    void newBench() {
        bench = new Bench(folder);
        for (int i = 1; i <= 3; i++) {
            bench.row("calibration", "p" + i, "L" + i, "", 10.0 * i + i % 2);
        }
        weighings("compound,mass,mass_u,purity,purity_half_width\nc,10,0.05,0.99,0.005\n");
    }

    private void weighings(String text) {
        bench.write("w.csv", text);
    }

    private void refused(String standards, String... words) {
        final Bench.Ran ran = bench.evaluate(HEAD + standards);
        assertThat(ran.exit()).as(ran.err()).isEqualTo(2);
        assertThat(ran.err()).contains(words).contains("found", "expected").doesNotContain("\tat ");
        assertThat(bench.leftSomething()).isFalse();
    }

    @Test
    void aGoodBlockIsNotRefused() {
        assertThat(bench.evaluate(HEAD + STOCK + LEVELS))
                .extracting(Bench.Ran::exit, Bench.Ran::err)
                .containsExactly(0, "");
    }

    @Test
    void glasswareThatTheListDoesNotHave() {
        refused(
                STOCK.replace("100 mL A", "100 ml A") + LEVELS,
                "protocol.yaml:8",
                "flask 100 ml A",
                "did you mean 'flask 100 mL A'");
    }

    @Test
    void aPipetteOfOneMarkMeasuresOneVolume() {
        refused(
                STOCK + LEVELS.replace("take: 20 mL", "take: 15 mL"),
                "L2.take",
                "15 mL with 'pipette 20 mL A'",
                "20 mL, the one volume");
    }

    @Test
    void aBuretteMeasuresNoMoreThanItHolds() {
        refused(STOCK + LEVELS.replace("30 mL", "60 mL"), "L3.take", "no more than 50 mL");
    }

    @Test
    void aBuretteIsNotMadeUpToAMark() {
        refused(STOCK.replace("flask 100 mL A", "burette 50 mL A") + LEVELS, "stock.into");
    }

    @Test
    void aVolumeWithoutItsUnit() {
        refused(STOCK + LEVELS.replace("take: 10 mL", "take: 10"), "L1.take", "mL, uL or L");
    }

    @Test
    void aSolutionOfOneThatIsNotThere() {
        refused(STOCK + LEVELS.replaceFirst("of: stock", "of: stok"), "L1.of", "'stock'");
    }

    @Test
    void solutionsThatAreMadeOfEachOther() {
        refused(
                """
                  L1: {take: 10 mL, of: L2, with: pipette 10 mL A, into: flask 100 mL A}
                  L2: {take: 10 mL, of: L1, with: pipette 10 mL A, into: flask 100 mL A}
                """,
                "is made of");
    }

    @Test
    void aSolutionMadeOfItself() {
        refused(STOCK + LEVELS.replaceFirst("of: stock", "of: L1"), "L1.of", "is made of 'L1'");
    }

    @Test
    void aWeighingWithoutItsUncertainty() {
        weighings("compound,mass,purity,purity_u\nc,10,0.99,0.001\n");
        refused(STOCK + LEVELS, "w.csv:2", "mass_u");
    }

    @Test
    void aPurityAboveOneWithoutItsSign() {
        weighings("compound,mass,mass_u,purity,purity_u\nc,10,0.1,99.5,0.1\n");
        refused(STOCK + LEVELS, "w.csv:2", "99.5", "99.5 %");
    }

    @Test
    void aCompoundWeighedTwice() {
        weighings("compound,mass,mass_u,purity,purity_u\nc,10,0.1,1,0\nc,11,0.1,1,0\n");
        refused(STOCK + LEVELS, "w.csv:3", "a second time");
    }

    @Test
    void aTableOfWeighingsThatIsNotThere() {
        refused(STOCK.replace("w.csv", "lost.csv") + LEVELS, "lost.csv");
    }

    @Test
    void aTemperatureThatIsNone() {
        refused("  laboratory: warm\n" + STOCK + LEVELS, "20 degC +- 3");
    }

    @Test
    void twoTemperatures() {
        refused(
                "  laboratory: 20 degC +- 3\n"
                        + STOCK.replace("}", ", laboratory: 21 degC +- 3}")
                        + LEVELS,
                "a second temperature");
    }

    @Test
    void aSolventThatTheListDoesNotHave() {
        refused(
                "  laboratory: 20 degC +- 3\n  solvent: hexan\n" + STOCK + LEVELS,
                "did you mean 'hexane'");
    }

    @Test
    void aPieceWithTwoUncertainties() {
        refused(
                "  pieces: {F: {is: flask 100 mL A, half-width: 0.1 mL, standard-uncertainty: 0.1 mL}}\n"
                        + STOCK
                        + LEVELS,
                "half-width or standard-uncertainty");
    }

    @Test
    void aRecipeThatIsWeighedAndDiluted() {
        refused(
                STOCK.replace("}", ", take: 1 mL, of: stock, with: pipette 1 mL A}") + LEVELS,
                "exactly one of weighed, take, portions");
    }

    @Test
    void noLevelOfTheTablesIsASolution() {
        refused(STOCK + LEVELS.replace("L", "K").replace("mK", "mL"), "L1, L2, L3");
    }

    @Test
    void anAmountUnitThatIsNoMassConcentration() {
        final Bench.Ran ran = bench.evaluate(HEAD.replace("mg/L", "mmol/L") + STOCK + LEVELS);
        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.err()).contains("mmol/L", "mg/L, ug/mL");
    }

    /** 10 mg x 0.99 in 100 mL, 10 mL of it in 100 mL: 9.9 mg/L, not 10.9. */
    @Test
    void amountsOfTheTableThatContradictAreAskedAbout() {
        bench.row("calibration", "p4", "L1", "10.9", 11);
        refused(STOCK + LEVELS, "areas.csv:5", "10.9 mg/L of c in L1", "9.9", "which is right?");
    }

    @Test
    void amountsOfTheTableThatAgreeButForRoundingAreReplaced() {
        bench.row("calibration", "p4", "L1", "9.9", 11);
        assertThat(bench.evaluate(HEAD + STOCK + LEVELS))
                .extracting(Bench.Ran::exit, Bench.Ran::err)
                .containsExactly(0, "");
        assertThat(bench.number("calibration", "level=L1", "standard-amount", "", "value"))
                .isCloseTo(9.9, org.assertj.core.api.Assertions.within(1e-9));
    }
}
