package splitledger.virtual;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import splitledger.base.FolderVault;
import splitledger.base.ProblemException;

class DesignReaderTest {

    @Test
    void everyParameterOfTheDataSetIsReadWithItsBasis() throws IOException, ProblemException {
        final Design design = FlowerOil.design();

        assertThat(design.inlet().strokeScatter())
                .isEqualTo(new Parameter(2, "%", "common practice, no source"));
        assertThat(design.inlet().strokeScatter().fraction()).isEqualTo(0.02);
        assertThat(design.losses().get(0).products()).containsOnlyKeys("myrcene", "ocimene");
        assertThat(design.oils()).hasSize(13);
        assertThatThrownBy(() -> design.inlet().runTime().fraction())
                .hasMessageContaining("unit = min");
    }

    @ParameterizedTest(name = "{0} -> {1}: {2}")
    @CsvSource(
            delimiter = '|',
            value = {
                "stroke-scatter: {value: 2, unit: \"%\" | stroke-scatter: {value: 2, unit: mL |"
                        + " the unit mL, expected %",
                "stroke-scatter: {value: 2, | stroke-scatter: {value: -2, |"
                        + " found -2, expected a number from 0 to 30",
                "stroke-scatter: {value: 2, | stroke-scater: {value: 2, |"
                        + " did you mean 'stroke-scatter'?",
                "parent: linalyl acetate | parent: linalyl acetat |"
                        + " did you mean 'linalyl acetate'?",
                "date: 2026-02-16 | date: 16.02.2026 | found 16.02.2026, expected as in 2026-02-16",
                "flasks: K, | flask: K, | 18 solutions in one flask",
                "experiment: spike, flasks: R, | experiment: spike, | neither 'flask' nor 'flasks'",
                "levels: [R0, | levels: [R9, | 'R9', expected a label that the design defines",
                "flask: S07\\n | flask: S77\\n | injection 2 of flask S77",
                "n-C14: 50 | n-C14: 51 | found 51 mg/L internal standard, expected 50",
                "splits: [10, | splits: [ten, | found ten, expected a number above 0",
                "preparations: 4 | preparations: 2.5 | found 2.5, expected a whole number",
                "basis: invented | basis: '' | found no text",
                "title: | titel: | found nothing, expected the key 'title'",
            })
    void aMistakeIsToldWithItsPlace(String right, String wrong, String told) throws IOException {
        final String whole = FlowerOil.text();
        final String before = right.replace("\\n", "\n");
        assertThat(whole).contains(before);
        final int at = whole.lastIndexOf(before);
        final String spoiled =
                whole.substring(0, at)
                        + wrong.replace("\\n", "\n")
                        + whole.substring(at + before.length());

        assertThatThrownBy(() -> FlowerOil.read(spoiled))
                .isInstanceOf(ProblemException.class)
                .hasMessageContaining("design.yaml")
                .hasMessageContaining(told);
    }

    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource(
            delimiter = '|',
            value = {
                "split: {table: total} | expected one of total-to-column, vent-to-column",
                "split: {exponent: {value: 3, unit: \"1\", basis: invented}} | from 0.5 to 1.5",
                "split: {low-ratio: {under: 3}} | the key 'under'",
                "needle: {loss: {value: 3, unit: \"%\", basis: invented}} | expected the key 'midpoint'",
                "stocks: {a: {levels: [L9], mass: {value: 1, unit: \"%\", basis: x}}} | 'L9', expected a level",
                "stocks: {a: {levels: L1, mass: {value: 1, unit: \"%\", basis: x}},"
                        + " b: {levels: L1, mass: {value: 1, unit: \"%\", basis: x}}} | 'L1' of two stocks",
                "mishaps: {aborted: {value: 60, unit: \"%\", basis: x}} | from 0 to 50",
                "instruments: {betwen: {value: 1, unit: \"%\", basis: x}} | did you mean 'between'?",
                "protocol: {tables: []} | the design decides it",
            })
    void aMistakeInAnOptionalPartIsToldWithItsPlace(String part, String told) throws IOException {
        final String spoiled = FlowerOil.text() + "\n" + part + "\n";

        assertThatThrownBy(() -> FlowerOil.read(spoiled))
                .isInstanceOf(ProblemException.class)
                .hasMessageContaining("design.yaml:2")
                .hasMessageContaining(told);
    }

    @Test
    void partsThatAreNotThereHaveNoEffect() throws ProblemException {
        final Design design = new SmallDesign().read();

        assertThat(design.losses()).isEmpty();
        assertThat(design.split().exponent().value()).isEqualTo(1);
        assertThat(design.split().protocol()).isEqualTo(Effects.Convention.TOTAL_TO_COLUMN);
        assertThat(design.detector().saturation().value()).isInfinite();
        assertThat(design.mishaps().missing().basis()).isEqualTo("not in the design");
    }

    @Test
    void allMistakesComeOutAtOnce() throws IOException {
        final String spoiled =
                FlowerOil.text()
                        .replace("stroke-scatter: {value: 2,", "stroke-scatter: {value: two,")
                        .replace("run-time: {value: 28,", "run-time: {value: 0,");

        final ProblemException met =
                catchThrowableOfType(ProblemException.class, () -> FlowerOil.read(spoiled));

        assertThat(met.problems()).hasSize(2);
        assertThat(met.problems()).allSatisfy(p -> assertThat(p.row()).isPositive());
    }

    @Test
    void aWrongDesignLeavesNothingBehind(@TempDir Path out) throws IOException {
        final FolderVault vault = FolderVault.of(out);

        assertThatThrownBy(
                        () ->
                                Simulation.write(
                                        "design.yaml",
                                        "title: too little".getBytes(StandardCharsets.UTF_8),
                                        vault))
                .isInstanceOf(ProblemException.class);
        assertThat(out).isEmptyDirectory();
    }
}
