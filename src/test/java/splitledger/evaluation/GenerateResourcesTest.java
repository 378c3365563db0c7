package splitledger.evaluation;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import splitledger.study.Card;

/** What the build generated is what the cards say. */
class GenerateResourcesTest {
    private static byte[] resource(String name) throws IOException {
        try (InputStream in = GenerateResourcesTest.class.getResourceAsStream("/" + name)) {
            assertThat(in).as(name).isNotNull();
            return in.readAllBytes();
        }
    }

    @Test
    void theSchemaOnTheClassPathIsTheOneTheCardsGive() throws IOException {
        assertThat(resource(GenerateResources.SCHEMA)).isEqualTo(GenerateResources.schema());
    }

    @Test
    void theSchemaBesideTheProtocolsIsTheOneTheCardsGive() throws IOException {
        assertThat(Files.readString(Path.of("protocols", GenerateResources.PUBLISHED)))
                .as("a build renews it: ./mvnw process-classes")
                .isEqualTo(new String(GenerateResources.schema(), StandardCharsets.UTF_8));
    }

    @Test
    void everyKeyOfTheProtocolHasATitleAndADescriptionForEditors() throws IOException {
        final List<String> silent = new ArrayList<>();
        final int met =
                collectSilent(new ObjectMapper().readTree(GenerateResources.schema()), "", silent);

        assertThat(met).isGreaterThan(80);
        assertThat(silent)
                .as("keys without title, description, or an example of what to write")
                .isEmpty();
    }

    /**
     * Keys below a part of the schema that an editor could say nothing about; how many were met.
     */
    private static int collectSilent(JsonNode node, String path, List<String> silent) {
        int met = 0;
        for (Map.Entry<String, JsonNode> e : node.properties()) {
            final String at = path + "/" + e.getKey();
            if (path.endsWith("/properties")) {
                met++;
                final JsonNode key = e.getValue();
                final boolean chosen = key.has("enum") || key.has("const") || key.has("properties");
                final boolean byCard = path.contains("/characteristics/properties/");
                final boolean shown = chosen || byCard || key.has("examples") || key.has("$ref");
                if (!key.has("title") || !key.has("description") || !shown) {
                    silent.add(at);
                }
            }
            met += collectSilent(e.getValue(), at, silent);
        }
        return met;
    }

    @Test
    void theQuantitiesOnTheClassPathAreThoseOfTheCards() throws IOException {
        assertThat(resource(GenerateResources.QUANTITIES))
                .isEqualTo(GenerateResources.quantities());
    }

    @Test
    void noTwoCardsHaveTheSameIdAndEveryNeedComesEarlierInTheCatalogue() {
        final List<Card> cards = GenerateResources.cards();
        final List<String> ids = cards.stream().map(Card::id).toList();
        assertThat(ids).doesNotHaveDuplicates();
        for (Card card : cards) {
            assertThat(ids.subList(0, ids.indexOf(card.id()))).containsAll(card.needs());
        }
    }
}
