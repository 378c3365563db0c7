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
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import splitledger.base.ProblemException;
import splitledger.base.Vault;
import splitledger.dossier.DossierPack;
import splitledger.dossier.DossierWriter;
import splitledger.dossier.Shelf;
import splitledger.evaluation.Evaluator;
import splitledger.fleet.Summary;
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
            description = {
                "Protocol file (YAML). With several, each dossier is DIR/<folder of the protocol> and"
                        + " DIR/fleet.csv sums them up; one that fails stops no other.",
                "A folder stands for every protocol.yaml in it and below it, a pattern such as"
                        + " 'studies/*/protocol.yaml' for all files that fit."
            })
    private List<String> protocols = new ArrayList<>();

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

    @Option(
            names = "--png",
            description = "Write every chart also as PNG beside its SVG, 1440 by 880 points.")
    private boolean png;

    @Option(
            names = "--pack",
            description = "Also pack the dossier into one archive beside it, DIR.zip.")
    private boolean pack;

    @Option(
            names = "--resume",
            description =
                    "Leave a dossier as it is if this program wrote it from the same files and nothing"
                            + " in it has changed.")
    private boolean resume;

    @Option(
            names = "--jobs",
            paramLabel = "N",
            description =
                    "How many studies are evaluated at a time; else as many as there are processors"
                            + " and memory for.")
    private Optional<Integer> jobs = Optional.empty();

    @Override
    public Integer call() throws ProblemException, IOException {
        if (jobs.isPresent() && jobs.get() < 1) {
            throw new ParameterException(
                    spec.commandLine(), "--jobs must be 1 or more, not " + jobs.get());
        }
        final Protocols named = Protocols.named(protocols);
        if (!named.several()) {
            return one(named.files().get(0), out).code();
        }
        final PrintWriter print = spec.commandLine().getOut();
        return new FleetRun(print, spec.commandLine().getErr(), messages.form(), out, strict)
                .run(named, root, new FleetRun.Wanted(replace, resume, pack, png, jobs))
                .code();
    }

    private Exit one(Path protocol, Path target) throws ProblemException, IOException {
        if (!resume) {
            requireFree(target);
        }
        final ProtocolFile file = ProtocolFile.find(protocol, root);
        if (resume) {
            final Optional<Shelf.Kept> kept =
                    new Shelf(target, ProgramVersion.built(), replace, pack)
                            .withPng(png)
                            .kept(file.vault(), file.name(), "");
            if (kept.isPresent()) {
                spec.commandLine().getOut().println("nothing has changed; the dossier is kept");
                return told(Summary.of(kept.get()), target);
            }
            requireFree(target);
        }
        final Vault inputs = file.vault();
        final Study study = StudyReader.read(inputs, file.name());
        final Evaluation evaluation = Evaluator.evaluate(study);
        new DossierWriter(ProgramVersion.built())
                .withPdf(!noPdf)
                .withPng(png)
                .write(evaluation, inputs, target);
        final Exit exit = told(Summary.of(evaluation, ""), target);
        if (pack) {
            spec.commandLine().getOut().println("  archive: " + DossierPack.write(target));
        }
        return exit;
    }

    private void requireFree(Path target) throws ProblemException, IOException {
        DossierWriter.check(target, replace);
        if (pack) {
            DossierPack.check(target, replace);
        }
    }

    private Exit told(Summary summary, Path target) {
        final PrintWriter print = spec.commandLine().getOut();
        print.println(
                target
                        + ": "
                        + summary.findings()
                        + " findings, "
                        + summary.budgets()
                        + " budgets");
        for (Verdict verdict :
                List.of(Verdict.MEETS, Verdict.FAILS, Verdict.NOT_SHOWN, Verdict.UNDECIDED)) {
            if (summary.count(verdict) > 0) {
                print.println("  " + summary.count(verdict) + " " + verdict.words());
            }
        }
        print.println("  report: " + target.resolve("report.html"));
        return summary.fallsShort(strict) ? Exit.CRITERION_NOT_MET : Exit.DONE;
    }
}
