package splitledger.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import splitledger.base.Problem;
import splitledger.base.ProblemException;

/** Drafts a protocol from tables, or for a purpose. */
@Command(
        name = "new",
        mixinStandardHelpOptions = true,
        description =
                "Drafts a protocol from your tables, or begins one for a purpose: says what each"
                        + " column was taken for and why, what the tables allow, and leaves a question"
                        + " (ASK) where only you know the answer.",
        descriptionHeading = "%n",
        optionListHeading = "%nOptions:%n")
final class NewCommand implements Callable<Integer> {
    @Spec private CommandSpec spec;

    @SuppressWarnings("UnusedVariable") // Failures asks the parsed command line for it
    @Mixin
    private MessagesOption messages = new MessagesOption();

    @Option(
            names = "--from",
            arity = "1..*",
            paramLabel = "TABLE",
            description =
                    "Table of areas, run list, table of amounts, table of compounds; in any order.")
    private List<Path> tables = new ArrayList<>();

    @Option(
            names = "--for",
            paramLabel = "PURPOSE",
            description =
                    "Without tables: a protocol and an empty run list for full-validation,"
                            + " after-maintenance, detection, split-linearity, inlet-temperature,"
                            + " recovery or budget.")
    private Optional<String> purpose = Optional.empty();

    @Option(
            names = "--out",
            paramLabel = "FILE",
            description = "Protocol to write. Without it: protocol.yaml in the working folder.")
    private Path out = Path.of("protocol.yaml");

    @Option(names = "--replace", description = "Replace a protocol that is already there.")
    private boolean replace;

    @Option(
            names = "--root",
            paramLabel = "DIR",
            description = "Folder that protocol and tables must lie below, as for evaluate.")
    private Optional<Path> root = Optional.empty();

    @Override
    public Integer call() throws ProblemException, IOException {
        if (tables.isEmpty() == purpose.isEmpty()) {
            throw new ProblemException(
                    new Problem(
                            "",
                            0,
                            "",
                            tables.isEmpty() ? "neither --from nor --for" : "--from and --for",
                            "one of them",
                            "--from TABLE... drafts from your tables, --for PURPOSE begins without"
                                    + " any"));
        }
        final NewProtocol made =
                purpose.isPresent()
                        ? NewStudy.begin(purpose.get(), out, replace)
                        : NewProtocol.draft(tables, out, root, replace);
        final PrintWriter print = spec.commandLine().getOut();
        made.lines().forEach(print::println);
        return Exit.DONE.code();
    }
}
