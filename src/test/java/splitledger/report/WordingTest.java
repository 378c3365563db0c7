package splitledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import splitledger.study.Criterion;
import splitledger.study.Key;

class WordingTest {

    @Test
    void aQuantityWithoutWordsIsItsNameWithSpaces() {
        assertThat(Wording.quantity("slope")).isEqualTo("slope of the calibration (sensitivity)");
        assertThat(Wording.quantity("never-heard-of")).isEqualTo("never heard of");
    }

    @Test
    void conditionsAreWords() {
        final Key key = Key.of("c", "", "q", "m");

        assertThat(Wording.condition(key)).isEmpty();
        assertThat(Wording.condition(key.with("level", "L3"))).isEqualTo("level L3");
        assertThat(Wording.condition(key.with("preparation", "P12"))).isEqualTo("preparation P12");
        assertThat(Wording.condition(key.with("reference", "n-C20")))
                .isEqualTo("relative to n-C20");
        assertThat(Wording.condition(key.with("calibration", "kept").with("ratio", "20")))
                .isEqualTo("with this calibration kept, split ratio 20");
    }

    @Test
    void aMarginIsSaidWithItsCentre() {
        final Criterion criterion =
                SampleEvaluation.criterion("q", new Criterion.Limit.Within(-1, 0.03), "%");

        assertThat(Wording.requirement(criterion)).isEqualTo("within 0.03 % of −1 %");
    }

    @Test
    void aSentenceThatBeginsWithASymbolKeepsIt() {
        assertThat(Wording.sentence("t sqrt(2) times")).isEqualTo("t sqrt(2) times");
        assertThat(Wording.sentence("needs more")).isEqualTo("Needs more");
        assertThat(Wording.sentence("")).isEmpty();
    }

    @Test
    void degreesOfFreedomAreShort() {
        assertThat(Wording.degreesOfFreedom(Double.POSITIVE_INFINITY)).isEqualTo("∞");
        assertThat(Wording.degreesOfFreedom(16)).isEqualTo("16");
        assertThat(Wording.degreesOfFreedom(23.47)).isEqualTo("23.5");
        assertThat(Wording.degreesOfFreedom(1234.5)).isEqualTo("1234");
    }

    @Test
    void labelsAreInTheOrderInWhichPeopleReadThem() {
        final List<String> sorted =
                Stream.of("L10", "L2", "L1", "", "L2b", "L02").sorted(NaturalOrder.ORDER).toList();

        assertThat(sorted).containsExactly("", "L1", "L02", "L2", "L2b", "L10");
    }
}
