package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import splitledger.base.Digests;
import splitledger.dossier.DossierPack;

/** A dossier that is checked later. */
class RecheckCommandTest {
    @TempDir Path folder;
    private Path dossier = Path.of("");

    @BeforeEach
    void aDossier() {
        dossier = folder.resolve("out");
        final Bench bench = new Bench(folder);
        final double[] y = {10.1, 19.9, 30.2, 39.8, 50.1};
        for (int i = 0; i < y.length; i++) {
            bench.row("calibration", "k" + i, "L" + (i + 1), String.valueOf(i + 1), y[i]);
        }
        final Bench.Ran ran =
                bench.evaluate(
                        "characteristics: {calibration: {where: {series: calibration}, weights: none}}\n");
        assertThat(ran).extracting(Bench.Ran::exit, Bench.Ran::err).containsExactly(0, "");
    }

    private Bench.Ran recheck(String... options) {
        final String[] all = new String[options.length + 2];
        all[0] = "recheck";
        all[1] = dossier.toString();
        System.arraycopy(options, 0, all, 2, options.length);
        return Bench.command(all);
    }

    private void edit(String name, String from, String to) throws IOException {
        final Path file = dossier.resolve(name);
        final String text = Files.readString(file);
        assertThat(text).contains(from);
        Files.writeString(file, text.replace(from, to));
    }

    @Test
    void aDossierThatNobodyTouchedComesOutByteForByte() {
        final Bench.Ran ran = recheck();

        assertThat(ran.exit()).as(ran.out() + ran.err()).isZero();
        assertThat(ran.out())
                .contains("nothing differs", "this program", "0 differ", "byte for byte")
                .contains("budget-correlations.csv, budget.csv, results.csv, results.json");
    }

    @Test
    void aResultThatWasChangedIsListedWithItsPlaceAndBothNumbers() throws IOException {
        edit("results.csv", ",9.99,", ",9.98,");
        final Bench.Ran ran = recheck();

        assertThat(ran.exit()).isEqualTo(1);
        assertThat(ran.out())
                .contains("something differs")
                .contains("results.csv: 'sha256': found SHA-256")
                .contains("calibration / c /  / slope / ")
                .contains(", value: in the dossier 9.98, now 9.99");
    }

    @Test
    void inputsThatAreNotThoseOfTheEvaluationAreNotEvaluated() throws IOException {
        edit("inputs/areas.csv", "19.9", "19.8");
        final Bench.Ran ran = recheck();

        assertThat(ran.exit()).isEqualTo(1);
        assertThat(ran.out()).contains("inputs/areas.csv").contains("not computed again");
    }

    @Test
    void aFileThatIsGoneIsMissed() throws IOException {
        Files.delete(dossier.resolve("budget.csv"));
        final Bench.Ran ran = recheck();

        assertThat(ran.exit()).isEqualTo(1);
        assertThat(ran.out())
                .contains("no such file in the dossier")
                .contains("budget.csv: in the dossier no such file, now a file");
    }

    @Test
    void aManifestThatWasMadeToFitIsFoundByItsStudyDigest() throws IOException {
        edit("results.csv", ",9.99,", ",9.98,");
        final String digest = Digests.sha256(Files.readAllBytes(dossier.resolve("results.csv")));
        final Path manifest = dossier.resolve("manifest.json");
        Files.writeString(
                manifest,
                Files.readString(manifest)
                        .replaceFirst(
                                "(\"results.csv\",\\s*\"sha256\":\\s*\")[0-9a-f]{64}",
                                "$1" + digest));
        final Bench.Ran ran = recheck();

        assertThat(ran.exit()).isEqualTo(1);
        assertThat(ran.out()).contains("'studyDigest'").contains(", 1 differ");
    }

    @Test
    void numbersOfAnotherVersionNeedToAgreeToTheStatedDigitsOnly() throws IOException {
        edit("manifest.json", "\"version\": \"", "\"version\": \"0.0.");
        final Bench.Ran ran = recheck("--digits", "11");

        assertThat(ran.exit()).as(ran.out() + ran.err()).isZero();
        assertThat(ran.out()).contains("not this program", "compared to 11 significant digits");
    }

    @Test
    void aFolderWithoutManifestIsRefused() throws IOException {
        Files.delete(dossier.resolve("manifest.json"));

        assertThat(recheck().exit()).isEqualTo(2);
        assertThat(recheck().err()).contains("a folder without manifest.json");
        assertThat(Bench.command("recheck", folder.resolve("nowhere").toString()).exit())
                .isEqualTo(2);
    }

    @Test
    void digitsThatNoNumberHasAreRefused() {
        assertThat(recheck("--digits", "16").exit()).isEqualTo(2);
    }

    @Test
    void aPackedDossierIsCheckedAsItsFolderIsAndStaysPacked() throws IOException {
        final Path archive = DossierPack.write(dossier);
        final String of = recheck().out();
        Files.move(dossier, folder.resolve("elsewhere"));
        final Bench.Ran ran = Bench.command("recheck", archive.toString());

        assertThat(ran.exit()).as(ran.out() + ran.err()).isZero();
        assertThat(ran.out()).isEqualTo(of.replace(dossier.toString(), archive.toString()));
        assertThat(dossier).doesNotExist();
    }

    @Test
    void anArchiveOfSomethingElseIsRefused() throws IOException {
        Files.move(dossier.resolve("manifest.json"), dossier.resolve("other.json"));
        final Path archive = DossierPack.write(dossier);
        final Bench.Ran ran = Bench.command("recheck", archive.toString());

        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.err()).contains("an archive without manifest.json");
        final Bench.Ran protocol =
                Bench.command("recheck", folder.resolve("protocol.yaml").toString());
        assertThat(protocol.exit()).isEqualTo(2);
        assertThat(protocol.err()).contains("no zip archive");
    }
}
