package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The same inputs give the same bytes, whatever the machine's own mathematics and the number of
 * threads.
 */
class SameBytesTest {
    private static final List<String> FILES =
            List.of("results.csv", "budget.csv", "budget-correlations.csv", "results.json");

    @TempDir Path folder;

    private Path evaluated(String name, String... javaOptions)
            throws IOException, InterruptedException {
        final Path out = folder.resolve(name);
        final List<String> command = new ArrayList<>();
        command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        command.addAll(List.of(javaOptions));
        command.addAll(
                List.of("-cp", System.getProperty("java.class.path"), "splitledger.cli.Main"));
        command.addAll(
                List.of("evaluate", "protocols/flower-oil/protocol.yaml", "--out", out.toString()));
        final Process process =
                new ProcessBuilder(command)
                        .redirectErrorStream(true)
                        .redirectOutput(folder.resolve(name + ".log").toFile())
                        .start();
        assertThat(process.waitFor(2, TimeUnit.MINUTES)).isTrue();
        assertThat(process.exitValue())
                .as(Files.readString(folder.resolve(name + ".log")))
                .isLessThan(2);
        return out;
    }

    @Test
    void withoutTheMachinesIntrinsicsAndWithAnotherNumberOfThreads()
            throws IOException, InterruptedException {
        final Path usual =
                evaluated("usual", "-Djava.util.concurrent.ForkJoinPool.common.parallelism=2");
        final Path other =
                evaluated(
                        "other",
                        "-XX:+UnlockDiagnosticVMOptions",
                        "-XX:DisableIntrinsic=_dexp,_dlog,_dpow,_dlog10,_dsin,_dcos,_dtan",
                        "-Djava.util.concurrent.ForkJoinPool.common.parallelism=0",
                        "-Duser.language=de",
                        "-Duser.timezone=Asia/Tokyo");
        for (String name : FILES) {
            assertThat(other.resolve(name)).hasSameBinaryContentAs(usual.resolve(name));
        }
    }
}
