package splitledger.spark;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import splitledger.base.CsvRows;

/** Many studies on Spark in this process. */
class FleetOnSparkTest {
    @TempDir Path folder;

    @BeforeEach
    void staysOnThisMachine() {
        Cluster.loopback().forEach(System::setProperty);
    }

    @AfterEach
    void leavesNoSetting() {
        Cluster.loopback().keySet().forEach(System::clearProperty);
    }

    private int spark(String... options) {
        final List<String> all =
                new ArrayList<>(
                        List.of(
                                folder.resolve("studies").toString(),
                                "--out",
                                folder.resolve("there").toString(),
                                "--table",
                                folder.resolve("results").toString()));
        all.addAll(List.of(options));
        return FleetOnSpark.run(all.toArray(String[]::new));
    }

    private List<List<String>> csv(String name) throws IOException {
        return CsvRows.of(Files.readString(folder.resolve(name)));
    }

    @Test
    void everyFileIsThatOfOneMachineAndTheTableHoldsAllFindings() throws IOException {
        new Studies(folder.resolve("studies"))
                .add("a", 1)
                .addBroken("b")
                .add("c", 2)
                .evaluateHere(folder.resolve("here"), 2);

        assertThat(spark()).isEqualTo(2);
        final SortedMap<String, String> here = Studies.digests(folder.resolve("here"));
        assertThat(Studies.digests(folder.resolve("there"))).isEqualTo(here);

        final String tidy = folder.resolve("tidy.csv").toString();
        assertThat(TidyTable.run(folder.resolve("results").toString(), "--out", tidy)).isZero();
        assertThat(withoutHeader(csv("tidy.csv"))).containsExactlyElementsOf(expected());
        assertThat(folder.resolve("results/instrument=GC-1/year=2026")).isDirectory();
        assertThat(folder.resolve("results/instrument=GC-2/year=2026")).isDirectory();

        final int refused = spark();
        assertThat(refused).isEqualTo(2);
        assertThat(spark("--resume")).isEqualTo(2);
        assertThat(Studies.digests(folder.resolve("there"))).isEqualTo(here);
    }

    private static List<List<String>> withoutHeader(List<List<String>> rows) {
        return rows.subList(1, rows.size());
    }

    /** Findings of the dossiers on this machine: instrument GC-1 is that of study c. */
    private List<List<String>> expected() throws IOException {
        final List<List<String>> rows = new ArrayList<>();
        for (List<String> of :
                List.of(
                        List.of("GC-1", "2026-03-05T08:00:00", "c"),
                        List.of("GC-2", "2026-02-05T08:00:00", "a"))) {
            final List<List<String>> results = csv("here/" + of.get(2) + "/results.csv");
            for (List<String> result : withoutHeader(results)) {
                final List<String> row = new ArrayList<>(of);
                for (String column :
                        TidyTable.COLUMNS.subList(of.size(), TidyTable.COLUMNS.size())) {
                    row.add(result.get(results.get(0).indexOf(column)));
                }
                rows.add(row);
            }
        }
        assertThat(rows).hasSizeGreaterThan(10);
        return rows;
    }
}
