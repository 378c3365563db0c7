package splitledger.propagation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Units of equations, worked by hand. */
class DimensionsTest {
    private static final Map<String, String> UNITS =
            Map.of("mass", "mg", "more", "mg", "grams", "g", "volume", "L", "share", "1");

    private static Dimensions.Found of(String equation) throws ExpressionException {
        return Dimensions.of(
                ExpressionParser.parse(equation),
                s -> Optional.ofNullable(UNITS.get(s)).flatMap(Unit::parse));
    }

    @ParameterizedTest
    @CsvSource({
        "mass / volume, mg/L",
        "mass * volume / volume, mg",
        "mass + more, mg",
        "mass - more, mg",
        "-mass, mg",
        "12 * mass, mg",
        "share + 1, 1",
        "ln(share), 1",
        "exp(mass / more), 1",
        "share^volume, 1",
        "sqrt(mass / more), 1"
    })
    void anEquationHasTheUnitThatItsTermsMake(String equation, String unit)
            throws ExpressionException {
        assertThat(of(equation)).isInstanceOf(Dimensions.Known.class);
        final Unit found = ((Dimensions.Known) of(equation)).unit();
        final Unit expected = Unit.parse(unit).orElseThrow();

        assertThat(found.powers()).isEqualTo(expected.powers());
        assertThat(found.factor()).isCloseTo(expected.factor(), within(1e-15));
    }

    @Test
    void aWholePowerRaisesTheUnit() throws ExpressionException {
        final Unit milligram = Unit.parse("mg").orElseThrow();

        assertThat(of("mass^3"))
                .isEqualTo(new Dimensions.Known(milligram.times(milligram).times(milligram)));
    }

    /** A gram over a milligram is 1000; its square root 31.6. */
    @Test
    void aRootOfARatioKeepsTheSizeOfItsUnits() throws ExpressionException {
        final Unit found = ((Dimensions.Known) of("sqrt(grams / mass)")).unit();

        assertThat(found.powers()).isEmpty();
        assertThat(found.factor()).isCloseTo(31.622776601683793, within(1e-9));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "nothing",
                "nothing * mass",
                "mass * nothing",
                "mass^0.5",
                "mass^10",
                "mass^share",
                "(grams / mass)^share",
                "sqrt(mass)",
                "ln(nothing)"
            })
    void whatIsNotUnderstoodIsUnknown(String equation) throws ExpressionException {
        assertThat(of(equation)).isEqualTo(new Dimensions.Unknown());
    }

    @ParameterizedTest
    @CsvSource({
        "mass + volume, 'mass and volume are added, but their units are of different kinds'",
        "mass - grams, 'mass and grams are added in units of different size'",
        "exp(mass), 'exp(mass) is taken of a quantity with a unit'",
        "(mass + volume) * nothing, 'mass and volume are added, but their units are of different kinds'",
        "nothing * (mass + volume), 'mass and volume are added, but their units are of different kinds'",
        "mass * (mass + volume), 'mass and volume are added, but their units are of different kinds'"
    })
    void termsThatDoNotFitAreNamed(String equation, String words) throws ExpressionException {
        assertThat(of(equation)).isEqualTo(new Dimensions.Clash(words));
    }

    @ParameterizedTest
    @CsvSource({
        "1000 * mass / 4, 250",
        "-(3 * mass), -3",
        "mass / (2 * volume), 0.5",
        "mass + 7, 1",
        "mass^2, 1",
        "6, 6"
    })
    void theNumbersOfAProductAreMultiplied(String equation, double number)
            throws ExpressionException {
        assertThat(Dimensions.number(ExpressionParser.parse(equation))).isEqualTo(number);
    }
}
