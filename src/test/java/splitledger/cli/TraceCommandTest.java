package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import splitledger.dossier.DossierPack;

/**
 * One injection worked by hand. The line is exact: areas 16, 23, 36, 45, 55 at 1 to 5 are 5 + 10 x
 * with residuals 1, -2, 1, 0, 0, whose sum and whose sum of products with x are zero.
 */
class TraceCommandTest {
    @TempDir Path folder;
    private String dossier = "";

    @BeforeEach
    void aDossier() {
        dossier = folder.resolve("out").toString();
        final Bench bench = new Bench(folder);
        final double[] y = {16, 23, 36, 45, 55};
        for (int i = 0; i < y.length; i++) {
            bench.row("calibration", "k" + i, "L" + (i + 1), String.valueOf(i + 1), y[i]);
        }
        bench.row("sample", "s", "", "", 35).row("sample", "s", "", "", 37.5);
        final Bench.Ran ran =
                bench.evaluate(
                        "characteristics: {calibration: {where: {series: calibration}, weights: none}}\n"
                                + "measurand: {name: content, unit: mg, equation: found * V,"
                                + " results-for: {series: sample},"
                                + " inputs: {V: {value: 2, standard-uncertainty: 0.01}}}\n");
        assertThat(ran).extracting(Bench.Ran::exit, Bench.Ran::err).containsExactly(0, "");
    }

    private Bench.Ran trace(String compound, String injection) {
        return Bench.command("trace", compound, "--injection", injection, "--in", dossier);
    }

    @Test
    void everyStepFromTheAreaToTheResultHasItsNumbers() {
        final Bench.Ran ran = trace("c", "i007");

        assertThat(ran.exit()).as(ran.err()).isZero();
        assertThat(ran.out())
                .containsSubsequence(
                        "c in injection i007",
                        "area of c in areas.csv, line 8",
                        "area = 37.5",
                        "Injections of preparation s",
                        "sum / number = (35 + 37.5) / 2 = 36.25",
                        "Calibration line of c",
                        "intercept = 5",
                        "slope = 10",
                        "budget: result",
                        "(response - intercept) / slope = (36.25 - 5) / 10 = 3.125",
                        "content",
                        "found * V = 3.125 * 2 = 6.25",
                        "with two guard digits: 6.2500 mg",
                        "rounded: 6.25 mg",
                        "Other findings that rest on this injection");
    }

    @Test
    void anInjectionOfACalibrantHasItsResponseAndWhatRestsOnIt() {
        final Bench.Ran ran = trace("c", "i002");

        assertThat(ran.exit()).as(ran.err()).isZero();
        assertThat(ran.out()).contains("area = 23").contains("calibration: slope");
    }

    @Test
    void whatIsNotInTheStudyIsRefusedWithTheNearestName() {
        assertThat(trace("c", "i077").exit()).isEqualTo(2);
        assertThat(trace("c", "i077").err()).contains("'i077'").contains("did you mean 'i00");
        assertThat(trace("d", "i007").err()).contains("a compound of the study");
        assertThat(
                        Bench.command(
                                        "trace",
                                        "c",
                                        "--injection",
                                        "i001",
                                        "--in",
                                        folder.toString())
                                .exit())
                .isEqualTo(2);
    }

    @Test
    void aPackedDossierIsTracedAsItsFolderIs() throws IOException {
        final String expected = trace("c", "i007").out();
        final String archive = DossierPack.write(Path.of(dossier)).toString();
        Files.move(Path.of(dossier), folder.resolve("elsewhere"));
        final Bench.Ran ran = Bench.command("trace", "c", "--injection", "i007", "--in", archive);

        assertThat(ran.exit()).as(ran.err()).isZero();
        assertThat(ran.out()).isEqualTo(expected);
    }
}
