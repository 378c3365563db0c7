package splitledger.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import splitledger.base.ProblemException;
import splitledger.base.Shown;
import splitledger.dossier.Recheck;

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
            description = "The folder that evaluate left, with its manifest.json.")
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
        final Recheck recheck = Recheck.of(dossier, ProgramVersion.built(), digits);
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
