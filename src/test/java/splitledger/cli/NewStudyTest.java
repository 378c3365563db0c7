package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A study that begins without a table. */
class NewStudyTest {
    @TempDir private Path folder;

    private Bench.Ran begin(String... more) {
        return Bench.command(
                Stream.concat(
                                Stream.of("new", "--out", folder.resolve("p.yaml").toString()),
                                Stream.of(more))
                        .toArray(String[]::new));
    }

    @Test
    void aPurposeGivesAProtocolWithQuestionsAndAnEmptyRunList() throws IOException {
        final Bench.Ran ran = begin("--for", "recovery");

        assertThat(ran.exit()).as(ran.err()).isZero();
        assertThat(Files.readString(folder.resolve("p.yaml"))).contains("ASK correct, include");
        assertThat(Files.readString(folder.resolve("run-list.csv")))
                .startsWith("injection,order,day,date,series,preparation,vial,level");
        assertThat(folder.resolve("bench.html")).isNotEmptyFile();
    }

    @Test
    void aBudgetNeedsNoTableAndEvaluatesAtOnce() {
        assertThat(begin("--for", "budget").exit()).isZero();
        assertThat(folder.resolve("run-list.csv")).doesNotExist();
        assertThat(
                        Bench.command(
                                        "evaluate",
                                        folder.resolve("p.yaml").toString(),
                                        "--out",
                                        folder.resolve("dossier").toString())
                                .exit())
                .isZero();
    }

    @Test
    void nothingIsOverwrittenAndAnUnknownPurposeIsRefusedWithTheKnownOnes() throws IOException {
        Files.writeString(folder.resolve("levels.csv"), "mine");

        assertThat(begin("--for", "recovery").exit()).isEqualTo(2);
        assertThat(Files.readString(folder.resolve("levels.csv"))).isEqualTo("mine");
        assertThat(folder.resolve("p.yaml")).doesNotExist();
        assertThat(begin("--for", "recoverie").err()).contains("did you mean 'recovery'");
        assertThat(begin().err()).contains("neither --from nor --for");
    }
}
