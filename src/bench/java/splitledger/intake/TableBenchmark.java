package splitledger.intake;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;
import splitledger.base.FolderVault;
import splitledger.base.ProblemException;

/**
 * A long table of five million rows and five columns: read, parsed, put together and checked,
 * beside a bare pass of the streaming reader over the same file, which only counts cells.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SingleShotTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 3)
@Measurement(iterations = 5)
@Fork(value = 1, jvmArgsAppend = "-Xmx1g")
public class TableBenchmark {
    private static final int INJECTIONS = 500_000;
    private static final String[] COMPOUNDS = {
        "limonene",
        "linalool",
        "linalyl acetate",
        "myrcene",
        "ocimene",
        "n-C14",
        "n-C15",
        "n-C16",
        "n-C17",
        "n-C18"
    };
    private static final String TABLE = "areas.csv";
    private static final String PROTOCOL = "protocol.yaml";

    private Path folder = Path.of("");

    /** Writes table and protocol into a temporary folder. */
    @Setup
    public void write() throws IOException {
        folder = Files.createTempDirectory("splitledger-bench-");
        final SplittableRandom random = new SplittableRandom(1);
        try (BufferedWriter out = Files.newBufferedWriter(folder.resolve(TABLE))) {
            out.write("injection,compound,area,series,preparation\n");
            for (int i = 0; i < INJECTIONS; i++) {
                for (String compound : COMPOUNDS) {
                    final String area =
                            String.format(
                                    Locale.ROOT,
                                    "%d.%02d",
                                    random.nextInt(1000, 999_999),
                                    random.nextInt(100));
                    out.write(
                            "S"
                                    + (100_000 + i)
                                    + ","
                                    + compound
                                    + ","
                                    + area
                                    + ",calibration,P"
                                    + i / 3
                                    + "\n");
                }
            }
        }
        Files.writeString(
                folder.resolve(PROTOCOL),
                "splitledger: 1\ntables: [{file: areas.csv}]\ncompounds: {targets: ["
                        + String.join(", ", COMPOUNDS)
                        + "]}\ncharacteristics: {calibration: {where: {series: calibration}}}\n");
    }

    /** Takes them away. */
    @TearDown
    public void delete() throws IOException {
        Files.delete(folder.resolve(TABLE));
        Files.delete(folder.resolve(PROTOCOL));
        Files.delete(folder);
    }

    /** Cells of the file, each row as an object of the reader. */
    @Benchmark
    public long barePass() throws IOException {
        long cells = 0;
        try (CsvReader<CsvRecord> csv = CsvReader.builder().ofCsvRecord(folder.resolve(TABLE))) {
            for (CsvRecord row : csv) {
                cells += row.getFieldCount();
            }
        }
        return cells;
    }

    /** Rows of the table of injections. */
    @Benchmark
    public int readParsedAndChecked() throws IOException, ProblemException {
        return StudyReader.read(FolderVault.of(folder), PROTOCOL).table().size();
    }
}
