package splitledger.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import splitledger.base.ProblemException;
import splitledger.base.Shown;
import splitledger.dossier.DossierReader;
import splitledger.evaluation.Evaluator;
import splitledger.evaluation.Guarded;
import splitledger.evaluation.InjectionTrail;
import splitledger.study.Answer;
import splitledger.study.Extent;
import splitledger.study.Study;
import splitledger.study.Trail;

/** One injection worked by hand. */
@Command(
        name = "trace",
        mixinStandardHelpOptions = true,
        versionProvider = ProgramVersion.class,
        description = {
            "Works one injection of a dossier by hand: every step from the area in the table through"
                    + " response, calibration line and amount to the result, with the numbers put in."
        },
        descriptionHeading = "%n",
        optionListHeading = "%nOptions:%n")
final class TraceCommand implements Callable<Integer> {
    @Spec private CommandSpec spec;

    @SuppressWarnings("UnusedVariable") // Failures asks the parsed command line for it
    @Mixin
    private MessagesOption messages = new MessagesOption();

    @Parameters(index = "0", paramLabel = "COMPOUND", description = "As the study names it.")
    private String compound = "";

    @Option(
            names = "--injection",
            required = true,
            paramLabel = "N",
            description = "Label of the injection.")
    private String injection = "";

    @Option(
            names = "--in",
            required = true,
            paramLabel = "DOSSIER",
            description = "The folder that evaluate left, or the archive it was packed into.")
    private Path dossier = Path.of("");

    @Override
    public Integer call() throws ProblemException, IOException {
        final Study study = DossierReader.study(dossier);
        final InjectionTrail trail =
                InjectionTrail.of(Evaluator.evaluate(study, Extent.FORMULAS), compound, injection);
        final PrintWriter print = spec.commandLine().getOut();
        print.println(Shown.text(study.protocol().title()));
        for (InjectionTrail.Section section : trail.sections()) {
            print.println();
            print.println(Shown.text(section.title()));
            section(section, print);
        }
        if (!trail.others().isEmpty()) {
            print.println();
            print.println("Other findings that rest on this injection");
            trail.others().forEach(text -> print.println("  " + Shown.text(text)));
        }
        return Exit.DONE.code();
    }

    private static void section(InjectionTrail.Section section, PrintWriter print) {
        int number = 1;
        for (Trail.Step step : section.steps()) {
            print.println("  " + number + ". " + Shown.text(step.words()));
            print.println("     " + Shown.text(step.formula()) + " = " + worked(step));
            number++;
        }
        if (section.outcome().isPresent()
                && section.outcome().get() instanceof Answer.Estimate e
                && e.standardUncertainty() > 0) {
            outcome(e, print);
        }
    }

    /** Numbers put in, where they say more than what comes out, and what comes out. */
    private static String worked(Trail.Step step) {
        final String value = Trail.digits(step.value());
        final String numbers = Shown.text(step.numbers());
        if (Double.isNaN(step.value())) {
            return "no number: " + numbers;
        }
        final boolean more = !numbers.isEmpty() && !numbers.equals(value);
        return (more ? numbers + " = " : "") + value + unit(step.unit());
    }

    private static void outcome(Answer.Estimate e, PrintWriter print) {
        final double u = e.standardUncertainty();
        print.println(
                "  with two guard digits: "
                        + Guarded.carried(e.value(), u)
                        + unit(e.unit())
                        + ", standard uncertainty "
                        + Guarded.carried(u, u)
                        + unit(e.unit()));
        print.println(
                "  rounded: "
                        + Guarded.rounded(e.value(), u)
                        + unit(e.unit())
                        + ", standard uncertainty "
                        + Guarded.rounded(u, u)
                        + unit(e.unit()));
    }

    private static String unit(String unit) {
        return unit.isEmpty() || unit.equals("1") ? "" : " " + Shown.text(unit);
    }
}
