package splitledger.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.dossier.Shelf;
import splitledger.qualification.Qualification;
import splitledger.qualification.Qualification.Outcome;
import splitledger.qualification.QualificationRecord;

/** Shows on this machine that the program computes what others have published. */
@Command(
        name = "qualify",
        mixinStandardHelpOptions = true,
        versionProvider = ProgramVersion.class,
        description = {
            "Evaluates studies and printed tables whose answers are published or worked by hand, and"
                    + " records what came out on this machine. Ends with 1 if a case does not pass."
        },
        descriptionHeading = "%n",
        optionListHeading = "%nOptions:%n")
final class QualifyCommand implements Callable<Integer> {
    private static final String CSV = QualificationRecord.CSV;
    private static final String HTML = QualificationRecord.HTML;
    private static final String PDF = QualificationRecord.PDF;

    @Spec private CommandSpec spec;

    @SuppressWarnings("UnusedVariable") // Failures asks the parsed command line for it
    @Mixin
    private MessagesOption messages = new MessagesOption();

    @Option(
            names = "--out",
            paramLabel = "DIR",
            description = "Folder for the record: " + CSV + ", " + HTML + " and " + PDF + ".")
    private Optional<Path> out = Optional.empty();

    @Option(names = "--replace", description = "Replace a record that is already there.")
    private boolean replace;

    @Override
    public Integer call() throws ProblemException, IOException {
        if (out.isPresent() && !replace) {
            for (String name : List.of(CSV, HTML, PDF)) {
                requireFree(out.get().resolve(name));
            }
        }
        final List<Outcome> outcomes = Qualification.run();
        final QualificationRecord.Tried tried = tried();
        print(outcomes, tried);
        if (out.isPresent()) {
            final byte[] paper = QualificationRecord.pdf(outcomes, tried, ProgramVersion.built());
            final Shelf shelf = new Shelf(out.get(), ProgramVersion.built(), replace, false);
            shelf.table(CSV, QualificationRecord.csv(outcomes));
            shelf.table(HTML, QualificationRecord.html(outcomes, tried));
            shelf.table(PDF, paper);
            spec.commandLine().getOut().println("  record: " + out.get().resolve(HTML));
            spec.commandLine().getOut().println("  to sign: " + out.get().resolve(PDF));
        }
        final boolean all = QualificationRecord.passed(outcomes) == outcomes.size();
        return (all ? Exit.DONE : Exit.CRITERION_NOT_MET).code();
    }

    private static void requireFree(Path file) throws ProblemException {
        if (Files.exists(file)) {
            throw new ProblemException(
                    new Problem(
                            file.toString(),
                            0,
                            "--out",
                            "a record that is there",
                            "a folder without one",
                            "name another folder with --out, or give --replace to replace it"));
        }
    }

    private static QualificationRecord.Tried tried() throws IOException {
        final splitledger.dossier.ProgramVersion built = ProgramVersion.built();
        return new QualificationRecord.Tried(
                "splitledger " + built.program() + ", source revision " + built.revision(),
                "Java "
                        + System.getProperty("java.version", "unknown")
                        + " on "
                        + System.getProperty("os.name", "unknown")
                        + " ("
                        + System.getProperty("os.arch", "unknown")
                        + ")");
    }

    private void print(List<Outcome> outcomes, QualificationRecord.Tried tried) {
        final PrintWriter print = spec.commandLine().getOut();
        print.println(tried.program());
        print.println(tried.machine());
        final int id = width(outcomes.stream().map(o -> o.known().id()).toList());
        final int what = width(outcomes.stream().map(o -> o.known().what()).toList());
        final String form = "%-" + id + "s  %-" + what + "s  %20s  %24s  %6s  %-4s  %s";
        line(print, form, "case", "quantity", "expected", "computed", "digits", "pass", "source");
        for (Outcome o : outcomes) {
            line(
                    print,
                    form,
                    o.known().id(),
                    o.known().what(),
                    o.known().expected(),
                    o.computed(),
                    QualificationRecord.digits(o),
                    o.pass() ? "yes" : "NO",
                    o.known().source());
        }
        print.println(
                QualificationRecord.passed(outcomes) + " of " + outcomes.size() + " cases pass");
    }

    private static int width(List<String> texts) {
        return texts.stream().mapToInt(String::length).max().orElse(1);
    }

    private static void line(PrintWriter print, String form, Object... cells) {
        print.println(String.format(Locale.ROOT, form, cells).stripTrailing());
    }
}
