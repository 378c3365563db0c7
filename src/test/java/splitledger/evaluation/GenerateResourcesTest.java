package splitledger.evaluation;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.util.List;
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
