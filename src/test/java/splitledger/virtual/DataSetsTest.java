package splitledger.virtual;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import splitledger.base.FolderVault;
import splitledger.base.ProblemException;

/** Every committed data set that is simulated, against its design. */
class DataSetsTest {
    @TempDir private Path out;

    /** How to rebuild them after a change of a design is told in the README of each. */
    @ParameterizedTest(name = "{0}")
    @ValueSource(
            strings = {
                "detection-limits",
                "flower-oil",
                "inlet-temperature",
                "recovery",
                "split-linearity"
            })
    void theDesignGivesTheCommittedBytes(String name) throws IOException, ProblemException {
        final Path folder = Path.of("datasets", name);
        Simulation.write(
                "design.yaml",
                Files.readAllBytes(folder.resolve("design.yaml")),
                FolderVault.of(out));

        for (String table : List.of("areas.csv", "run-list.csv", "levels.csv", "truth.csv")) {
            assertThat(Files.readString(out.resolve(table)))
                    .as(table)
                    .isEqualTo(Files.readString(folder.resolve(table)));
        }
    }
}
