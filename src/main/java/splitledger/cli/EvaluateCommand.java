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
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.base.Vault;
import splitledger.dossier.DossierWriter;
import splitledger.evaluation.Evaluator;
import splitledger.intake.StudyReader;
import splitledger.study.Evaluation;
import splitledger.study.Study;
import splitledger.study.Verdict;

/** The main job: protocol and tables in, dossier out. */
@Command(
        name = "evaluate",
        mixinStandardHelpOptions = true,
        description =
                "Evaluates the tables that a protocol names and leaves a dossier: results, budgets, report.",
        descriptionHeading = "%n",
        optionListHeading = "%nOptions:%n")
final class EvaluateCommand implements Callable<Integer> {
    @Spec private CommandSpec spec;

    @Mixin private MessagesOption messages = new MessagesOption();

    @Parameters(
            paramLabel = "PROTOCOL",
            arity = "1..*",
            description =
                    "Protocol file (YAML). With several, each dossier is DIR/<folder of the protocol>.")
    private List<Path> protocols = new ArrayList<>();

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
                    "Folder that the protocol's files must lie below. Without it: the working folder if the protocol"
                            + " lies there, else the protocol's own folder.")
    private Optional<Path> root = Optional.empty();

    @Option(
            names = "--strict",
            description = "Let an undecided requirement count as not met (exit 1).")
    private boolean strict;

    @Option(names = "--no-pdf", description = "Leave report.pdf out, which takes a few seconds.")
    private boolean noPdf;

    @Override
    public Integer call() throws ProblemException, IOException {
        final List<Path> targets = targets();
        Exit worst = Exit.DONE;
        for (int i = 0; i < protocols.size(); i++) {
            try {
                worst = worst.worse(one(protocols.get(i), targets.get(i)));
            } catch (ProblemException | IOException e) {
                worst =
                        worst.worse(
                                Failures.report(e, spec.commandLine().getErr(), messages.form()));
            }
        }
        return worst.code();
    }

    private Exit one(Path protocol, Path target) throws ProblemException, IOException {
        DossierWriter.check(target, replace);
        final ProtocolFile file = ProtocolFile.find(protocol, root);
        final Vault inputs = file.vault();
        final Study study = StudyReader.read(inputs, file.name());
        final Evaluation evaluation = Evaluator.evaluate(study);
        new DossierWriter(ProgramVersion.built()).withPdf(!noPdf).write(evaluation, inputs, target);
        return told(evaluation, target);
    }

    private Exit told(Evaluation evaluation, Path target) {
        final PrintWriter print = spec.commandLine().getOut();
        print.println(
                target
                        + ": "
                        + evaluation.findings().size()
                        + " findings, "
                        + evaluation.budgets().size()
                        + " budgets");
        for (Verdict verdict :
                List.of(Verdict.MEETS, Verdict.FAILS, Verdict.NOT_SHOWN, Verdict.UNDECIDED)) {
            final long count =
                    evaluation.findings().stream().filter(f -> f.verdict() == verdict).count();
            if (count > 0) {
                print.println("  " + count + " " + verdict.words());
            }
        }
        print.println("  report: " + target.resolve("report.html"));
        final boolean undecided =
                strict
                        && evaluation.findings().stream()
                                .anyMatch(f -> f.verdict() == Verdict.UNDECIDED);
        return evaluation.fallsShort() || undecided ? Exit.CRITERION_NOT_MET : Exit.DONE;
    }

    /** Where each dossier goes. */
    private List<Path> targets() throws ProblemException {
        if (protocols.size() == 1) {
            return List.of(out);
        }
        final List<Path> targets = new ArrayList<>();
        for (Path protocol : protocols) {
            final Path folder = protocol.toAbsolutePath().normalize().getParent();
            final Path name = folder == null ? null : folder.getFileName();
            final Path target = out.resolve(name == null ? Path.of("protocol") : name);
            if (targets.contains(target)) {
                throw new ProblemException(
                        new Problem(
                                protocol.toString(),
                                0,
                                "PROTOCOL",
                                "a second protocol in a folder named " + target.getFileName(),
                                "folders of different names",
                                "evaluate them one by one, each with its own --out"));
            }
            targets.add(target);
        }
        return targets;
    }
}
