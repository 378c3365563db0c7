package splitledger.cli;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import splitledger.planning.Coverage;
import splitledger.planning.CoverageRow.Standing;
import splitledger.planning.CoverageTable;
import splitledger.planning.Scenario;
import splitledger.study.Extent;

/**
 * Makes the stored coverage tables: one a scenario by the formulas, and one of {@link
 * Scenario#GOOD} with Monte Carlo. Arguments: folder, studies a scenario, studies with Monte Carlo,
 * and names of the scenarios wanted, with commas (all if it is empty).
 */
public final class CoverageTableMain {
    private static final long SEED = 7_000_000L;

    private final Path folder;
    private final PrintStream print;

    private CoverageTableMain(Path folder, PrintStream print) {
        this.folder = folder;
        this.print = print;
    }

    /** Makes them. */
    public static void main(String[] args) throws IOException {
        final Path folder = Path.of(args[0]);
        final int studies = Integer.parseInt(args[1]);
        final int trials = Integer.parseInt(args[2]);
        final List<Scenario> wanted = new ArrayList<>();
        if (args.length > 3 && !args[3].isBlank()) {
            for (String id : args[3].split(",", -1)) {
                wanted.add(Scenario.of(id));
            }
        }
        final CoverageTableMain tables = new CoverageTableMain(folder, System.err);
        Files.createDirectories(folder);
        for (Scenario scenario : wanted.isEmpty() ? List.of(Scenario.values()) : wanted) {
            tables.make(scenario, scenario.id(), studies, Extent.FORMULAS);
        }
        if (trials > 0 && (wanted.isEmpty() || wanted.contains(Scenario.GOOD))) {
            tables.make(Scenario.GOOD, "good-monte-carlo", trials, Extent.FORMULAS_AND_TRIALS);
        }
    }

    private void make(Scenario scenario, String name, int studies, Extent extent)
            throws IOException {
        final long start = System.nanoTime();
        final int threads = Runtime.getRuntime().availableProcessors();
        final Coverage.Result result =
                Coverage.run(
                        scenario.design(),
                        SEED,
                        studies,
                        extent,
                        threads,
                        done -> {
                            if (done % 1024 == 0) {
                                print.println(name + ": " + done + " of " + studies);
                            }
                        });
        final double seconds = (System.nanoTime() - start) / 1e9;
        Files.write(folder.resolve(name + ".csv"), CoverageTable.bytes(result.rows()));
        Files.writeString(
                folder.resolve(name + ".made"),
                String.format(
                        Locale.ROOT,
                        "%s, version %s, %d studies, %.0f s on %d cores%nwithout a truth to compare: %s%n",
                        LocalDate.now(Clock.systemUTC()),
                        ProgramVersion.built().program(),
                        studies,
                        seconds,
                        threads,
                        String.join(", ", result.withoutTruth())),
                StandardCharsets.UTF_8);
        final long low = result.rows().stream().filter(r -> r.standing() == Standing.LOW).count();
        print.println(
                String.format(
                        Locale.ROOT,
                        "%s: %d rows, %d below what they promise, %.0f s",
                        name,
                        result.rows().size(),
                        low,
                        seconds));
    }
}
