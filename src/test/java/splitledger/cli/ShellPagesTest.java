package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;
import picocli.CommandLine.Model.OptionSpec;

class ShellPagesTest {
    @TempDir Path folder;

    @BeforeEach
    void write() throws IOException {
        ShellPagesMain.main(new String[] {folder.toString()});
    }

    @Test
    void theManualNamesEveryCommandAndEveryOption() throws Exception {
        final String page = Files.readString(folder.resolve(ShellPagesMain.MANUAL));
        for (CommandLine command : Main.commandLine().getSubcommands().values()) {
            final String name = command.getCommandName();
            final int start = page.indexOf(".SS splitledger " + name + "\n");
            assertThat(start).as(name).isPositive();
            final int next = page.indexOf(".S", start + 1);
            final String section = page.substring(start, next);
            for (OptionSpec option : command.getCommandSpec().options()) {
                assertThat(section).as(name).contains(option.longestName().replace("-", "\\-"));
            }
        }
    }

    @Test
    void theFormatterOfManualsHasNothingToSay() throws Exception {
        final Ran ran =
                run(
                        "groff",
                        "-man",
                        "-Tutf8",
                        "-ww",
                        folder.resolve(ShellPagesMain.MANUAL).toString());
        assertThat(ran.exit()).isZero();
        assertThat(ran.err()).isEmpty();
    }

    @Test
    void bashCompletesCommandsAndOptions() throws Exception {
        assertThat(completed("splitledger", "ev")).isEqualTo("evaluate");
        assertThat(completed("splitledger", "evaluate", "--rep")).isEqualTo("--replace");
        assertThat(completed("splitledger", "qualify", "--xyz")).isEmpty();
    }

    /** What bash offers for the last word. */
    private String completed(String... words) throws Exception {
        final String script =
                // this one works only while a person presses the key
                "compopt() { :; }; source '"
                        + folder.resolve(ShellPagesMain.COMPLETION)
                        + "'; COMP_WORDS=("
                        + String.join(" ", words)
                        + "); COMP_CWORD="
                        + (words.length - 1)
                        + "; COMP_LINE='"
                        + String.join(" ", words)
                        + "'; COMP_POINT=${#COMP_LINE}; _complete_splitledger;"
                        + " printf '%s\\n' \"${COMPREPLY[@]}\"";
        final Ran ran = run("bash", "-c", script);
        assertThat(ran.err()).isEmpty();
        return ran.out().strip();
    }

    private record Ran(int exit, String out, String err) {}

    /** Runs a program of the system; the test is skipped where the system has none of that name. */
    private Ran run(String... command) throws Exception {
        assumeTrue(
                List.of(System.getenv("PATH").split(File.pathSeparator, -1)).stream()
                        .anyMatch(p -> Files.isExecutable(Path.of(p, command[0]))),
                command[0] + " is not there");
        final Path out = folder.resolve("out.txt");
        final Path err = folder.resolve("err.txt");
        final int exit =
                new ProcessBuilder(command)
                        .redirectOutput(out.toFile())
                        .redirectError(err.toFile())
                        .start()
                        .waitFor();
        return new Ran(
                exit,
                Files.readString(out, StandardCharsets.UTF_8),
                Files.readString(err, StandardCharsets.UTF_8));
    }
}
