package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assumptions.assumeThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;

/**
 * What goes wrong around the program, with real processes: nothing is lost, nothing half-written.
 */
@Execution(ExecutionMode.SAME_THREAD)
class FaultsTest {
    private static final long SECONDS = 120;

    @TempDir Path folder;

    @BeforeEach
    void study() {
        final Bench bench = new Bench(folder);
        for (int i = 1; i <= 4; i++) {
            bench.row("calibration", "p" + i, "L" + i, Integer.toString(i), 10.0 * i + i % 2);
        }
        bench.table();
        bench.write(
                "protocol.yaml",
                Bench.usual() + "characteristics: {calibration: {where: {series: calibration}}}\n");
    }

    /** A run in a process of its own. */
    private Process start(List<String> before, String out, String... more) throws IOException {
        final List<String> command = new ArrayList<>(before);
        command.addAll(
                List.of(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-Xshare:auto",
                        "-XX:TieredStopAtLevel=1",
                        "-Xmx512m",
                        "-cp",
                        System.getProperty("java.class.path"),
                        "splitledger.cli.Main",
                        "evaluate",
                        "--no-pdf",
                        folder.resolve("protocol.yaml").toString(),
                        "--out",
                        folder.resolve(out).toString()));
        command.addAll(List.of(more));
        return new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(folder.resolve(out.replace('/', '-') + ".log").toFile())
                .start();
    }

    private Process start(String out) throws IOException {
        return start(List.of(), out);
    }

    private int end(Process process) throws InterruptedException {
        if (!process.waitFor(SECONDS, TimeUnit.SECONDS)) {
            process.destroyForcibly();
            throw new AssertionError("the run did not end");
        }
        return process.exitValue();
    }

    private String log(String out) throws IOException {
        return Files.readString(folder.resolve(out + ".log"), StandardCharsets.UTF_8);
    }

    private List<String> left() throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            return files.map(p -> p.getFileName().toString())
                    .filter(n -> !n.endsWith(".log"))
                    .filter(n -> !List.of("areas.csv", "protocol.yaml").contains(n))
                    .sorted()
                    .toList();
        }
    }

    /** A limit on the size of files, set by the shell, stands in for a disk that is full. */
    @Test
    void whatCannotBeWrittenWholeIsNotWrittenAtAll() throws Exception {
        assumeThat(Files.isExecutable(Path.of("/bin/bash"))).isTrue();
        final Process run =
                start(
                        List.of("/bin/bash", "-c", "ulimit -f 8; trap '' XFSZ; exec \"$@\"", "run"),
                        "out");

        assertThat(end(run)).as(log("out")).isEqualTo(2);
        assertThat(log("out")).contains("is full. Make room").doesNotContain("\tat ");
        assertThat(left()).isEmpty();
    }

    @Test
    void whereTheFolderMayNotBeWrittenToNothingIsLeft() throws Exception {
        final Path locked = Files.createDirectory(folder.resolve("locked"));
        assumeThat(locked.getFileSystem().supportedFileAttributeViews()).contains("posix");
        Files.setPosixFilePermissions(locked, PosixFilePermissions.fromString("r-xr-xr-x"));
        assumeThat(Files.isWritable(locked)).as("whoever may write everywhere").isFalse();

        assertThat(end(start("locked/out"))).isEqualTo(2);
        assertThat(log("locked-out")).contains("it may not be opened").doesNotContain("\tat ");
    }

    @Test
    void aFileInPlaceOfAFolderIsToldAndKept() throws Exception {
        Files.writeString(folder.resolve("taken"), "keep");

        assertThat(end(start("taken/out"))).isEqualTo(2);
        assertThat(folder.resolve("taken")).hasContent("keep");
        assertThat(log("taken-out")).doesNotContain("\tat ");
    }

    @Test
    void killedAtAnyMomentItLeavesAWholeDossierOrNone() throws Exception {
        for (int millis : new int[] {300, 900, 1500, 2100, 2700}) {
            final Process run = start("killed" + millis);
            if (!run.waitFor(millis, TimeUnit.MILLISECONDS)) {
                run.destroyForcibly().waitFor();
            }
            final Path out = folder.resolve("killed" + millis);
            if (Files.exists(out)) {
                assertThat(out.resolve("manifest.json")).exists();
                assertThat(out.resolve("results.csv")).isNotEmptyFile();
                assertThat(out.resolve("report.html")).isNotEmptyFile();
            }
        }
        assertThat(end(start("after"))).as("what is left does not hinder the next run").isZero();
    }

    @Test
    void ofTwoRunsIntoOneFolderAWholeDossierIsLeft() throws Exception {
        final Process one = start("both");
        final Process two = start(List.of(), "both");
        final int first = end(one);
        final int second = end(two);

        assertThat(List.of(first, second)).contains(0).isSubsetOf(List.of(0, 2));
        assertThat(folder.resolve("both/manifest.json")).exists();
        assertThat(left()).containsExactly("both");
    }

    @Test
    void inputsThatMayOnlyBeReadAreEnough() throws Exception {
        for (String name : List.of("areas.csv", "protocol.yaml")) {
            assertThat(folder.resolve(name).toFile().setReadOnly()).isTrue();
        }

        assertThat(end(start("out"))).as(log("out")).isZero();
    }

    @Test
    void aLinkToATableBesideTheProtocolIsFollowedOneThatLeadsOutIsNot() throws Exception {
        final Path inside = Files.createDirectory(folder.resolve("data"));
        Files.move(folder.resolve("areas.csv"), inside.resolve("areas.csv"));
        Files.createSymbolicLink(folder.resolve("areas.csv"), Path.of("data", "areas.csv"));
        assertThat(end(start("out"))).as(log("out")).isZero();

        Files.delete(folder.resolve("areas.csv"));
        final Path elsewhere = Files.createTempFile("elsewhere", ".csv");
        try {
            Files.copy(
                    inside.resolve("areas.csv"),
                    elsewhere,
                    java.nio.file.StandardCopyOption.REPLACE_EXISTING);
            Files.createSymbolicLink(folder.resolve("areas.csv"), elsewhere);
            assertThat(end(start("out2"))).isEqualTo(2);
            assertThat(log("out2")).contains("areas.csv").doesNotContain("\tat ");
            assertThat(folder.resolve("out2")).doesNotExist();
        } finally {
            Files.delete(elsewhere);
        }
    }
}
