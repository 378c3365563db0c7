package splitledger.report;

import java.io.IOException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
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
import org.openjdk.jmh.annotations.Warmup;
import splitledger.base.FolderVault;
import splitledger.base.MemoryVault;
import splitledger.base.ProblemException;
import splitledger.base.Vault;
import splitledger.chart.ChartRenderer;
import splitledger.evaluation.Evaluator;
import splitledger.intake.StudyReader;
import splitledger.study.Evaluation;
import splitledger.study.Extent;
import splitledger.study.Study;

/**
 * The demo, step by step: reading, formulas, each kind of file, the charts. Run in the project's
 * folder.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 5, time = 2)
@Measurement(iterations = 3, time = 2)
@Fork(2)
@SuppressWarnings("NullAway.Init") // filled by the setup
public class StudyBenchmark {
    private static final String PROTOCOL = "protocols/flower-oil/protocol.yaml";
    private static final Extent DRAWN = new Extent(false, true, false);

    private final Vault files = FolderVault.of(Path.of("").toAbsolutePath());
    private Study study;
    private Evaluation plain;
    private Evaluation drawn;

    /** Reads and evaluates once. */
    @Setup
    public void prepare() throws IOException, ProblemException {
        study = StudyReader.read(files, PROTOCOL);
        plain = Evaluator.evaluate(study, Extent.FORMULAS);
        drawn = Evaluator.evaluate(study, DRAWN);
    }

    /** Protocol and tables. */
    @Benchmark
    public Study read() throws IOException, ProblemException {
        return StudyReader.read(files, PROTOCOL);
    }

    /** All characteristics and budgets by formulas; no figures, no trials, no error rates. */
    @Benchmark
    public Evaluation formulas() throws ProblemException {
        return Evaluator.evaluate(study, Extent.FORMULAS);
    }

    /** CSV and JSON. */
    @Benchmark
    public Vault tables() throws IOException {
        final Vault out = new MemoryVault(new LinkedHashMap<>());
        ReportWriter.tables(plain, out, "benchmark");
        return out;
    }

    /** The workbook. */
    @Benchmark
    public byte[] workbook() throws IOException {
        return Workbooks.tables(plain, "benchmark");
    }

    /** The page, without figures. */
    @Benchmark
    public byte[] page() {
        return HtmlReport.bytes(HtmlReport.page(plain, List.of(), "benchmark"));
    }

    /** All charts, one after the other. */
    @Benchmark
    public long charts() {
        return drawn.figures().stream().mapToLong(f -> ChartRenderer.svg(f).length).sum();
    }
}
