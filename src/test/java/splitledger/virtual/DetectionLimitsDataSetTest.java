package splitledger.virtual;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import splitledger.base.FolderVault;
import splitledger.base.ProblemException;

/** The committed data set of the detection limits against its design. */
class DetectionLimitsDataSetTest {
    private static final Path FOLDER = Path.of("datasets", "detection-limits");

    @TempDir private Path out;

    /** How to rebuild them after a change of the design is told in the README there. */
    @Test
    void theDesignGivesTheCommittedBytes() throws IOException, ProblemException {
        Simulation.write(
                "design.yaml",
                Files.readAllBytes(FOLDER.resolve("design.yaml")),
                FolderVault.of(out));

        for (String table : List.of("areas.csv", "run-list.csv", "levels.csv", "truth.csv")) {
            assertThat(Files.readString(out.resolve(table)))
                    .as(table)
                    .isEqualTo(Files.readString(FOLDER.resolve(table)));
        }
    }
}
