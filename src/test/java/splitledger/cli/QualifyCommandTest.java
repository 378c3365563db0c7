package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class QualifyCommandTest {
    @TempDir Path folder;

    @Test
    void theRecordIsPrintedAndWrittenAndNotOverwritten() throws Exception {
        final String out = folder.resolve("record").toString();
        final Bench.Ran ran = Bench.command("qualify", "--out", out);

        assertThat(ran.exit()).as(ran.out() + ran.err()).isZero();
        assertThat(ran.out()).contains("NIST StRD", "worked by hand", "cases pass", "Java ");
        assertThat(folder.resolve("record/qualification.csv")).isNotEmptyFile();
        assertThat(Files.readString(folder.resolve("record/qualification.html")))
                .startsWith("<!DOCTYPE html>")
                .contains("source revision");
        final Bench.Ran again = Bench.command("qualify", "--out", out);
        assertThat(again.exit()).isEqualTo(2);
        assertThat(again.err()).contains("a record that is there");
    }
}
