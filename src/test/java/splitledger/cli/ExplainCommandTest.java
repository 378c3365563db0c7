package splitledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import splitledger.budget.Budgets;
import splitledger.characteristic.Catalogue;
import splitledger.characteristic.Characteristic;
import splitledger.handbook.Handbook;
import splitledger.study.Card;

class ExplainCommandTest {
    private static Bench.Ran explain(String... words) {
        return Bench.command(
                Stream.concat(Stream.of("explain"), Stream.of(words)).toArray(String[]::new));
    }

    @Test
    void withoutATopicItListsAllOfThem() {
        final Bench.Ran ran = explain();

        assertThat(ran.exit()).isZero();
        assertThat(ran.err()).isEmpty();
        for (Handbook.Topic topic : Handbook.read().topics()) {
            assertThat(ran.out()).contains("\n  " + topic.id() + " ");
        }
        assertThat(ran.out()).startsWith("Characteristics\n").contains("\nFor the assessor\n");
    }

    @Test
    void everyPageCanBeShown() {
        for (Handbook.Topic topic : Handbook.read().topics()) {
            final Bench.Ran ran = explain(topic.id());

            assertThat(ran.exit()).as(topic.id()).isZero();
            assertThat(ran.out())
                    .startsWith(Handbook.read().page(topic.id()).orElseThrow().title() + "\n===")
                    .contains("\nSources\n-------\n")
                    .doesNotContain("**", "](", "```", "### ");
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {40, 60, 80})
    void noProseIsWiderThanWhatWasAskedFor(int width) {
        for (String topic : List.of("calibration", "recovery", "iso-17025")) {
            assertThat(explain(topic, "--width", String.valueOf(width)).out().lines())
                    .filteredOn(line -> !line.startsWith("    "))
                    .allMatch(line -> line.length() <= width);
        }
    }

    @Test
    void aCharacteristicEndsWithItsQuantitiesAndOptions() {
        assertThat(explain("split-linearity").out())
                .contains("\nQuantities that split-linearity may give\n")
                .contains("\n  split-exponent: Exponent of the response in 1 over the ratio;")
                .contains("\nWhat a protocol may say to it\n")
                .contains("\n  where: Rows of the experiment at different split ratios.");
    }

    @Test
    void aQuantityIsExplainedWithUnitKindConditionsAndPages() {
        assertThat(explain("response-kept"))
                .isEqualTo(
                        new Bench.Ran(
                                0,
                                """
                                response-kept, a quantity of split-linearity
                                    Response times ratio against that of the reference setting.
                                    kind: estimate (with uncertainty, degrees of freedom and interval)
                                    unit: %
                                    conditions it may carry: ratio
                                    pages: split-linearity
                                """,
                                ""));
    }

    @Test
    void aNameOfAPageThatIsAnOptionTooShowsBoth() {
        assertThat(explain("weights").out())
                .startsWith("Weights and the variance model\n")
                .contains("\nweights, an option of calibration in the protocol\n")
                .containsPattern("One\\s+of:\\s+none,\\s+1/x,\\s+1/x\\^2\\.");
    }

    @Test
    void aNameOfSeveralCardsShowsEachAndTheDotAsksOne() {
        assertThat(explain("reference-group").out())
                .contains("an option of calibration", "an option of detection");
        assertThat(explain("detection.reference-group").out())
                .contains("an option of detection")
                .doesNotContain("an option of calibration");
    }

    @Test
    void aTopicOfSeveralWordsNeedsNoMarksBetweenThem() {
        assertThat(explain("split", "ratio").out()).isEqualTo(explain("split-conventions").out());
    }

    @Test
    void everyQuantityAndEveryOptionIsATopic() {
        final List<Card> cards =
                Stream.concat(
                                Catalogue.all().stream().map(Characteristic::card),
                                Stream.of(Budgets.card()))
                        .toList();
        for (Card card : cards) {
            final Stream<String> names =
                    Stream.concat(
                            card.quantities().stream().map(Card.Quantity::name),
                            card.options().stream().map(Card.Option::name));
            names.forEach(
                    name -> {
                        final Bench.Ran ran = explain(card.id() + "." + name);
                        assertThat(ran.exit()).as(name).isZero();
                        assertThat(ran.out()).contains(name + ", a").contains(card.id());
                    });
        }
    }

    @Test
    void anUnknownTopicIsAnsweredWithTheNearestNames() {
        assertThat(explain("callibration"))
                .isEqualTo(
                        new Bench.Ran(
                                2,
                                "",
                                """
                                splitledger: there is no topic 'callibration'; did you mean 'calibration'?
                                Type 'splitledger explain --help' to see what there is.
                                """));
        assertThat(explain("exponent").err())
                .contains("'split-exponent' or 'split-exponent-equivalence-p'");
        assertThat(explain("qqqqqqqq").err())
                .contains("there is no topic 'qqqqqqqq'; 'splitledger explain' lists the topics");
    }

    @Test
    void aTopicFromOutsideCannotActOnTheTerminal() {
        assertThat(explain("a\u001b[31mb").err()).doesNotContain("\u001b").contains("\\u001b");
    }

    @Test
    void aWidthThatCannotBeIsRefused() {
        assertThat(explain("--width", "10").exit()).isEqualTo(2);
        assertThat(explain("--width", "10").err()).contains("must be from 40 to 400");
    }
}
