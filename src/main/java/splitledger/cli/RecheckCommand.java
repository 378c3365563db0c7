package splitledger.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import splitledger.base.MemoryVault;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.base.Shown;
import splitledger.base.Vault;
import splitledger.dossier.Recheck;
import splitledger.evaluation.Evaluator;
import splitledger.history.Checks;
import splitledger.intake.StudyReader;
import splitledger.report.ReportWriter;
import splitledger.study.Evaluation;
import splitledger.study.Study;

/** A dossier years later: is it what it was, and does it still come out? */
@Command(
        name = "recheck",
        mixinStandardHelpOptions = true,
        versionProvider = ProgramVersion.class,
        description = {
            "Compares every file of a dossier with the digests in its manifest, evaluates the copies of"
                    + " its inputs again, and compares what comes out: byte for byte if the same program"
                    + " wrote it, else number by number. Ends with 1 if anything differs."
        },
        descriptionHeading = "%n",
        optionListHeading = "%nOptions:%n")
final class RecheckCommand implements Callable<Integer> {
    private static final int SHOWN = 50;
    private static final int MOST_DIGITS = 15;

    @Spec private CommandSpec spec;

    @SuppressWarnings("UnusedVariable") // Failures asks the parsed command line for it
    @Mixin
    private MessagesOption messages = new MessagesOption();

    @Parameters(
            index = "0",
            paramLabel = "DOSSIER",
            description =
                    "The folder that evaluate or compare left, with its manifest.json, or the"
                            + " archive it was packed into, which stays packed.")
    private Path dossier = Path.of("");

    @Option(
            names = "--digits",
            paramLabel = "N",
            defaultValue = "9",
            description =
                    "Significant digits to which the numbers of another version of the program must"
                            + " agree (${DEFAULT-VALUE}).")
    private int digits;

    @Override
    public Integer call() throws ProblemException, IOException {
        if (digits < 1 || digits > MOST_DIGITS) {
            throw new ParameterException(
                    spec.commandLine(), "--digits must be 1 to " + MOST_DIGITS + ", not " + digits);
        }
        final Recheck recheck = Recheck.of(dossier, ProgramVersion.built(), digits, this::again);
        final PrintWriter print = spec.commandLine().getOut();
        print.println(
                dossier
                        + ": "
                        + (recheck.agrees() ? "nothing differs" : "something differs from before"));
        print.println("  written by version " + written(recheck));
        print.println(
                "  digests: "
                        + recheck.digests()
                        + " files compared, "
                        + recheck.changed().size()
                        + " differ");
        recheck.changed().forEach(p -> print.println("    " + p.text().replace("\n", "\n    ")));
        results(recheck, print);
        return (recheck.agrees() ? Exit.DONE : Exit.CRITERION_NOT_MET).code();
    }

    /**
     * Evaluates as the dossier was made. A manifest does not tell which study of a comparison was
     * the earlier one: the order that gives the dossier's results is taken, else the first.
     */
    private Evaluation again(Vault inputs, List<String> protocols, byte[] results)
            throws ProblemException, IOException {
        if (protocols.size() == 1) {
            return Evaluator.evaluate(StudyReader.read(inputs, protocols.get(0)));
        }
        if (protocols.size() != 2) {
            throw new ProblemException(
                    new Problem(
                            dossier.toString(),
                            0,
                            "inputs",
                            protocols.size() + " protocols",
                            "one protocol, or the two of a comparison",
                            "name a folder that 'splitledger evaluate' or 'compare' has written"));
        }
        final Study one = StudyReader.read(inputs, protocols.get(0));
        final Study two = StudyReader.read(inputs, protocols.get(1));
        try {
            final Evaluation reversed = CompareCommand.evaluated(two, one, Checks.of(one));
            final MemoryVault made = new MemoryVault(new TreeMap<>());
            ReportWriter.tables(reversed, made, "");
            if (Arrays.equals(made.read("results.csv"), results)) {
                return reversed;
            }
        } catch (ProblemException onlyInTheOtherOrder) {
            return CompareCommand.evaluated(one, two, Checks.of(two));
        }
        return CompareCommand.evaluated(one, two, Checks.of(two));
    }

    private String written(Recheck recheck) {
        return Shown.text(recheck.writtenBy().program())
                + " (source revision "
                + Shown.text(recheck.writtenBy().revision())
                + "), "
                + (recheck.sameProgram() ? "this program" : "not this program");
    }

    private void results(Recheck recheck, PrintWriter print) {
        if (recheck.recomputed().isEmpty()) {
            print.println(
                    "  results: not computed again, for the inputs are not those of the evaluation");
            return;
        }
        print.println(
                "  results computed again: "
                        + String.join(", ", recheck.recomputed())
                        + "; "
                        + (recheck.sameProgram()
                                ? "compared byte for byte, "
                                : "numbers compared to "
                                        + digits
                                        + " significant digits, verdicts and units exactly, ")
                        + recheck.differences().size()
                        + " differences");
        recheck.differences().stream()
                .limit(SHOWN)
                .forEach(
                        d ->
                                print.println(
                                        "    "
                                                + Shown.text(d.place())
                                                + ": in the dossier "
                                                + Shown.text(d.dossier())
                                                + ", now "
                                                + Shown.text(d.anew())));
        if (recheck.differences().size() > SHOWN) {
            print.println("    and " + (recheck.differences().size() - SHOWN) + " more");
        }
        if (recheck.reworded() > 0) {
            print.println(
                    "  "
                            + recheck.reworded()
                            + " explanations or drawings read otherwise in this version; they are"
                            + " no results and do not count");
        }
    }
}
