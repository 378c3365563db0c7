package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import splitledger.dossier.DossierPack;

class CompareCommandTest {
    private static final String[] MEMBERS = {"n-C10", "n-C20", "n-C30"};
    private static final double[] SHIFTS = {1.00, 1.01, 0.99, 1.005, 0.995, 1.0};

    @TempDir Path folder;

    private void study(String name, double factor, double heavy, String maintenance)
            throws IOException {
        final StringBuilder table = new StringBuilder("injection,compound,area,series,occasion\n");
        for (int j = 0; j < SHIFTS.length; j++) {
            for (int i = 0; i < MEMBERS.length; i++) {
                final double area = 100 * SHIFTS[j] * factor * (i == 2 ? heavy : 1);
                table.append(j + 1).append(',').append(MEMBERS[i]).append(',').append(area);
                table.append(",ladder,whatever\n");
            }
        }
        Files.writeString(folder.resolve(name + ".csv"), table.toString());
        Files.writeString(
                folder.resolve("compounds.csv"),
                "name,boiling_point,source\nn-C10,174,x\nn-C20,344,x\nn-C30,450,x\n");
        Files.writeString(
                folder.resolve(name + ".yaml"),
                "splitledger: 1\ntitle: "
                        + name
                        + "\ntables: [{file: "
                        + name
                        + ".csv}]\ncompounds: {from: compounds.csv, targets: [n-C10], ladder: [n-C10, n-C20, n-C30]}\n"
                        + maintenance
                        + "events: [{date: 2026-03-04, what: new septum}]\n");
    }

    private static String margin(double percent) {
        return "characteristics: {maintenance: {where: {series: ladder}, margin: "
                + percent
                + "}}\n";
    }

    private Bench.Ran compare(String... options) {
        final String[] arguments = new String[5 + options.length];
        arguments[0] = "compare";
        arguments[1] = folder.resolve("first.yaml").toString();
        arguments[2] = folder.resolve("second.yaml").toString();
        arguments[3] = "--out";
        arguments[4] = folder.resolve("out").toString();
        System.arraycopy(options, 0, arguments, 5, options.length);
        return Bench.command(arguments);
    }

    @Test
    void aResponseWithinTheMarginIsRestored() throws IOException {
        study("first", 1, 1, margin(5));
        study("second", 1.002, 1, margin(5));
        final Bench.Ran ran = compare();

        assertThat(ran.exit()).as(ran.err()).isEqualTo(0);
        assertThat(ran.out()).contains(": restored").contains("leak test: tables cannot show it");
        assertThat(ran.out()).contains("a blank: not in the tables");
        assertThat(Files.readString(folder.resolve("out/results.csv"))).contains("response-change");
        assertThat(folder.resolve("out/inputs/first.csv")).exists();
        assertThat(folder.resolve("out/inputs/second.csv")).exists();
    }

    @Test
    void oneCompoundOutsideTheMarginIsNotRestored() throws IOException {
        study("first", 1, 1, margin(5));
        study("second", 1, 0.8, margin(5));
        final Bench.Ran ran = compare();

        assertThat(ran.exit()).isEqualTo(1);
        assertThat(ran.out()).contains(": not restored").contains("slope with boiling point");
    }

    @Test
    void aMarginThatTheScatterDoesNotAllowIsUndecided() throws IOException {
        study("first", 1, 1, margin(0.5));
        study("second", 1, 1, margin(0.5));

        assertThat(compare().exit()).isEqualTo(0);
        final Bench.Ran strict = compare("--replace", "--strict");
        assertThat(strict.exit()).isEqualTo(1);
        assertThat(strict.out()).contains(": undecided");
    }

    @Test
    void withoutAMarginNothingIsComparedAndNothingIsLeftBehind() throws IOException {
        study("first", 1, 1, "");
        study("second", 1, 1, "");
        final Bench.Ran ran = compare();

        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.err()).contains("maintenance").contains("margin");
        assertThat(folder.resolve("out")).doesNotExist();
    }

    @Test
    void theProtocolForTheCheckAfterMaintenanceIsReadyToUse() {
        final String protocols = Path.of("protocols", "after-maintenance").toString();
        final Bench.Ran ran =
                Bench.command(
                        "compare",
                        Path.of(protocols, "before.yaml").toString(),
                        Path.of(protocols, "after.yaml").toString(),
                        "--out",
                        folder.resolve("compared").toString());

        assertThat(ran.exit()).as(ran.err()).isEqualTo(0);
        assertThat(ran.out()).contains(": restored");
        final Bench.Ran one =
                Bench.command(
                        "evaluate",
                        "--no-pdf",
                        Path.of(protocols, "protocol.yaml").toString(),
                        "--out",
                        folder.resolve("evaluated").toString());
        assertThat(one.exit()).as(one.err()).isEqualTo(0);
    }

    @Test
    void theDataOfThatProtocolAreThoseOfItsDesign() throws IOException {
        final Path data = Path.of("datasets", "after-maintenance");
        final Bench.Ran ran =
                Bench.command(
                        "simulate",
                        data.resolve("design.yaml").toString(),
                        "--tables-only",
                        "--out",
                        folder.resolve("simulated").toString());

        assertThat(ran.exit()).as(ran.err()).isEqualTo(0);
        for (String file : new String[] {"areas.csv", "run-list.csv", "levels.csv", "truth.csv"}) {
            assertThat(folder.resolve("simulated").resolve(file))
                    .hasSameBinaryContentAs(data.resolve(file));
        }
    }

    @Test
    void aMarginThatIsNoneGivesNoVerdict() throws IOException {
        study("first", 1, 1, margin(100));
        study("second", 1, 1, margin(100));

        assertThat(compare().out()).contains(": undecided");
        assertThat(Files.readString(folder.resolve("out/results.csv")))
                .contains("the margin must lie between 0 and 100 percent");
    }

    private void evaluated(String name) {
        final Bench.Ran ran =
                Bench.command(
                        "evaluate",
                        "--no-pdf",
                        folder.resolve(name + ".yaml").toString(),
                        "--out",
                        folder.resolve(name + "-dossier").toString());
        assertThat(ran.exit()).as(ran.err()).isLessThan(2);
    }

    private Bench.Ran dossiers(String out) {
        return Bench.command(
                "compare",
                folder.resolve("first-dossier").toString(),
                folder.resolve("second-dossier").toString(),
                "--out",
                folder.resolve(out).toString());
    }

    @Test
    void twoDossiersSayWhatTheirProtocolsSay() throws IOException {
        study("first", 1, 1, margin(5));
        study("second", 1, 0.8, margin(5));
        final Bench.Ran protocols = compare();
        evaluated("first");
        evaluated("second");
        Files.delete(folder.resolve("first.csv"));
        Files.delete(folder.resolve("first.yaml"));
        final Bench.Ran ran = dossiers("compared");

        assertThat(ran.exit()).as(ran.err()).isEqualTo(1);
        assertThat(ran.out().replace("compared", "out")).isEqualTo(protocols.out());
        assertThat(folder.resolve("compared/results.csv"))
                .hasSameTextualContentAs(folder.resolve("out/results.csv"));
    }

    @Test
    void aDossierThatWasChangedIsRefusedByTheNameOfTheFile() throws IOException {
        study("first", 1, 1, margin(5));
        study("second", 1, 1, margin(5));
        evaluated("first");
        evaluated("second");
        Files.writeString(
                folder.resolve("first-dossier/inputs/first.csv"),
                Files.readString(folder.resolve("first.csv")).replace("100.0", "101.0"));
        Files.delete(folder.resolve("second-dossier/budget.csv"));
        final Bench.Ran changed = dossiers("compared");
        assertThat(changed.exit()).isEqualTo(2);
        assertThat(changed.err()).contains("first.csv").contains("SHA-256");
        assertThat(folder.resolve("compared")).doesNotExist();

        Files.copy(
                folder.resolve("first.csv"),
                folder.resolve("first-dossier/inputs/first.csv"),
                java.nio.file.StandardCopyOption.REPLACE_EXISTING);
        final Bench.Ran missing = dossiers("compared");
        assertThat(missing.exit()).isEqualTo(2);
        assertThat(missing.err()).contains("budget.csv").contains("no such file");
    }

    @Test
    void aDossierOfAComparisonHoldsNoSingleStudy() throws IOException {
        study("first", 1, 1, margin(5));
        study("second", 1, 1, margin(5));
        assertThat(compare().exit()).isZero();
        final Bench.Ran ran =
                Bench.command(
                        "compare",
                        folder.resolve("out").toString(),
                        folder.resolve("second.yaml").toString(),
                        "--out",
                        folder.resolve("again").toString());

        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.err()).contains("2 protocols");
    }

    @Test
    void theDossierOfAComparisonCanBeRecheckedInWhicheverOrderTheStudiesAreNamed()
            throws IOException {
        study("first", 1, 1, margin(5));
        study("second", 1.01, 0.97, margin(5));
        assertThat(compare().exit()).isLessThan(2);
        final String out = folder.resolve("out").toString();
        final Bench.Ran ran = Bench.command("recheck", out);
        assertThat(ran.exit()).as(ran.out() + ran.err()).isZero();

        final Bench.Ran other =
                Bench.command(
                        "compare",
                        folder.resolve("second.yaml").toString(),
                        folder.resolve("first.yaml").toString(),
                        "--out",
                        out,
                        "--replace");
        assertThat(other.exit()).isLessThan(2);
        final Bench.Ran again = Bench.command("recheck", out);
        assertThat(again.exit()).as(again.out() + again.err()).isZero();
    }

    @Test
    void packedDossiersAreComparedAsTheirFoldersAreAndTheOutcomeCanBeRechecked()
            throws IOException {
        study("first", 1, 1, margin(5));
        study("second", 1, 0.8, margin(5));
        evaluated("first");
        evaluated("second");
        final Bench.Ran folders = dossiers("compared");
        final Path first = DossierPack.write(folder.resolve("first-dossier"));
        final Path second = DossierPack.write(folder.resolve("second-dossier"));
        Files.move(folder.resolve("first-dossier"), folder.resolve("gone"));
        final Bench.Ran ran =
                Bench.command(
                        "compare",
                        first.toString(),
                        second.toString(),
                        "--out",
                        folder.resolve("packed").toString());

        assertThat(ran.exit()).as(ran.err()).isEqualTo(folders.exit());
        assertThat(ran.out().replace("packed", "compared")).isEqualTo(folders.out());
        assertThat(folder.resolve("packed/results.csv"))
                .hasSameTextualContentAs(folder.resolve("compared/results.csv"));
        assertThat(folder.resolve("packed/inputs/first-dossier.zip/inputs/first.csv")).exists();
        final Bench.Ran again = Bench.command("recheck", folder.resolve("packed").toString());
        assertThat(again.exit()).as(again.out() + again.err()).isZero();
    }
}
