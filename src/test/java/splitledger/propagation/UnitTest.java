package splitledger.propagation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.withinPercentage;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class UnitTest {

    /** So many of the second make one of the first. */
    @ParameterizedTest
    @CsvSource({
        "mL, L, 0.001",
        "mg/g, 1, 0.001",
        "mg/L, ug/mL, 1",
        "mg L-1, mg/L, 1",
        "mg\u00b7L^-1, mg/L, 1",
        "mg/100 g, mg/g, 0.01",
        "g/(L h), g/L/h, 1",
        "mol/L, M, 1",
        "mmol/L, mol/m3, 1",
        "%, 1, 0.01",
        "ppm, mg/kg, 1",
        "\u00b5g, ng, 1000",
        "dm2, cm2, 100",
        "min, s, 60",
        "mL/min, L/h, 0.06",
        "bar, kPa, 100",
        "V/A, ohm, 1",
        "/min, Bq, 0.016666666666666666",
        "1/degC, /degC, 1",
        "kg/m3, g/L, 1"
    })
    void unitsOfOneKindDifferByAFactor(String a, String b, double factor) {
        final Unit left = Unit.parse(a).orElseThrow();
        final Unit right = Unit.parse(b.equals("1") ? "" : b).orElseThrow();

        assertThat(left.isLike(right)).isTrue();
        assertThat(left.factor() / right.factor()).isCloseTo(factor, withinPercentage(1e-10));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"area counts", "pA s x", "furlong", "mg/", "(mg", "mg//L", "%/%m", "mg)"})
    void whatIsNotUnderstoodIsNoUnit(String text) {
        assertThat(Unit.parse(text)).isEmpty();
    }

    @Test
    void kindsAreToldApart() {
        assertThat(Unit.parse("mg/L").orElseThrow().isLike(Unit.parse("mg/kg").orElseThrow()))
                .isFalse();
        assertThat(Unit.parse("degC").orElseThrow().isLike(Unit.parse("K").orElseThrow()))
                .isFalse();
        assertThat(Unit.parse("m").orElseThrow().isLike(Unit.parse("min").orElseThrow())).isFalse();
    }
}
