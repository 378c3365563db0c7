package splitledger.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.evaluation.LimitUnits;
import splitledger.evaluation.Readiness;
import splitledger.intake.StudyReader;
import splitledger.study.InjectionTable;
import splitledger.study.Study;

/** Reads everything and evaluates nothing. */
@Command(
        name = "check",
        mixinStandardHelpOptions = true,
        description =
                "Reads a protocol and its tables and says what is wrong with them, what was read, and"
                        + " what each characteristic lacks. Evaluates nothing, writes nothing.",
        descriptionHeading = "%n",
        optionListHeading = "%nOptions:%n")
final class CheckCommand implements Callable<Integer> {
    @Spec private CommandSpec spec;

    @Mixin private MessagesOption messages = new MessagesOption();

    @Parameters(paramLabel = "PROTOCOL", arity = "1..*", description = "Protocol file (YAML).")
    private List<Path> protocols = new ArrayList<>();

    @Option(
            names = "--root",
            paramLabel = "DIR",
            description = "Folder that the protocol's files must lie below, as for evaluate.")
    private Optional<Path> root = Optional.empty();

    @Override
    public Integer call() {
        Exit worst = Exit.DONE;
        for (Path protocol : protocols) {
            try {
                one(protocol);
            } catch (ProblemException | IOException e) {
                worst =
                        worst.worse(
                                Failures.report(e, spec.commandLine().getErr(), messages.form()));
            }
        }
        return worst.code();
    }

    private void one(Path protocol) throws ProblemException, IOException {
        final ProtocolFile file = ProtocolFile.find(protocol, root);
        final Study study = StudyReader.read(file.vault(), file.name());
        final List<Problem> units = LimitUnits.problems(study.protocol());
        if (!units.isEmpty()) {
            throw new ProblemException(units);
        }
        final PrintWriter out = spec.commandLine().getOut();
        out.println(protocol + ": nothing wrong was found");
        lines(study).forEach(line -> out.println("  " + line));
    }

    /** What was read and what it lacks, in a few lines. */
    static List<String> lines(Study study) {
        final List<String> lines = new ArrayList<>();
        final Map<String, Set<String>> series = new LinkedHashMap<>();
        final Set<String> injections = new LinkedHashSet<>();
        final InjectionTable table = study.table();
        for (int row = 0; row < table.size(); row++) {
            injections.add(table.injection(row));
            final String label = table.label("series", row);
            series.computeIfAbsent(label.isEmpty() ? "(none)" : label, s -> new LinkedHashSet<>())
                    .add(table.injection(row));
        }
        final int excluded = study.protocol().exclusions().size();
        lines.add(
                "injections: "
                        + injections.size()
                        + (excluded > 0 ? "; exclusions as stated: " + excluded : ""));
        lines.add(
                "compounds: "
                        + String.join(", ", study.compounds().targets())
                        + study.compounds()
                                .internalStandard()
                                .map(i -> "; internal standard " + i.compound())
                                .orElse(""));
        final List<String> counts = new ArrayList<>();
        series.forEach((label, of) -> counts.add(label + " " + of.size()));
        lines.add("series: " + String.join(", ", counts));
        for (Readiness ready : Readiness.of(study)) {
            lines.add(ready.id() + ": " + ready.holds());
            ready.lacks().forEach(lack -> lines.add("  lacks: " + lack));
        }
        if (study.protocol().requirements().isEmpty()) {
            lines.add("requirements: none; everything will be reported for information");
        }
        return lines;
    }
}
