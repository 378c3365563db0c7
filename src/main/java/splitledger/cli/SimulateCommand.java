package splitledger.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.virtual.Design;
import splitledger.virtual.DesignReader;
import splitledger.virtual.Simulation;

/** {@code simulate}: tables of an experiment that nobody made, and the values behind them. */
@Command(
        name = "simulate",
        mixinStandardHelpOptions = true,
        versionProvider = ProgramVersion.class,
        description = {
            "Simulates an experiment: tables as a data system and a bench would leave them, the true"
                    + " values behind them (truth.csv), and a protocol that evaluates the tables."
        },
        descriptionHeading = "%n",
        optionListHeading = "%nOptions:%n")
final class SimulateCommand implements Callable<Integer> {
    @Spec private CommandSpec spec;

    @SuppressWarnings("UnusedVariable") // Failures asks the parsed command line for it
    @Mixin
    private MessagesOption messages = new MessagesOption();

    @Parameters(
            paramLabel = "DESIGN",
            description = "Design file (YAML): inlet, detector, solutions, days.")
    private Path designFile = Path.of("");

    @Option(
            names = "--out",
            required = true,
            paramLabel = "DIR",
            description = "Folder of the data set; must be new or empty.")
    private Path out = Path.of("");

    @Option(
            names = "--replace",
            description =
                    "Replace a data set that is already there; other files in the folder stay.")
    private boolean replace;

    @Option(
            names = "--tables-only",
            description = "Leave protocol.yaml and compounds.csv out: others evaluate the tables.")
    private boolean tablesOnly;

    @Override
    public Integer call() throws ProblemException, IOException {
        SimulatedFolder.check(out, replace);
        if (!Files.isRegularFile(designFile)) {
            throw new ProblemException(
                    new Problem(
                            designFile.toString(),
                            0,
                            "",
                            Files.isDirectory(designFile) ? "a folder" : "no such file",
                            "a design file",
                            "check the name"));
        }
        final Design design =
                DesignReader.read(designFile.toString(), Files.readAllBytes(designFile));
        final Map<String, byte[]> files = new LinkedHashMap<>(Simulation.tables(design));
        if (tablesOnly) {
            files.remove(Simulation.PROTOCOL);
            files.remove(Simulation.COMPOUNDS);
        }
        SimulatedFolder.write(files, out);
        told(files);
        return Exit.DONE.code();
    }

    private void told(Map<String, byte[]> files) {
        final PrintWriter print = spec.commandLine().getOut();
        print.println(out + ": " + String.join(", ", files.keySet()));
        if (!tablesOnly) {
            print.println(
                    "  to evaluate: splitledger evaluate "
                            + out.resolve(Simulation.PROTOCOL)
                            + " --out "
                            + "FOLDER");
        }
    }
}
