package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.NoSuchFileException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import splitledger.base.Problem;
import splitledger.base.ProblemException;

class MainTest {
    private record Ran(int exit, String out, String err) {}

    private static Ran run(String... args) {
        final StringWriter out = new StringWriter();
        final StringWriter err = new StringWriter();
        final int exit = Main.run(new PrintWriter(out), new PrintWriter(err), args);
        return new Ran(exit, lines(out), lines(err));
    }

    private static String lines(StringWriter text) {
        return text.toString().replace(System.lineSeparator(), "\n");
    }

    private record Reported(Exit exit, String err) {}

    private static Reported report(Throwable problem) {
        final StringWriter err = new StringWriter();
        final Exit exit = Failures.report(problem, new PrintWriter(err));
        return new Reported(exit, lines(err));
    }

    @ParameterizedTest
    @ValueSource(strings = {"--help", "-h", "help"})
    void helpNamesCommandsAndExitCodesOnStandardOutput(String asked) {
        final Ran ran = run(asked);

        assertThat(ran.exit()).isEqualTo(0);
        assertThat(ran.err()).isEmpty();
        assertThat(ran.out())
                .startsWith("Usage: splitledger ")
                .contains("\nCommands:\n")
                .contains("\nExit codes:\n  0   done\n")
                .contains("  3   a fault of the program itself\n");
    }

    @Test
    void noLineOfTheHelpIsWiderThanOneHundredColumns() {
        assertThat(run("--help").out().lines()).allMatch(line -> line.length() <= 100);
    }

    @Test
    void versionNamesProgramRevisionAndJava() {
        final Ran ran = run("--version");

        assertThat(ran.exit()).isEqualTo(0);
        assertThat(ran.err()).isEmpty();
        assertThat(ran.out())
                .matches(
                        "splitledger \\d+\\.\\d+\\.\\d+.*\nsource revision \\S+\nJava "
                                + System.getProperty("java.version").replace(".", "\\.")
                                + "\n");
    }

    @Test
    void withoutACommandItSaysThatOneIsMissing() {
        assertThat(run())
                .isEqualTo(
                        new Ran(
                                2,
                                "",
                                """
                                splitledger: say what to do: a command is missing
                                Type 'splitledger --help' to see what there is.
                                """));
    }

    @Test
    void aMistypedCommandIsAnsweredWithTheNearestOne() {
        assertThat(run("hlep"))
                .isEqualTo(
                        new Ran(
                                2,
                                "",
                                """
                                splitledger: there is no command 'hlep'; did you mean 'help'?
                                Type 'splitledger --help' to see what there is.
                                """));
    }

    @Test
    void aMistypedOptionIsAnsweredWithTheNearestOne() {
        assertThat(run("--verison"))
                .isEqualTo(
                        new Ran(
                                2,
                                "",
                                """
                                splitledger: there is no option '--verison'; did you mean '--version'?
                                Type 'splitledger --help' to see what there is.
                                """));
    }

    @Test
    void aWordThatIsNearNothingGetsNoGuess() {
        assertThat(run("zzzzzzzz"))
                .isEqualTo(
                        new Ran(
                                2,
                                "",
                                """
                                splitledger: there is no command 'zzzzzzzz'
                                Type 'splitledger --help' to see what there is.
                                """));
    }

    @Test
    void aProblemOfTheInputIsToldAsItIsWithoutAStackTrace() {
        final Problem problem =
                new Problem(
                        "run7.csv", 3, "area", "'4,1'", "a number", "write 4.1 or map the mark");

        assertThat(report(new ProblemException(problem)))
                .isEqualTo(new Reported(Exit.BAD_INPUT, problem.text() + "\n"));
    }

    @Test
    void aMissingOrLockedFileIsToldInWords() {
        assertThat(report(new NoSuchFileException("a.csv")))
                .isEqualTo(
                        new Reported(
                                Exit.BAD_INPUT,
                                "splitledger: a.csv: there is no such file or folder\n"));
        assertThat(report(new UncheckedIOException(new AccessDeniedException("b.csv"))))
                .isEqualTo(
                        new Reported(
                                Exit.BAD_INPUT,
                                "splitledger: b.csv: it may not be opened (rights, or another program"
                                        + " holds it)\n"));
        assertThat(report(new IOException("No space left on device")))
                .isEqualTo(
                        new Reported(
                                Exit.BAD_INPUT,
                                "splitledger: No space left on device: the disk or what you may use of it"
                                        + " is full. Make room there and in the folder for temporary"
                                        + " files, or name another folder with --out\n"));
    }

    @Test
    void tooLittleMemoryIsNoFaultOfTheProgram() {
        final Reported reported = report(new OutOfMemoryError("Java heap space"));

        assertThat(reported.exit()).isEqualTo(Exit.BAD_INPUT);
        assertThat(reported.err()).contains("SPLITLEDGER_JAVA_OPTS").doesNotContain("\tat ");
    }

    @Test
    void anythingElseIsAFaultAndShowsWhereItHappened() {
        for (Throwable fault :
                new Throwable[] {new IllegalStateException("x"), new StackOverflowError()}) {
            final Reported reported = report(fault);

            assertThat(reported.exit()).isEqualTo(Exit.FAULT);
            assertThat(reported.err())
                    .startsWith("splitledger: this is a fault of the program")
                    .contains(fault.getClass().getName())
                    .contains("\tat splitledger.cli.MainTest");
        }
    }
}
