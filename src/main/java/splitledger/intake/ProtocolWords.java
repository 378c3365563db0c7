package splitledger.intake;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The words of a protocol that the shipped schema knows, for whoever writes a protocol.
 *
 * @param characteristics options by characteristic, in the order of the schema
 * @param required those of the options that must be there, by characteristic
 * @param quantities names that a requirement may be about
 */
public record ProtocolWords(
        Map<String, List<String>> characteristics,
        Map<String, List<String>> required,
        List<String> quantities) {
    public ProtocolWords {
        characteristics = Collections.unmodifiableMap(new LinkedHashMap<>(characteristics));
        required = Collections.unmodifiableMap(new LinkedHashMap<>(required));
        quantities = List.copyOf(quantities);
    }

    /**
     * Those of the schema that the program ships.
     *
     * @throws IllegalStateException if it is missing: the program was not built whole
     */
    public static ProtocolWords shipped() {
        try (InputStream in = ProtocolWords.class.getResourceAsStream(ProtocolSchema.RESOURCE)) {
            if (in == null) {
                throw new IllegalStateException(
                        "the resource " + ProtocolSchema.RESOURCE + " is missing");
            }
            return of(new ObjectMapper().readTree(in));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static ProtocolWords of(JsonNode schema) {
        final Map<String, List<String>> options = new LinkedHashMap<>();
        final Map<String, List<String>> required = new LinkedHashMap<>();
        schema.at("/properties/characteristics/properties")
                .properties()
                .forEach(
                        c -> {
                            final List<String> names = new ArrayList<>();
                            c.getValue()
                                    .path("properties")
                                    .fieldNames()
                                    .forEachRemaining(names::add);
                            options.put(c.getKey(), List.copyOf(names));
                            required.put(c.getKey(), texts(c.getValue().path("required")));
                        });
        return new ProtocolWords(
                options, required, texts(schema.at("/$defs/criterion/properties/quantity/enum")));
    }

    private static List<String> texts(JsonNode array) {
        final List<String> texts = new ArrayList<>();
        array.forEach(t -> texts.add(t.asText()));
        return List.copyOf(texts);
    }
}
