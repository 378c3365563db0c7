package splitledger.spark;

import java.io.IOException;
import java.util.Iterator;
import java.util.List;
import java.util.concurrent.Callable;
import org.apache.hadoop.fs.Path;
import org.apache.spark.SparkConf;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.sql.functions;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import splitledger.base.CsvText;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.cli.Failures;

/**
 * Reads the Parquet table of {@link FleetOnSpark} and writes what is wanted of it as one CSV file,
 * in order of instrument, time and dossier, for {@code splitledger trend}.
 */
@Command(
        name = "splitledger-tidy",
        mixinStandardHelpOptions = true,
        description = "Writes results of a Parquet table as one CSV file.")
public final class TidyTable implements Callable<Integer> {
    /** Columns of the file. */
    static final List<String> COLUMNS =
            List.of(
                    "instrument",
                    "time",
                    "dossier",
                    "characteristic",
                    "compound",
                    "condition",
                    "quantity",
                    "method",
                    "value",
                    "unit",
                    "standard_uncertainty",
                    "degrees_of_freedom",
                    "lower",
                    "upper",
                    "status",
                    "reason",
                    "verdict");

    @Parameters(paramLabel = "TABLE", description = "The Parquet table.")
    private String table = "";

    @Option(names = "--out", required = true, description = "The CSV file; must be new.")
    private String out = "";

    @Option(names = "--instrument", description = "Only of these instruments.")
    private List<String> instruments = List.of();

    @Option(
            names = "--quantity",
            description = "Only these quantities; work on the instruments is told in any case.")
    private List<String> quantities = List.of();

    /** Writes; ends the process if something is wrong. */
    public static void main(String[] args) {
        final int exit = run(args);
        if (exit != 0) {
            System.exit(exit);
        }
    }

    /** Writes and says how it ended. */
    static int run(String... args) {
        final CommandLine line = new CommandLine(new TidyTable());
        line.setExecutionExceptionHandler(
                (problem, command, parsed) -> Failures.report(problem, command.getErr()).code());
        return line.execute(args);
    }

    @Override
    public Integer call() throws ProblemException, IOException {
        final SparkConf conf = new SparkConf();
        conf.setIfMissing("spark.master", "local[*]");
        conf.setIfMissing("spark.app.name", "splitledger");
        try (SparkSession session = SparkSession.builder().config(conf).getOrCreate()) {
            write(session);
        }
        return 0;
    }

    private void write(SparkSession session) throws ProblemException, IOException {
        final var hadoop = session.sparkContext().hadoopConfiguration();
        final Path from = Listing.path(table);
        final Path file = Listing.path(out);
        if (!from.getFileSystem(hadoop).exists(from)) {
            throw new ProblemException(
                    new Problem(
                            table, 0, "", "no such table", "a Parquet table", "check the name"));
        }
        if (file.getFileSystem(hadoop).exists(file)) {
            throw new ProblemException(
                    new Problem(out, 0, "--out", "a file", "a new name", "name another file"));
        }
        final Path whole = file.getFileSystem(hadoop).makeQualified(file);
        final Path folder = whole.getParent();
        if (folder == null) {
            throw new IOException("'" + out + "' is no file");
        }
        new HadoopVault(file.getFileSystem(hadoop), folder).write(whole.getName(), csv(session));
    }

    private byte[] csv(SparkSession session) {
        Dataset<Row> rows = session.read().schema(TidyRows.schema()).parquet(table);
        if (!instruments.isEmpty()) {
            rows = rows.filter(functions.col("instrument").isin(instruments.toArray()));
        }
        if (!quantities.isEmpty()) {
            rows =
                    rows.filter(
                            functions
                                    .col("quantity")
                                    .isin(quantities.toArray())
                                    .or(functions.col("characteristic").equalTo(TidyRows.WORK)));
        }
        final Iterator<Row> sorted =
                rows.sort("instrument", "time", "dossier", "row").toLocalIterator();
        final CsvText csv = new CsvText(COLUMNS);
        while (sorted.hasNext()) {
            final Row row = sorted.next();
            for (String column : COLUMNS) {
                final Object cell = row.getAs(column);
                if (cell instanceof Double number) {
                    csv.cell(number.doubleValue());
                } else if (cell instanceof String text) {
                    csv.cell(text);
                } else {
                    csv.empty();
                }
            }
            csv.endRow();
        }
        return csv.bytes();
    }
}
