package splitledger.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import splitledger.base.FolderVault;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.base.Shown;
import splitledger.dossier.DossiersBelow;
import splitledger.dossier.WholeFolder;
import splitledger.history.DossierHistory;
import splitledger.history.HistorySource;
import splitledger.history.TableHistory;
import splitledger.history.Trend;
import splitledger.history.TrendOptions;

/** {@code trend}: instruments over time, from the dossiers that evaluations left. */
@Command(
        name = "trend",
        mixinStandardHelpOptions = true,
        versionProvider = ProgramVersion.class,
        description = {
            "Shows instruments over time from the dossiers of many studies: discrimination,"
                    + " breakdown, scatter, detection limits and internal-standard areas, with limits"
                    + " of what is usual, work on the instrument, and what needs action.",
            "Ends with 1 if something needs action, with 0 if nothing does."
        },
        descriptionHeading = "%n",
        optionListHeading = "%nOptions:%n")
final class TrendCommand implements Callable<Integer> {
    @Spec private CommandSpec spec;

    @SuppressWarnings("UnusedVariable") // Failures asks the parsed command line for it
    @Mixin
    private MessagesOption messages = new MessagesOption();

    @Parameters(
            paramLabel = "DIR",
            description =
                    "Folder below which the dossiers lie, packed ones (.zip) too; or a table (.csv)"
                            + " with a row a value, such as an earlier trend.csv.")
    private Path from = Path.of("");

    @Option(
            names = "--out",
            required = true,
            paramLabel = "DIR",
            description = "Folder of the trend; must be new or empty.")
    private Path out = Path.of("");

    @Option(names = "--replace", description = "Replace a trend that is already there.")
    private boolean replace;

    @Option(
            names = "--anew-after",
            paramLabel = "WORD",
            description =
                    "Set limits anew after work whose name holds this word, for instance column; may"
                            + " be given several times. Without it limits run through all work.")
    private List<String> anewAfter = new ArrayList<>();

    @Option(
            names = "--base",
            paramLabel = "N",
            description =
                    "How many of the first dossiers set the limits (default: ${DEFAULT-VALUE}; at"
                            + " least 4).")
    private int base = TrendOptions.USUAL_BASE;

    @Override
    public Integer call() throws ProblemException, IOException {
        if (base < TrendOptions.LEAST_BASE) {
            throw new ProblemException(
                    new Problem(
                            "",
                            0,
                            "--base",
                            Integer.toString(base),
                            "at least " + TrendOptions.LEAST_BASE,
                            "limits from fewer dossiers say nothing"));
        }
        WholeFolder.check(out, replace, Trend.KIND);
        final Trend trend = Trend.of(source().read(), new TrendOptions(anewAfter, base));
        WholeFolder.write(trend.files(), out);
        final PrintWriter print = spec.commandLine().getOut();
        print.println(out + ": " + (trend.files().size() - 2) + " figures");
        trend.lines().forEach(line -> print.println(Shown.text(line)));
        print.println("  page: " + out.resolve(Trend.PAGE));
        return (trend.needsAction() ? Exit.CRITERION_NOT_MET : Exit.DONE).code();
    }

    private HistorySource source() throws ProblemException, IOException {
        if (Files.isDirectory(from)) {
            return new DossierHistory(new DossiersBelow(from));
        }
        final Path file =
                ProtocolFile.present(from, "a folder of dossiers or a table").toRealPath();
        final Path folder = file.getParent();
        final Path name = file.getFileName();
        if (folder == null || name == null) {
            throw new IOException("'" + from + "' cannot be read");
        }
        return new TableHistory(FolderVault.of(folder), name.toString());
    }
}
