package splitledger.cli;

import java.io.PrintStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.HelpCommand;

/** The program as the shell sees it. A further command is one more class in {@code subcommands}. */
@Command(
        name = "splitledger",
        mixinStandardHelpOptions = true,
        versionProvider = ProgramVersion.class,
        description = {
            "From tables of gas-chromatography injections and one protocol file: findings with"
                    + " their uncertainty, verdicts, an uncertainty budget with charts, and a report."
        },
        descriptionHeading = "%n",
        optionListHeading = "%nOptions:%n",
        commandListHeading = "%nCommands:%n",
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {
            "0:done",
            "1:done, but a requirement is not met or not shown, a comparison found a"
                    + " difference, or a trend needs action",
            "2:something in the input, the command or the environment is wrong; nothing is left"
                    + " behind",
            "3:a fault of the program itself"
        },
        subcommands = {
            PlanCommand.class,
            NewCommand.class,
            CheckCommand.class,
            EvaluateCommand.class,
            CompareCommand.class,
            TrendCommand.class,
            RecheckCommand.class,
            TraceCommand.class,
            SimulateCommand.class,
            InletCommand.class,
            ExplainCommand.class,
            QualifyCommand.class,
            HelpCommand.class
        })
public final class Main {
    private static final int USAGE_COLUMNS = 100;

    private Main() {}

    /**
     * Runs one command and ends the process with its {@link Exit}.
     *
     * @param args the command line
     */
    public static void main(String[] args) {
        System.exit(run(utf8(System.out), utf8(System.err), args));
    }

    /**
     * Runs one command without touching the streams of the process, so that a test can call it.
     *
     * @param out where results go; flushed at the end
     * @param err where messages go; flushed at the end
     * @param args the command line
     * @return the exit code, see {@link Exit}; nothing is thrown
     */
    public static int run(PrintWriter out, PrintWriter err, String... args) {
        try {
            return commandLine()
                    .setOut(out)
                    .setErr(err)
                    .setParameterExceptionHandler(Failures::ofParameters)
                    .setExecutionExceptionHandler(Failures::ofExecution)
                    .execute(args);
        } catch (Throwable problem) {
            // An Error would otherwise end the process with 1, which means something else here.
            return Failures.report(problem, err).code();
        } finally {
            out.flush();
            err.flush();
        }
    }

    /**
     * All commands with their options, as a run, the completion script and the manual page see
     * them.
     */
    static CommandLine commandLine() {
        return new CommandLine(new Main())
                .setCaseInsensitiveEnumValuesAllowed(true)
                .setUsageHelpWidth(USAGE_COLUMNS);
    }

    private static PrintWriter utf8(PrintStream stream) {
        return new PrintWriter(stream, true, StandardCharsets.UTF_8);
    }
}
