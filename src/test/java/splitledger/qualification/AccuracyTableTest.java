package splitledger.qualification;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

class AccuracyTableTest {
    @Test
    void theStoredPageSaysWhatTheProgramComputes() throws Exception {
        assertThat(AccuracyTable.markdown(Qualification.run()))
                .as("./mvnw -Paccuracy -DskipTests verify renews it")
                .isEqualTo(Files.readString(Path.of("docs/accuracy.md")));
    }
}
