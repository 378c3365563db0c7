package splitledger.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import splitledger.base.ProblemException;
import splitledger.intake.YamlReader;

/** {@code inlet}: flows, split ratio in both conventions, vapour and residence time. */
@Command(
        name = "inlet",
        mixinStandardHelpOptions = true,
        versionProvider = ProgramVersion.class,
        description = {
            "Works out column flow, hold-up time, split ratio in both conventions, vapour volume,"
                    + " residence time and use of gas from pressures, dimensions and flows."
        },
        descriptionHeading = "%n",
        optionListHeading = "%nOptions:%n")
final class InletCommand implements Callable<Integer> {
    @Spec private CommandSpec spec;

    @SuppressWarnings("UnusedVariable") // Failures asks the parsed command line for it
    @Mixin
    private MessagesOption messages = new MessagesOption();

    @Parameters(
            paramLabel = "FILE",
            description =
                    "Inlet file (YAML); pressures say gauge or absolute, ratios their convention.")
    private Path inletFile = Path.of("");

    @Override
    public Integer call() throws ProblemException, IOException {
        ProtocolFile.present(inletFile, "an inlet file");
        final PrintWriter print = spec.commandLine().getOut();
        InletTable.of(
                        inletFile.toString(),
                        YamlReader.read(inletFile.toString(), Files.readAllBytes(inletFile)))
                .forEach(print::println);
        return Exit.DONE.code();
    }
}
