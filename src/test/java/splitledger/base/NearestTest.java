package splitledger.base;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NearestTest {
    private static final List<String> KNOWN =
            List.of("calibration", "detection", "repeatability", "recovery", "losses");

    @ParameterizedTest
    @CsvSource({
        "calibratoin,calibration", // two neighbours swapped
        "Calibration,calibration", // case
        "detction,detection", // one missing
        "repeatabilitty,repeatability", // one too many
        "recoverx,recovery", // one replaced
        "loses,losses"
    })
    void findsTheWordThatWasMeant(String met, String meant) {
        assertThat(Nearest.to(met, KNOWN)).contains(meant);
    }

    @Test
    void suggestsNothingForAStrangeWord() {
        assertThat(Nearest.to("viscosity", KNOWN)).isEmpty();
        assertThat(Nearest.to("anything", List.of())).isEmpty();
        assertThat(Nearest.to("", KNOWN)).isEmpty();
    }

    @Test
    void takesTheFirstOfEquals() {
        assertThat(Nearest.to("ab", List.of("ac", "ad"))).contains("ac");
    }

    @Test
    void theHintNamesTheWordOrAllThatIsKnown() {
        assertThat(Nearest.hint("recoveri", KNOWN)).isEqualTo("did you mean 'recovery'?");
        assertThat(Nearest.hint("viscosity", List.of("a", "b"))).isEqualTo("known here: a, b");
        assertThat(Nearest.hint("viscosity", List.of())).isEmpty();
    }
}
