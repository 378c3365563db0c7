package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import splitledger.base.MemoryVault;
import splitledger.planning.ahead.PlanFileReader;
import splitledger.planning.ahead.PlanFiles;
import splitledger.planning.ahead.Planner;
import splitledger.planning.ahead.Rehearsal;
import splitledger.planning.ahead.StudyPlan;

class PlanCommandTest {
    private static final String PLAN =
            """
            splitledger-plan: 1
            title: planned <b>
            targets: [limonene]
            start: 2026-04-01
            wanted:
              expanded-uncertainty: {value: 6, unit: "%", basis: invented}
            inlet: {convention: total-to-column}
            amounts:
              lowest: {value: 4, unit: mg/L, basis: invented}
              highest: {value: 100, unit: mg/L, basis: invented}
              result: {value: 52, unit: mg/L, basis: invented}
            """;

    @TempDir private Path folder;
    private final StringWriter out = new StringWriter();
    private final StringWriter err = new StringWriter();

    private int run(String... more) throws IOException {
        Files.writeString(folder.resolve("plan.yaml"), PLAN);
        final String[] args = new String[4 + more.length];
        args[0] = "plan";
        args[1] = folder.resolve("plan.yaml").toString();
        args[2] = "--out";
        args[3] = folder.resolve("planned").toString();
        System.arraycopy(more, 0, args, 4, more.length);
        return Main.run(new PrintWriter(out), new PrintWriter(err), args);
    }

    @Test
    void writesPlanRunListProtocolAndBenchSheet() throws IOException {
        assertThat(run()).as(err.toString()).isZero();

        final Path planned = folder.resolve("planned");
        for (String name :
                new String[] {
                    "plan.html",
                    "plan.csv",
                    "effort.svg",
                    "run-list.csv",
                    "levels.csv",
                    "protocol.yaml",
                    "bench.html"
                }) {
            assertThat(planned.resolve(name)).isNotEmptyFile();
        }
        assertThat(out.toString())
                .contains("design: days")
                .contains("expected: relative-expanded-uncertainty")
                .contains("common practice, no source");
        assertThat(Files.readString(planned.resolve("plan.csv")))
                .startsWith("part,quantity,value,unit,lower,upper,why\n");
        assertThat(Files.readString(planned.resolve("bench.html")))
                .contains("planned &lt;b&gt;")
                .doesNotContain("<b>")
                .contains("Hydrogen")
                .contains("split vent")
                .contains("Local codes");
    }

    @Test
    void theSamePlanGivesTheSameBytesAndIsReplacedOnlyWhenAskedTo() throws IOException {
        assertThat(run()).isZero();
        final String first = Files.readString(folder.resolve("planned/run-list.csv"));
        assertThat(run()).isEqualTo(2);
        assertThat(err.toString()).contains("an earlier plan");
        assertThat(run("--replace")).isZero();
        assertThat(Files.readString(folder.resolve("planned/run-list.csv"))).isEqualTo(first);
    }

    @Test
    void aRehearsalTellsHowManyStudiesReachTheWish() throws IOException {
        assertThat(run("--rehearse", "3")).isZero();
        assertThat(out.toString()).containsPattern("rehearsal: [0-3] of 3 studies");
    }

    /** The run list comes back filled in; the areas are those of the virtual inlet. */
    @Test
    void aFilledRunListIsEvaluatedByTheProtocolBesideIt() throws Exception {
        assertThat(run()).as(err.toString()).isZero();
        final StudyPlan plan =
                Planner.plan(
                        "plan.yaml",
                        PlanFileReader.read(
                                new MemoryVault(
                                        Map.of("plan.yaml", PLAN.getBytes(StandardCharsets.UTF_8))),
                                "plan.yaml"));
        final Path planned = folder.resolve("planned");
        final byte[] areas = new Rehearsal(plan, PlanFiles.of(plan)).study(3).get("areas.csv");
        Files.write(planned.resolve("areas.csv"), areas);
        final List<String> lines = Files.readAllLines(planned.resolve("run-list.csv"));
        final int analyst = List.of(lines.get(0).split(",", -1)).indexOf("analyst");
        final StringBuilder filled = new StringBuilder(lines.get(0)).append('\n');
        for (String line : lines.subList(1, lines.size())) {
            final String[] cells = line.split(",", -1);
            cells[analyst] = "M. Invented";
            filled.append(String.join(",", cells)).append('\n');
        }
        Files.writeString(planned.resolve("run-list.csv"), filled);
        final String protocol = planned.resolve("protocol.yaml").toString();
        final Path dossier = folder.resolve("dossier");

        assertThat(
                        Main.run(
                                new PrintWriter(out),
                                new PrintWriter(err),
                                "evaluate",
                                protocol,
                                "--no-pdf",
                                "--out",
                                dossier.toString()))
                .as(err.toString())
                .isZero();
        assertThat(Files.readString(dossier.resolve("results.csv")))
                .contains(",relative-expanded-uncertainty,")
                .contains(",meets,");
    }
}
