package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Many protocols in one run. */
class FleetCommandTest {
    private static final String LIMIT =
            "requirements: [{quantity: r-squared, at-least: 0.99999, source: ours, set: 2026-01-01}]\n";

    @TempDir Path folder;

    private void study(String name, String more) throws IOException {
        final Path place = folder.resolve("studies/" + name);
        Files.createDirectories(place);
        final Bench bench = new Bench(place);
        final double[] y = {10.1, 19.9, 30.2, 39.8, 50.1};
        for (int i = 0; i < y.length; i++) {
            bench.row("calibration", "k" + i, "L" + (i + 1), String.valueOf(i + 1), y[i]);
        }
        bench.table()
                .write(
                        "protocol.yaml",
                        Bench.usual()
                                + "characteristics: {calibration: {where: {series: calibration}, weights: none}}\n"
                                + more);
    }

    private Bench.Ran evaluate(String what, String... options) {
        final List<String> all =
                new ArrayList<>(
                        List.of(
                                "evaluate",
                                folder.resolve("studies") + what,
                                "--out",
                                folder.resolve("out").toString()));
        all.addAll(List.of(options));
        return Bench.command(all.toArray(String[]::new));
    }

    private List<List<String>> fleet() {
        return Bench.rows(folder.resolve("out/fleet.csv"));
    }

    @Test
    void aStudyThatFailsStopsNoOtherAndTheWorstEndCounts() throws IOException {
        study("a", "");
        study("b", "characteristics: {}\n");
        study("c", "");
        final Bench.Ran ran = evaluate("", "--jobs", "2");

        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.err()).startsWith("b: not evaluated\n").contains("protocol.yaml");
        assertThat(ran.out()).contains("3 studies: 2 evaluated, 0 kept from before, 1 failed");
        assertThat(fleet()).hasSize(4);
        assertThat(fleet().get(1)).startsWith("a", "a/protocol.yaml", "done", "0");
        assertThat(fleet().get(2)).startsWith("b", "b/protocol.yaml", "failed", "2");
        assertThat(fleet().get(3)).startsWith("c", "c/protocol.yaml", "done", "0");
        assertThat(Files.readString(folder.resolve("out/fleet.csv")))
                .doesNotContain(folder.toString());
        assertThat(folder.resolve("out/a/manifest.json")).exists();
        assertThat(folder.resolve("out/b")).doesNotExist();
        try (Stream<Path> left = Files.list(folder.resolve("out"))) {
            assertThat(left.map(p -> p.getFileName().toString()))
                    .containsExactlyInAnyOrder("a", "c", "fleet.csv");
        }
    }

    @Test
    void aPatternIsExpandedWithoutAShell() throws IOException {
        study("a", "");
        study("ab", "");
        study("b", "");

        assertThat(evaluate("/a*/*.yaml").exit()).isZero();
        assertThat(fleet()).extracting(row -> row.get(0)).containsExactly("study", "a", "ab");
        assertThat(evaluate("/[b]", "--replace").exit()).isZero();
        assertThat(fleet()).extracting(row -> row.get(0)).containsExactly("study", "b");
        assertThat(evaluate("/x*", "--replace").exit()).isEqualTo(2);
    }

    @Test
    void aRepeatedNameEndsTheRunBeforeAnythingStarts() throws IOException {
        study("a", "");
        study("more/A", "");
        final Bench.Ran ran = evaluate("");

        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.err()).contains("a second protocol in a folder named");
        assertThat(folder.resolve("out")).doesNotExist();
    }

    @Test
    void resumingEvaluatesOnlyWhatIsNotThereOrNotTrueAnyMore() throws IOException {
        study("a", "");
        study("b", "");
        study("c", "");
        assertThat(evaluate("").exit()).isZero();
        final byte[] first = Files.readAllBytes(folder.resolve("out/fleet.csv"));
        try (Stream<Path> inside = Files.walk(folder.resolve("out/b"))) {
            for (Path p : inside.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(p);
            }
        }
        final Path kept = folder.resolve("out/a/manifest.json");
        final FileTime written = Files.getLastModifiedTime(kept);

        final Bench.Ran again = evaluate("", "--resume");
        assertThat(again.exit()).as(again.err()).isZero();
        assertThat(again.out()).contains("1 evaluated, 2 kept from before, 0 failed");
        assertThat(Files.getLastModifiedTime(kept)).isEqualTo(written);
        assertThat(folder.resolve("out/fleet.csv")).hasBinaryContent(first);

        final Path table = folder.resolve("studies/c/areas.csv");
        Files.writeString(table, Files.readString(table).replace("19.9", "19.8"));
        final Bench.Ran stale = evaluate("", "--resume");
        assertThat(stale.exit()).isEqualTo(2);
        assertThat(stale.err()).contains("c: not evaluated").contains("--replace");
        final Bench.Ran replaced = evaluate("", "--resume", "--replace");
        assertThat(replaced.exit()).isZero();
        assertThat(replaced.out()).contains("1 evaluated, 2 kept from before, 0 failed");
    }

    @Test
    void anEarlierRunIsNotOverwrittenUnasked() throws IOException {
        study("a", "");
        study("b", "");
        assertThat(evaluate("").exit()).isZero();

        final Bench.Ran again = evaluate("");
        assertThat(again.exit()).isEqualTo(2);
        assertThat(again.err()).contains("the table of an earlier run");
        assertThat(evaluate("", "--replace").exit()).isZero();
    }

    @Test
    void aRequirementThatIsNotMetIsCountedAndKeptWhenResumed() throws IOException {
        study("a", LIMIT);
        study("b", "");

        assertThat(evaluate("").exit()).isEqualTo(1);
        assertThat(fleet().get(1)).startsWith("a", "a/protocol.yaml", "done", "1");
        assertThat(evaluate("", "--resume").exit()).isEqualTo(1);
    }

    @Test
    void aPackedDossierIsTheFolderWithoutTimes() throws IOException {
        study("a", "");
        final Path out = folder.resolve("alone");
        final String[] command = {
            "evaluate",
            folder.resolve("studies/a/protocol.yaml").toString(),
            "--out",
            out.toString(),
            "--pack"
        };
        assertThat(Bench.command(command).exit()).isZero();
        final Path archive = folder.resolve("alone.zip");
        final byte[] first = Files.readAllBytes(archive);
        try (ZipFile zip = new ZipFile(archive.toFile())) {
            final List<String> names = zip.stream().map(ZipEntry::getName).toList();
            assertThat(names)
                    .isSorted()
                    .contains("alone/manifest.json", "alone/inputs/areas.csv", "alone/results.csv");
            try (Stream<Path> inside = Files.walk(out)) {
                assertThat(names).hasSize((int) inside.filter(Files::isRegularFile).count());
            }
            assertThat(zip.getInputStream(zip.getEntry("alone/results.csv")).readAllBytes())
                    .isEqualTo(Files.readAllBytes(out.resolve("results.csv")));
        }

        final Bench.Ran again = Bench.command(command);
        assertThat(again.exit()).isEqualTo(2);
        final String[] replacing = Arrays.copyOf(command, command.length + 1);
        replacing[command.length] = "--replace";
        assertThat(Bench.command(replacing).exit()).isZero();
        assertThat(archive).hasBinaryContent(first);
    }

    @Test
    void anArchiveInTheWayIsToldBeforeAnyWorkIsDone() throws IOException {
        study("a", "");
        Files.writeString(folder.resolve("out.zip"), "something else");
        final Bench.Ran ran = evaluate("/a/protocol.yaml", "--pack");

        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.err()).contains("an archive that is there");
        assertThat(folder.resolve("out")).doesNotExist();
    }

    @Test
    void theBarFillsAndLeavesNothing() {
        final StringWriter text = new StringWriter();
        final Progress bar = Progress.drawn(new PrintWriter(text), 2);
        bar.step();
        assertThat(text.toString()).endsWith("[###############               ] 1/2");
        bar.step();
        bar.clear();
        assertThat(text.toString()).endsWith("\r").contains("2/2");
    }

    @Test
    void withoutATerminalThereIsNoBar() throws IOException {
        study("a", "");
        study("b", "");

        assertThat(evaluate("").err()).isEmpty();
    }

    @Test
    void noWorkerIsNoRun() throws IOException {
        study("a", "");

        assertThat(evaluate("", "--jobs", "0").exit()).isEqualTo(2);
    }

    @Test
    void aRunDoesNotGoIntoTheDossierOfOneStudy() throws IOException {
        study("a", "");
        study("b", "");
        assertThat(evaluate("/a/protocol.yaml").exit()).isZero();
        final Bench.Ran ran = evaluate("", "--replace");

        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.err()).contains("found a dossier");
        assertThat(folder.resolve("out/a")).doesNotExist();
    }

    @Test
    void oneStudyAloneIsKeptWhenNothingHasChanged() throws IOException {
        study("a", "");
        assertThat(evaluate("/a/protocol.yaml").exit()).isZero();
        final Bench.Ran again = evaluate("/a/protocol.yaml", "--resume");

        assertThat(again.exit()).as(again.err()).isZero();
        assertThat(again.out()).contains("nothing has changed; the dossier is kept");
    }
}
