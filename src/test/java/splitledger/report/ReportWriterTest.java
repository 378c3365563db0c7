package splitledger.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.NoSuchFileException;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;
import splitledger.base.Digests;
import splitledger.base.Vault;
import splitledger.study.Evaluation;
import splitledger.study.Figure;

class ReportWriterTest {

    @Test
    void everyFileIsWritten() throws IOException {
        final SortedMap<String, String> written = written();

        assertThat(written.keySet())
                .contains(
                        "results.csv",
                        "budget.csv",
                        "budget-correlations.csv",
                        "results.json",
                        "report.html",
                        "figures/calibration-limonene.svg",
                        "figures/budget-linalyl-acetate.svg")
                .hasSize(5 + 12);
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
        final Memory out = new Memory();
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

        assertThatThrownBy(() -> ReportWriter.write(twice, out, "0.1.0"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining(figure.id());
        assertThat(out.files).isEmpty();
    }

    @Test
    void anEvaluationWithNothingInItIsWrittenToo() throws IOException {
        final Memory out = new Memory();
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

        ReportWriter.write(empty, out, "0.1.0");

        assertThat(new String(out.read("report.html"), StandardCharsets.UTF_8))
                .contains("<h2>Evidence</h2>");
    }

    private static SortedMap<String, String> written() throws IOException {
        final Memory out = new Memory();
        ReportWriter.write(SampleEvaluation.evaluation(), out, "0.1.0");
        final SortedMap<String, String> digests = new TreeMap<>();
        out.files.forEach((name, bytes) -> digests.put(name, Digests.sha256(bytes)));
        return digests;
    }

    /** A vault in memory. */
    private static final class Memory implements Vault {
        private final SortedMap<String, byte[]> files = new TreeMap<>();

        @Override
        public InputStream open(String name) throws IOException {
            final byte[] bytes = files.get(name);
            if (bytes == null) {
                throw new NoSuchFileException(name);
            }
            return new ByteArrayInputStream(bytes);
        }

        @Override
        public void write(String name, byte[] bytes) {
            files.put(name, bytes.clone());
        }

        @Override
        public boolean exists(String name) {
            return files.containsKey(name);
        }
    }
}
