package splitledger.planning.ahead;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import splitledger.base.CsvText;
import splitledger.base.Numbers;

/** The protocol that will evaluate a planned study, and the table of its levels. */
final class PlanProtocol {
    private static final double PERCENT = 100;

    private final StudyPlan plan;
    private final Set<String> series = new TreeSet<>();

    PlanProtocol(StudyPlan plan, List<Run> runs) {
        this.plan = plan;
        runs.forEach(run -> series.add(run.series()));
    }

    /** Amounts of every level. */
    byte[] levels() {
        final CsvText csv = new CsvText(List.of("level", "compound", "amount"));
        final List<Double> amounts = plan.design().amounts(plan.file().amounts());
        final List<String> labels = Bench.levels(plan.design());
        for (int i = 0; i < labels.size(); i++) {
            rows(csv, labels.get(i), amounts.get(i));
        }
        if (plan.design().spiked() > 0) {
            rows(csv, Bench.SPIKE, spiked(plan));
        }
        rows(csv, RunOrder.CHECK, plan.file().amounts().result());
        for (Experiment e : plan.design().experiments()) {
            e.levels()
                    .forEach(
                            (level, each) ->
                                    each.forEach(
                                            (compound, amount) ->
                                                    csv.cell(level)
                                                            .cell(compound)
                                                            .cell((double) amount)
                                                            .endRow()));
        }
        return csv.bytes();
    }

    /** The table of alkanes and of targets that it knows; empty without a ladder. */
    Optional<byte[]> compounds() {
        final List<String> wanted = new ArrayList<>(ladder());
        if (wanted.isEmpty()) {
            return Optional.empty();
        }
        wanted.addAll(plan.file().targets());
        plan.file().labile().ifPresent(l -> wanted.addAll(l.products()));
        plan.file().standard().ifPresent(s -> wanted.add(s.compound()));
        final List<String> lines = LadderExperiment.table().lines().toList();
        final StringBuilder text = new StringBuilder(lines.get(0)).append('\n');
        lines.stream()
                .skip(1)
                .filter(line -> wanted.contains(line.split(",", -1)[0]))
                .forEach(line -> text.append(line).append('\n'));
        return Optional.of(text.toString().getBytes(StandardCharsets.UTF_8));
    }

    private List<String> ladder() {
        return plan.design().experiments().stream().flatMap(e -> e.ladder().stream()).toList();
    }

    /** Low spiked preparations hold twice the wanted limit; 40 CFR 136 App. B asks for 2 to 10. */
    static double spiked(StudyPlan plan) {
        return 2 * plan.file().wanted().limit().orElseThrow();
    }

    private void rows(CsvText csv, String level, double amount) {
        for (String compound : plan.file().targets()) {
            csv.cell(level).cell(compound).cell(amount).endRow();
        }
    }

    /** The protocol. */
    byte[] text() {
        final PlanFile file = plan.file();
        final StringBuilder text = new StringBuilder();
        text.append(
                        "# Written by plan before the first injection. Change what is not so at the"
                                + " bench.\n")
                .append("splitledger: 1\n")
                .append("title: ")
                .append(quoted(file.title()))
                .append("\npurpose: ")
                .append(purpose())
                .append("\n\n")
                .append(TABLES)
                .append("\ncompounds:\n")
                .append(ladder().isEmpty() ? "" : "  from: compounds.csv\n")
                .append("  targets: [")
                .append(
                        String.join(
                                ", ", file.targets().stream().map(PlanProtocol::quoted).toList()))
                .append("]\n");
        if (!ladder().isEmpty()) {
            text.append("  ladder: [").append(String.join(", ", ladder())).append("]\n");
        }
        file.standard()
                .ifPresent(
                        s ->
                                text.append("  internal-standard: {compound: ")
                                        .append(quoted(s.compound()))
                                        .append(", amount: ")
                                        .append(Numbers.text(s.amount()))
                                        .append(" mg/L}\n"));
        text.append("\nconventions:\n");
        final String convention = file.setting().convention();
        text.append("  split-ratio: ")
                .append(
                        convention.isEmpty()
                                ? "\"ASK total-to-column or vent-to-column: they differ by 1\""
                                : convention)
                .append('\n');
        text.append(
                        "  recalibrated: once                      # the calibrants of the first"
                                + " day serve all\n")
                .append("  amount-unit: mg/L\n\ncharacteristics:\n");
        characteristics(text);
        requirements(text);
        if (series.contains("repeatability")) {
            measurand(text);
        }
        return text.toString().getBytes(StandardCharsets.UTF_8);
    }

    private static final String TABLES =
            """
            # areas.csv comes out of the data system: a row for each injection, a column for each compound.
            # As soon as it holds a 0, say what that means: zero-means: not-detected, or measured.
            tables:
              - {file: areas.csv, form: wide}
              - {file: run-list.csv, joins-on: injection}
              - {file: levels.csv, joins-on: [level, compound]}
            """;

    private static final String RESULT =
            """

            measurand:
              name: amount in the solution
              unit: mg/L
            """;

    private String purpose() {
        return series.contains("repeatability") || !plan.design().experiments().isEmpty()
                ? "full-validation"
                : series.contains("blank") ? "detection" : "after-maintenance";
    }

    private void characteristics(StringBuilder text) {
        if (series.contains("calibration")) {
            text.append("  calibration: {where: {series: calibration}}\n");
        }
        if (series.contains("repeatability")) {
            text.append("  repeatability: {where: {series: repeatability}, factors: [day]}\n");
        }
        if (series.contains("blank")) {
            text.append("  detection: {where: {series: [calibration, blank]}");
            if (series.contains("spike-low")) {
                text.append(", spiked: {series: spike-low}");
            }
            text.append("}\n");
        }
        if (series.contains("maintenance")) {
            text.append("  maintenance: {where: {series: maintenance}, margin: ")
                    .append(percent(plan.file().wanted().margin().orElseThrow()))
                    .append(", occasion-scatter: ")
                    .append(percent(plan.file().prior().occasion().value()))
                    .append("}\n");
        }
        plan.design().experiments().forEach(e -> text.append(e.block()));
    }

    private void requirements(StringBuilder text) {
        if (plan.file().wanted().uncertainty().isPresent()) {
            text.append(REQUIREMENT)
                    .append("     condition: {level: ")
                    .append(Bench.nearest(plan))
                    .append("}, set: ")
                    .append(plan.file().start())
                    .append(", at-most: ")
                    .append(percent(plan.file().wanted().uncertainty().get()))
                    .append(" %}\n");
        }
    }

    private static final String REQUIREMENT =
            """

            requirements:
              - {quantity: relative-expanded-uncertainty, basis: observed,
                 source: the plan of this study,
            """;

    private void measurand(StringBuilder text) {
        final double other = plan.file().prior().other().value();
        text.append(RESULT)
                .append("  equation: found * precision")
                .append(other > 0 ? " * other" : "")
                .append("\n  inputs:\n")
                .append("    precision: {value: 1, spread-of: rsd-intermediate, mean-of: 1}\n");
        if (other > 0) {
            text.append("    other: {value: 1, standard-uncertainty: ")
                    .append(Numbers.text(other))
                    .append(", source: ")
                    .append(quoted(plan.file().prior().other().basis()))
                    .append("}\n");
        }
        text.append("  routine: {preparations: ")
                .append(plan.design().ofResult())
                .append(", injections: ")
                .append(plan.design().injections())
                .append("}\n");
        if (series.contains("sample")) {
            text.append("  results-for: {series: sample}\n");
        }
    }

    private static String percent(double fraction) {
        return Numbers.text(Math.rint(PERCENT * fraction * 1e9) / 1e9);
    }

    /** A text that any YAML reader takes as a text. */
    static String quoted(String text) {
        return '"' + text.replace("\\", "\\\\").replace("\"", "\\\"").replace("\n", " ") + '"';
    }
}
