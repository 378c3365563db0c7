package splitledger.propagation;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class EffectTest {

    @ParameterizedTest
    @CsvSource({
        "STROKE, INTEGRATION, true",
        "PREPARATION, STROKE, true",
        "DAY, PREPARATION, true",
        "DAY, ANALYST, true",
        "STROKE, PREPARATION, false",
        "PREPARATION, DAY, false",
        "INTEGRATION, STROKE, false",
        "SPLIT, STROKE, false",
        "PREPARATION, SPLIT, false",
        "SPLIT, SPLIT, false",
        "STROKE, STROKE, true",
        "INTEGRATION, INTEGRATION, true"
    })
    void scatterHoldsWhatItRepeats(Effect wide, Effect narrow, boolean holds) {
        assertThat(wide.contains(narrow)).isEqualTo(holds);
    }

    @ParameterizedTest
    @EnumSource
    void theNameInFilesIsTheConstantInSmallLetters(Effect effect) {
        assertThat(effect.code().replace('-', '_')).isEqualToIgnoringCase(effect.name());
    }

    @Test
    void noTwoEffectsHaveTheSameWords() {
        assertThat(Arrays.stream(Effect.values()).map(Effect::words))
                .doesNotHaveDuplicates()
                .allSatisfy(w -> assertThat(w).isNotBlank());
    }
}
