package splitledger.budget;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class BelowZeroTest {

    @ParameterizedTest
    @ValueSource(
            strings = {"mg", "mmol", "mL", "mg/L", "mg/g", "mmol/L", "mol/kg", "mL/L", "g/m^3"})
    void anAmountCannotBeNegative(String unit) {
        assertThat(BelowZero.words(1, -0.5, unit, false)).startsWith("the interval reaches below");
        assertThat(BelowZero.words(-1, -2, unit, false)).startsWith("the value lies below 0");
        assertThat(BelowZero.words(0, -0.5, unit, false)).startsWith("the interval reaches below");
    }

    @ParameterizedTest
    @ValueSource(strings = {"1", "", "%", "m", "m^2", "s", "K", "mg/s", "L/mg/mg", "no unit"})
    void anyOtherQuantityMay(String unit) {
        assertThat(BelowZero.words(-1, -2, unit, false)).isEmpty();
    }

    @Test
    void whatComesFromAnAmountFoundIsOne() {
        assertThat(BelowZero.words(-1, -2, "%", true)).isNotEmpty();
    }

    @Test
    void anIntervalDownToZeroNeedsNoWords() {
        assertThat(BelowZero.words(1, 0, "mg", true)).isEmpty();
        assertThat(BelowZero.words(1, 0.5, "mg", true)).isEmpty();
    }
}
