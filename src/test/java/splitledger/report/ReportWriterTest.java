package splitledger.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;
import splitledger.base.Digests;
import splitledger.base.MemoryVault;
import splitledger.study.Evaluation;
import splitledger.study.Figure;

class ReportWriterTest {
    private static final PaperStamp STAMP =
            new PaperStamp("0.1.0", "revision", "0123456789abcdef".repeat(4));

    @Test
    void everyFileIsWritten() throws IOException {
        final SortedMap<String, String> written = written();

        assertThat(written.keySet())
                .contains(
                        "results.csv",
                        "budget.csv",
                        "budget-correlations.csv",
                        "results.json",
                        "tables.xlsx",
                        "report.html",
                        "extract.html",
                        "figures/calibration-limonene.svg",
                        "figures/budget-linalyl-acetate.svg")
                .hasSize(7 + 14);
    }

    @Test
    void runsAtTheSameTimeGiveTheSameBytes() throws Exception {
        final SortedMap<String, String> first = written();
        final ExecutorService threads = Executors.newFixedThreadPool(3);
        try {
            final Callable<SortedMap<String, String>> call = ReportWriterTest::written;
            for (Future<SortedMap<String, String>> other :
                    threads.invokeAll(List.of(call, call, call))) {
                assertThat(other.get()).isEqualTo(first);
            }
        } finally {
            threads.shutdown();
        }
    }

    @Test
    void twoFiguresOfOneNameAreRefusedBeforeAnythingIsWritten() {
        final MemoryVault out = new MemoryVault(Map.of());
        final Evaluation e = SampleEvaluation.evaluation();
        final Figure figure = e.figures().get(0);
        final Evaluation twice =
                new Evaluation(
                        e.study(),
                        e.questions(),
                        e.findings(),
                        e.budgets(),
                        List.of(figure, figure),
                        e.choices(),
                        e.flags(),
                        e.seed());

        assertThatThrownBy(() -> ReportWriter.pages(twice, out, STAMP))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining(figure.id());
        assertThat(out.files()).isEmpty();
    }

    @Test
    void anEvaluationWithNothingInItIsWrittenToo() throws IOException {
        final MemoryVault out = new MemoryVault(Map.of());
        final Evaluation empty =
                new Evaluation(
                        SampleEvaluation.study(),
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of(),
                        0);

        ReportWriter.tables(empty, out, "0.1.0");
        ReportWriter.pages(empty, out, STAMP);

        assertThat(new String(out.read("report.html"), StandardCharsets.UTF_8))
                .contains("<h2>Evidence</h2>");
    }

    private static SortedMap<String, String> written() throws IOException {
        final MemoryVault out = new MemoryVault(Map.of());
        ReportWriter.tables(SampleEvaluation.evaluation(), out, "0.1.0");
        ReportWriter.pages(SampleEvaluation.evaluation(), out, STAMP);
        final SortedMap<String, String> digests = new TreeMap<>();
        out.files().forEach((name, bytes) -> digests.put(name, Digests.sha256(bytes)));
        return digests;
    }
}
