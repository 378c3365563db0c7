package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Mistakes as lines that another program can read. */
class MessagesTest {
    private static final List<String> KEYS =
            List.of("file", "row", "column", "found", "expected", "todo");

    @TempDir Path folder;

    private static List<JsonNode> objects(Bench.Ran ran) throws JsonProcessingException {
        final List<JsonNode> objects = new ArrayList<>();
        for (String line : ran.err().lines().toList()) {
            final JsonNode object = new ObjectMapper().readTree(line);
            final List<String> keys = new ArrayList<>();
            object.fieldNames().forEachRemaining(keys::add);
            assertThat(keys).as(line).containsExactlyElementsOf(KEYS);
            objects.add(object);
        }
        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.out()).isEmpty();
        return objects;
    }

    @Test
    void everyProblemIsAnObjectOfItsOwnOnEvaluateAndCheck() throws JsonProcessingException {
        final Bench bench =
                new Bench(folder).row("calibration", "p1", "L1", "a \"lot\"\u001b[31m", 1);
        bench.row("calibration", "p2", "L2", "2", 0).table();
        bench.write(
                "protocol.yaml",
                Bench.usual() + "characteristics: {calibration: {where: {series: calibration}}}\n");
        final String protocol = folder.resolve("protocol.yaml").toString();

        for (Bench.Ran ran :
                List.of(
                        Bench.command("check", "--messages", "json", protocol),
                        Bench.command(
                                "evaluate",
                                protocol,
                                "--out",
                                folder.resolve("out").toString(),
                                "--messages=json"))) {
            final List<JsonNode> objects = objects(ran);

            assertThat(objects).hasSize(2);
            assertThat(objects.get(0).path("file").asText()).isEqualTo("areas.csv");
            assertThat(objects.get(0).path("row").asInt()).isEqualTo(2);
            assertThat(objects.get(0).path("column").asText()).isEqualTo("amount");
            assertThat(objects.get(0).path("found").asText()).contains("a \"lot\"");
            assertThat(objects.get(1).path("todo").asText()).contains("zero-means");
            assertThat(ran.err()).doesNotContain("\u001b");
        }
    }

    @Test
    void newTellsItsMistakesInTheSameForm() throws JsonProcessingException {
        final List<JsonNode> objects =
                objects(
                        Bench.command(
                                "new",
                                "--messages",
                                "json",
                                "--out",
                                folder.resolve("p.yaml").toString(),
                                "--from",
                                folder.resolve("lost.csv").toString()));

        assertThat(objects).hasSize(1);
        assertThat(objects.get(0).path("column").asText()).isEqualTo("--from");
        assertThat(objects.get(0).path("row").isNull()).isTrue();
    }

    @Test
    void aMistypedCommandLineIsAnObjectToo() throws JsonProcessingException {
        final List<JsonNode> objects =
                objects(Bench.command("check", "--messages", "json", "--rot", "x", "p.yaml"));

        assertThat(objects).hasSize(1);
        assertThat(objects.get(0).path("found").asText()).contains("did you mean '--root'?");
        assertThat(objects.get(0).path("todo").asText()).contains("--help");
    }

    @Test
    void anUnknownFormIsRefused() {
        final Bench.Ran ran = Bench.command("check", "--messages", "xml", "p.yaml");

        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.err()).contains("--messages").contains("xml");
    }
}
