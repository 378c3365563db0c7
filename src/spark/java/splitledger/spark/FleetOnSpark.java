package splitledger.spark;

import java.io.IOException;
import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.Callable;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileStatus;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import org.apache.spark.SparkConf;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SaveMode;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.util.SerializableConfiguration;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.cli.Exit;
import splitledger.cli.Failures;
import splitledger.dossier.DossierWriter;
import splitledger.fleet.Ended;
import splitledger.fleet.FleetTable;
import splitledger.fleet.Job;

/** Evaluates many studies on Apache Spark; without a master, on all cores of this machine. */
@Command(
        name = "splitledger-spark",
        mixinStandardHelpOptions = true,
        sortOptions = false,
        description =
                "Evaluates many studies on Apache Spark. Addresses are those of any file system"
                        + " that Hadoop knows.")
public final class FleetOnSpark implements Callable<Integer> {
    private static final String ASIDE = ".splitledger-";

    @Spec private CommandSpec spec;

    @Parameters(
            arity = "1..*",
            paramLabel = "PROTOCOL",
            description = "Protocols, folders with protocols below them, patterns with *.")
    private List<String> protocols = List.of();

    @Option(names = "--out", required = true, description = "Folder of the dossiers.")
    private String out = "";

    @Option(
            names = "--table",
            description = "Parquet table of all results, divided by instrument and year.")
    private String table = "";

    @Option(
            names = "--root",
            description =
                    "Folder that protocols and their tables lie below; else the folder of each"
                            + " protocol.")
    private String root = "";

    @Option(names = "--pdf", description = "Write report.pdf too.")
    private boolean pdf;

    @Option(names = "--no-pdf", description = "Write no report.pdf; so it is without --pdf.")
    private boolean noPdf;

    @Option(names = "--strict", description = "An undecided requirement counts as not met.")
    private boolean strict;

    @Option(names = "--replace", description = "Replace dossiers and tables that are there.")
    private boolean replace;

    @Option(names = "--resume", description = "Leave dossiers from which nothing has changed.")
    private boolean resume;

    private final String run = ASIDE + UUID.randomUUID();

    /** Evaluates; ends the process if something is wrong or a requirement is not met. */
    public static void main(String[] args) {
        final int exit = run(args);
        if (exit != 0) {
            System.exit(exit);
        }
    }

    /** Evaluates and says how it ended. */
    static int run(String... args) {
        final CommandLine line = new CommandLine(new FleetOnSpark());
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
            return evaluate(session).code();
        }
    }

    private Exit evaluate(SparkSession session) throws ProblemException, IOException {
        final JavaSparkContext spark = JavaSparkContext.fromSparkContext(session.sparkContext());
        final Configuration conf = spark.hadoopConfiguration();
        final Path folder = qualified(out, conf);
        final FileSystem files = folder.getFileSystem(conf);
        files.setWriteChecksum(false);
        requireFree(files, folder, conf);
        final List<StudyWork> work = new Listing(conf).work(protocols, folder);
        final StudyWorker worker =
                new StudyWorker(
                        new SerializableConfiguration(conf),
                        folder.toString(),
                        root.isEmpty() ? "" : qualified(root, conf).toString(),
                        run,
                        new StudyWorker.Wanted(replace, resume, pdf && !noPdf, strict));
        final List<StudyEnd> ends;
        try {
            ends = spread(spark, work).map(worker::end).collect();
        } finally {
            sweep(files, folder);
        }
        final Exit worst = told(files, folder, ends);
        if (!table.isEmpty()) {
            final List<StudyWork> done =
                    ends.stream().filter(StudyEnd::done).map(StudyEnd::work).toList();
            tidy(session, spread(spark, done), worker);
        }
        return worst;
    }

    private static JavaRDD<StudyWork> spread(JavaSparkContext spark, List<StudyWork> work) {
        // small pieces even out and lose little with a machine; not so small that planning counts
        final int most = Math.max(spark.defaultParallelism() * 8, work.size() / 64);
        return spark.parallelize(work, Math.max(1, Math.min(work.size(), most)));
    }

    private static Path qualified(String address, Configuration conf)
            throws ProblemException, IOException {
        final Path path = Listing.path(address);
        return path.getFileSystem(conf).makeQualified(path);
    }

    private void requireFree(FileSystem files, Path folder, Configuration conf)
            throws ProblemException, IOException {
        final List<Problem> problems = new ArrayList<>();
        if (files.exists(new Path(folder, DossierWriter.MANIFEST))) {
            problems.add(
                    new Problem(
                            folder.toString(),
                            0,
                            "--out",
                            "a dossier",
                            "a folder for the dossiers of several studies",
                            "name another folder with --out; nothing in it was touched"));
        }
        final Path fleet = new Path(folder, FleetTable.NAME);
        if (!replace && !resume && files.exists(fleet)) {
            problems.add(there(fleet, "--out"));
        }
        if (!table.isEmpty() && !replace && !resume) {
            final Path tidy = qualified(table, conf);
            if (tidy.getFileSystem(conf).exists(tidy)) {
                problems.add(there(tidy, "--table"));
            }
        }
        if (!problems.isEmpty()) {
            throw new ProblemException(problems);
        }
    }

    private static Problem there(Path what, String option) {
        return new Problem(
                what.toString(),
                0,
                option,
                "the table of an earlier run",
                "a place without one",
                "name another with "
                        + option
                        + ", or give --resume to go on with that run, or --replace to replace it");
    }

    /** Takes away what machines that were lost on the way have left. */
    private void sweep(FileSystem files, Path folder) throws IOException {
        if (files.exists(folder)) {
            for (FileStatus status : files.listStatus(folder)) {
                if (status.getPath().getName().startsWith(run)) {
                    files.delete(status.getPath(), true);
                }
            }
        }
    }

    private Exit told(FileSystem files, Path folder, List<StudyEnd> ends) throws IOException {
        final PrintWriter err = spec.commandLine().getErr();
        final FleetTable rows = new FleetTable();
        Exit worst = Exit.DONE;
        long failed = 0;
        for (StudyEnd end : ends) {
            final StudyWork work = end.work();
            final Job job =
                    new Job(
                            work.name(),
                            work.shown(),
                            () -> {
                                throw new IOException("its work is done");
                            });
            if (end.done()) {
                rows.done(new Ended.Done(job, end.summary(), end.kept()), end.exit());
            } else {
                failed++;
                rows.broken(job, end.exit(), end.words());
                err.println(work.name() + ": not evaluated");
                err.print(end.said());
            }
            for (Exit exit : Exit.values()) {
                worst = exit.code() == end.exit() ? worst.worse(exit) : worst;
            }
        }
        err.flush();
        files.mkdirs(folder);
        final String aside = run + ".csv";
        new HadoopVault(files, folder).write(aside, rows.bytes());
        final Path file = new Path(folder, FleetTable.NAME);
        files.delete(file, false);
        if (!files.rename(new Path(folder, aside), file)) {
            throw new IOException("'" + file + "' cannot be written");
        }
        final PrintWriter print = spec.commandLine().getOut();
        final long kept = ends.stream().filter(StudyEnd::kept).count();
        print.println(
                ends.size()
                        + (ends.size() == 1 ? " study: " : " studies: ")
                        + (ends.size() - failed - kept)
                        + " evaluated, "
                        + kept
                        + " kept from before, "
                        + failed
                        + " failed");
        print.println("  table: " + file);
        print.flush();
        return worst;
    }

    /** Writes the table aside and moves it, so that it is whole or as it was. */
    private void tidy(SparkSession session, JavaRDD<StudyWork> done, StudyWorker worker)
            throws ProblemException, IOException {
        final Configuration conf = session.sparkContext().hadoopConfiguration();
        final Path target = qualified(table, conf);
        final FileSystem files = target.getFileSystem(conf);
        final Path parent = target.getParent();
        if (parent == null) {
            throw new IOException("a table cannot be the root of a file system");
        }
        final Path aside = new Path(parent, run + ".parquet");
        try {
            final JavaRDD<Row> rows = done.flatMap(new TidyRows(worker)::of);
            session.createDataFrame(rows, TidyRows.schema())
                    .write()
                    .mode(SaveMode.ErrorIfExists)
                    .partitionBy("instrument", "year")
                    .parquet(aside.toString());
            HadoopDossiers.moveInto(files, aside, target);
        } finally {
            files.delete(aside, true);
        }
        spec.commandLine().getOut().println("  results: " + target);
        spec.commandLine().getOut().flush();
    }
}
