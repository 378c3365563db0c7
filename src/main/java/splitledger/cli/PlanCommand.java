package splitledger.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import splitledger.base.ProblemException;
import splitledger.planning.ahead.PlanFileReader;
import splitledger.planning.ahead.PlanFiles;
import splitledger.planning.ahead.Planner;
import splitledger.planning.ahead.Rehearsal;
import splitledger.planning.ahead.StudyPlan;

/** {@code plan}: the cheapest study that gives what is wanted, before its first injection. */
@Command(
        name = "plan",
        mixinStandardHelpOptions = true,
        versionProvider = ProgramVersion.class,
        description = {
            "Plans a study before its first injection: from a wanted uncertainty, detection limit"
                    + " or equivalence margin and what is known of the scatter, the cheapest design,"
                    + " what to expect of it, the run order, a bench sheet and the protocol that will"
                    + " evaluate it."
        },
        descriptionHeading = "%n",
        optionListHeading = "%nOptions:%n")
final class PlanCommand implements Callable<Integer> {
    private static final SimulatedFolder.Mark MARK =
            new SimulatedFolder.Mark(PlanFiles.PLAN, PlanFiles.HEADER, "an earlier plan");

    @Spec private CommandSpec spec;

    @SuppressWarnings("UnusedVariable") // Failures asks the parsed command line for it
    @Mixin
    private MessagesOption messages = new MessagesOption();

    @Parameters(
            paramLabel = "FILE",
            description = "Plan file (YAML): what is wanted, what is known, what the bench costs.")
    private Path planFile = Path.of("");

    @Option(
            names = "--out",
            required = true,
            paramLabel = "DIR",
            description = "Folder of the plan; must be new or empty.")
    private Path out = Path.of("");

    @Option(
            names = "--replace",
            description = "Replace a plan that is already there; other files in the folder stay.")
    private boolean replace;

    @Option(
            names = "--root",
            paramLabel = "DIR",
            description = "Folder that plan file and dossier must lie below, as for evaluate.")
    private Optional<Path> root = Optional.empty();

    @Option(
            names = "--rehearse",
            paramLabel = "STUDIES",
            description =
                    "Make so many studies of this plan on the virtual inlet, evaluate each, and"
                            + " tell how many reach the wanted uncertainty.")
    private int studies;

    @Override
    public Integer call() throws ProblemException, IOException {
        SimulatedFolder.check(out, replace, MARK);
        ProtocolFile.present(planFile, "a plan file");
        final ProtocolFile file = ProtocolFile.find(planFile, root);
        final StudyPlan plan =
                Planner.plan(file.name(), PlanFileReader.read(file.vault(), file.name()));
        final PlanFiles made = PlanFiles.of(plan);
        SimulatedFolder.write(made.files(), out);
        final PrintWriter print = spec.commandLine().getOut();
        print.println(out + ": " + String.join(", ", made.files().keySet()));
        made.lines().forEach(print::println);
        if (studies > 0) {
            new Rehearsal(plan, made)
                    .words(studies)
                    .forEach(line -> print.println("  rehearsal: " + line));
        }
        print.println("next: print bench.html, inject, put areas.csv beside run-list.csv, then");
        print.println(
                "  splitledger evaluate " + out.resolve(PlanFiles.PROTOCOL) + " --out dossier");
        return Exit.DONE.code();
    }
}
