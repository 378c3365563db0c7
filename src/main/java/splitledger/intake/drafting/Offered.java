package splitledger.intake.drafting;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The characteristics that this version evaluates, as the published schema lists them.
 *
 * @param blocks by id, in the order of the schema
 */
record Offered(Map<String, Block> blocks) {
    private static final String RESOURCE = "/splitledger/protocol.schema.json";

    /**
     * One characteristic.
     *
     * @param question it answers
     * @param options by name
     */
    record Block(String question, Map<String, Option> options) {
        boolean has(String option) {
            return options.containsKey(option);
        }
    }

    /**
     * One option.
     *
     * @param required whether it must be there
     * @param meaning in words
     */
    record Option(boolean required, String meaning) {}

    /** Whether a characteristic can be asked for. */
    boolean has(String id) {
        return blocks.containsKey(id);
    }

    /** A characteristic that is there. */
    Block block(String id) {
        return blocks.getOrDefault(id, new Block("", Map.of()));
    }

    /**
     * What the program ships.
     *
     * @throws IllegalStateException if it was built without its schema
     */
    static Offered shipped() {
        try (InputStream in = Offered.class.getResourceAsStream(RESOURCE)) {
            if (in == null) {
                throw new IllegalStateException("the resource " + RESOURCE + " is missing");
            }
            return of(new ObjectMapper().readTree(in));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static Offered of(JsonNode schema) {
        final Map<String, Block> blocks = new LinkedHashMap<>();
        schema.at("/properties/characteristics/properties")
                .properties()
                .forEach(e -> blocks.put(e.getKey(), block(e.getValue())));
        return new Offered(blocks);
    }

    private static Block block(JsonNode node) {
        final List<String> required = new ArrayList<>();
        node.path("required").forEach(r -> required.add(r.asText()));
        final Map<String, Option> options = new LinkedHashMap<>();
        node.path("properties")
                .properties()
                .forEach(
                        e ->
                                options.put(
                                        e.getKey(),
                                        new Option(
                                                required.contains(e.getKey()),
                                                e.getValue().path("description").asText())));
        return new Block(node.path("description").asText(), options);
    }
}
