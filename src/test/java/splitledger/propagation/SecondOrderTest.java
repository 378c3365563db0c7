package splitledger.propagation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static splitledger.Digits.assertDigits;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SecondOrderTest {

    private static SecondOrder of(String equation, Given given) {
        return SecondOrder.of(Given.parse(equation), given.inputs()).orElseThrow();
    }

    /** x^2 of a normal x: variance 4 mu^2 s^2 + 2 s^4, mean mu^2 + s^2, both exact. */
    @Test
    void squareOfANormalIsExact() {
        final SecondOrder y = of("x^2", new Given().input("x", 3, 0.5));

        assertDigits(12, Math.sqrt(4 * 9 * 0.25 + 2 * 0.0625), y.standardUncertainty(), "u");
        assertThat(y.shift()).isEqualTo(0.25);
    }

    /** At 0 the square is flat: the first order is 0, the second sqrt(2) s^2. */
    @Test
    void aFlatEquationHasItsUncertaintyInTheSecondOrder() {
        final SecondOrder y = of("x * x", new Given().input("x", 0, 0.5));

        assertDigits(12, Math.sqrt(2) * 0.25, y.standardUncertainty(), "u");
    }

    /** Product of independents: a^2 v + b^2 u + u v, exact. */
    @Test
    void productOfIndependentsIsExact() {
        final SecondOrder y = of("a * b", new Given().input("a", 2, 0.3).input("b", 5, 0.4));

        assertDigits(
                12, Math.sqrt(4 * 0.16 + 25 * 0.09 + 0.09 * 0.16), y.standardUncertainty(), "u");
        assertThat(y.shift()).isZero();
    }

    /** A shared root: a * b with both 2 + 0.3 r is (2 + 0.3 r)^2. */
    @Test
    void correlatedInputsAreTheSameAsTheirCommonCause() {
        final Uncertain same = Uncertain.of(2, "1", Given.root("r"), 0.3);
        final SecondOrder y = of("a * b", new Given().input("a", same).input("b", same));

        assertDigits(12, Math.sqrt(16 * 0.09 + 2 * 0.0081), y.standardUncertainty(), "u");
        assertThat(y.shift()).isCloseTo(0.09, within(1e-15));
    }

    /** JCGM 100:2008, note to 5.1.2, term by term, with derivatives from the tree. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "exp(a) * sqrt(b) / c",
                "ln(a + b) ^ 2 - log10(c) * a",
                "a ^ b / (1 + c)",
                "-(a - b * c) ^ 3 / sqrt(a)",
                "2 ^ a + b ^ -2 * c"
            })
    void equalsTheFormulaWithDerivativesOfTheTree(String text) {
        final List<String> names = List.of("a", "b", "c");
        final double[] values = {1.3, 2.1, 0.7};
        final double[] u = {0.05, 0.1, 0.04};
        final Given given = new Given();
        for (int i = 0; i < 3; i++) {
            given.input(names.get(i), values[i], u[i]);
        }
        final Expression f = Given.parse(text);
        double variance = 0;
        for (int i = 0; i < 3; i++) {
            final Expression fi = f.derivative(names.get(i));
            final double first = at(fi, values);
            variance += first * first * u[i] * u[i];
            for (int j = 0; j < 3; j++) {
                final Expression fij = fi.derivative(names.get(j));
                final double second = at(fij, values);
                final double third = at(fij.derivative(names.get(j)), values);
                variance += (second * second / 2 + first * third) * u[i] * u[i] * u[j] * u[j];
            }
        }

        assertDigits(10, Math.sqrt(variance), of(text, given).standardUncertainty(), text);
    }

    private static double at(Expression e, double[] values) {
        return e.value(s -> values[s.charAt(0) - 'a']);
    }

    @Test
    void aDerivativeThatIsNotFiniteGivesNone() {
        assertThat(SecondOrder.of(Given.parse("sqrt(a)"), new Given().input("a", 0, 1).inputs()))
                .isEmpty();
    }
}
