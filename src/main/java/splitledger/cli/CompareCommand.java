package splitledger.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import splitledger.base.FolderVault;
import splitledger.base.JoinedVault;
import splitledger.base.Numbers;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.base.Vault;
import splitledger.dossier.DossierWriter;
import splitledger.evaluation.Evaluator;
import splitledger.history.Checks;
import splitledger.history.Occasions;
import splitledger.intake.StudyReader;
import splitledger.study.Answer;
import splitledger.study.Evaluation;
import splitledger.study.Finding;
import splitledger.study.Flag;
import splitledger.study.Place;
import splitledger.study.Study;

/** Before against after: two protocols or dossiers in, one dossier with the verdict out. */
@Command(
        name = "compare",
        mixinStandardHelpOptions = true,
        versionProvider = ProgramVersion.class,
        description = {
            "Compares the injections before and after a piece of work on the instrument: restored, not"
                    + " restored or undecided."
        },
        descriptionHeading = "%n",
        optionListHeading = "%nOptions:%n")
final class CompareCommand implements Callable<Integer> {
    @Spec private CommandSpec spec;

    @SuppressWarnings("UnusedVariable") // Failures asks the parsed command line for it
    @Mixin
    private MessagesOption messages = new MessagesOption();

    @Parameters(
            index = "0",
            paramLabel = "BEFORE",
            description =
                    "The study before: its protocol, or the dossier that evaluate left, packed or not.")
    private Path before = Path.of("");

    @Parameters(
            index = "1",
            paramLabel = "AFTER",
            description = "The study after: its protocol, or its dossier.")
    private Path after = Path.of("");

    @Option(
            names = "--out",
            required = true,
            paramLabel = "DIR",
            description = "Folder of the dossier; must be new or empty.")
    private Path out = Path.of("");

    @Option(names = "--replace", description = "Replace a dossier that is already there.")
    private boolean replace;

    @Option(
            names = "--root",
            paramLabel = "DIR",
            description =
                    "Folder that the files of both studies must lie below. Without it: the working folder if"
                            + " both lie there, else the folder that holds both.")
    private Optional<Path> root = Optional.empty();

    @Option(names = "--strict", description = "Let 'undecided' count as not restored (exit 1).")
    private boolean strict;

    @Override
    public Integer call() throws ProblemException, IOException {
        DossierWriter.check(out, replace);
        try (ComparedStudy first = ComparedStudy.of(before);
                ComparedStudy second = ComparedStudy.of(after)) {
            final Path base = base(first, second);
            final Vault inputs = inputs(base, first, second);
            final Study earlier = read(inputs, base, first.protocol());
            final Study later = read(inputs, base, second.protocol());
            final List<Checks.Check> checks = Checks.of(later);
            final Evaluation evaluation = evaluated(earlier, later, checks);
            new DossierWriter(ProgramVersion.built()).write(evaluation, inputs, out);
            return told(evaluation, checks).code();
        }
    }

    private Path base(ComparedStudy first, ComparedStudy second)
            throws IOException, ProblemException {
        final Path here = root.isPresent() ? root.get().toRealPath() : Path.of("").toRealPath();
        if (first.anchor().startsWith(here) && second.anchor().startsWith(here)) {
            return here;
        }
        Path common = first.anchor();
        while (common != null && !second.anchor().startsWith(common)) {
            common = common.getParent();
        }
        if (root.isPresent() || common == null) {
            throw new ProblemException(
                    new Problem(
                            first.protocol().toString(),
                            0,
                            "--root",
                            "a protocol outside " + here,
                            "both below it",
                            "name a folder above both"));
        }
        return common;
    }

    /** The files on the disk, with the inputs of packed dossiers as folders among them. */
    private static Vault inputs(Path base, ComparedStudy first, ComparedStudy second)
            throws IOException {
        final SortedMap<String, Vault> packed = new TreeMap<>();
        for (ComparedStudy study : List.of(first, second)) {
            if (study.packed().isPresent()) {
                final ComparedStudy.Packed archive = study.packed().get();
                packed.put(
                        ProtocolFile.slashed(base.relativize(archive.folder())) + "/",
                        archive.dossier().inputs());
            }
        }
        return new JoinedVault(FolderVault.of(base), packed);
    }

    private static Study read(Vault inputs, Path base, Path protocol)
            throws ProblemException, IOException {
        return StudyReader.read(inputs, ProtocolFile.slashed(base.relativize(protocol)));
    }

    /** Before against after, with what the work on the instrument asks to be checked. */
    static Evaluation evaluated(Study earlier, Study later, List<Checks.Check> checks)
            throws ProblemException {
        return Evaluator.evaluate(flagged(Occasions.merged(earlier, later), checks));
    }

    private static Study flagged(Study study, List<Checks.Check> checks) {
        final List<Flag> flags = new ArrayList<>(study.flags());
        for (Checks.Check check : checks) {
            flags.add(
                    new Flag(
                            Place.NONE,
                            "after work on: " + check.work(),
                            check.what() + ": " + check.standing().words()));
        }
        return new Study(
                study.protocol(),
                study.compounds(),
                study.table(),
                study.inputs(),
                flags,
                study.choices(),
                study.standards(),
                study.everything());
    }

    private Exit told(Evaluation evaluation, List<Checks.Check> checks) {
        final PrintWriter print = spec.commandLine().getOut();
        final Answer restored = answer(evaluation, "restored");
        final Exit exit;
        if (restored instanceof Answer.Statistic s) {
            print.println(out + ": " + (s.value() > 0 ? "restored" : "not restored"));
            exit = s.value() > 0 ? Exit.DONE : Exit.CRITERION_NOT_MET;
        } else {
            print.println(out + ": undecided");
            exit = strict ? Exit.CRITERION_NOT_MET : Exit.DONE;
        }
        if (answer(evaluation, "injections-needed") instanceof Answer.Statistic s) {
            print.println(
                    "  injections on each occasion of the next, separate check: "
                            + Numbers.text(s.value()));
        }
        evaluation.choices().stream()
                .filter(c -> c.what().startsWith("What changed"))
                .forEach(
                        c -> {
                            for (String sentence : c.why().split("\\. ", -1)) {
                                print.println("  " + sentence);
                            }
                        });
        for (Checks.Check check : checks) {
            if (check.standing() != Checks.Standing.SHOWN) {
                print.println(
                        "  after work on the "
                                + check.work()
                                + ", "
                                + check.what()
                                + ": "
                                + check.standing().words());
            }
        }
        print.println("  report: " + out.resolve("report.html"));
        return evaluation.fallsShort() ? exit.worse(Exit.CRITERION_NOT_MET) : exit;
    }

    private static Answer answer(Evaluation evaluation, String quantity) {
        return evaluation.findings().stream()
                .filter(f -> f.key().quantity().equals(quantity))
                .map(Finding::answer)
                .findFirst()
                .orElse(new Answer.NotEstimable("1", "no-finding", ""));
    }
}
