package splitledger.planning.ahead;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import splitledger.chart.ChartRenderer;
import splitledger.study.Figure;

/**
 * Everything that a plan leaves.
 *
 * @param files by name
 * @param lines for the terminal
 * @param runs in order
 */
public record PlanFiles(Map<String, byte[]> files, List<String> lines, List<Run> runs) {
    /** The table of the plan. */
    public static final String PLAN = "plan.csv";

    /** Columns of {@link #PLAN}. */
    public static final String HEADER = "part,quantity,value,unit,lower,upper,why";

    /** The order of injections, to be filled in. */
    public static final String RUNS = "run-list.csv";

    /** The protocol that will evaluate it. */
    public static final String PROTOCOL = "protocol.yaml";

    public PlanFiles {
        files = Collections.unmodifiableMap(new LinkedHashMap<>(files));
        lines = List.copyOf(lines);
        runs = List.copyOf(runs);
    }

    /** Writes a plan down. */
    public static PlanFiles of(StudyPlan plan) {
        final PlanFile file = plan.file();
        final StudyDesign design = plan.design();
        final List<Run> runs =
                RunOrder.of(
                        Bench.of(design, file).orElseThrow().days(),
                        file.setting(),
                        Bench.highest(design),
                        true,
                        file.start(),
                        file.seed());
        final PlanWords words = new PlanWords(plan);
        final PlanProtocol protocol = new PlanProtocol(plan, runs);
        final Map<String, byte[]> files = new LinkedHashMap<>();
        byte[] svg = new byte[0];
        String caption = "";
        if (!plan.steps().isEmpty()) {
            final Figure figure = PlanFigure.of(plan);
            svg = ChartRenderer.svg(figure);
            caption = figure.caption();
            files.put("effort.svg", svg);
        }
        files.put("plan.html", PlanPage.of(plan, svg, caption, runs));
        files.put(RUNS, RunOrder.table(runs, false));
        files.put("levels.csv", protocol.levels());
        protocol.compounds().ifPresent(table -> files.put("compounds.csv", table));
        files.put(PROTOCOL, protocol.text());
        files.put("bench.html", BenchSheet.of(file.title(), runs, remarks(plan)));
        files.put(PLAN, words.csv());
        return new PlanFiles(files, words.lines(), runs);
    }

    private static List<String> remarks(StudyPlan plan) {
        final StudyDesign d = plan.design();
        final List<String> remarks = new java.util.ArrayList<>();
        remarks.add(
                "Every numbered solution is made from the start: vials of one flask are one"
                        + " preparation.");
        remarks.add(
                "CHECK is one solution in the middle of the range, with vials for all days; WASH is"
                        + " the solvent that everything is made in.");
        if (d.spiked() > 0) {
            remarks.add(
                    "SL holds "
                            + PlanWords.digits(PlanProtocol.spiked(plan))
                            + " mg/L: twice the wanted detection limit.");
        }
        if (d.days() > 0) {
            remarks.add(
                    "P is one stable, homogeneous sample: each P is another preparation of it.");
        }
        remarks.add(
                "Look at the system check before you go on. Keep to the order; write down what was"
                        + " done otherwise, and who injected, in run-list.csv.");
        return remarks;
    }
}
