package splitledger.propagation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Values follow from the rules of ordinary algebra, worked by hand. */
class ExpressionTest {
    private static final Map<String, Double> VALUES =
            Map.of("a", 3.0, "b", 2.0, "c", 4.0, "x_1", 0.5, "e1", 7.0);

    private static double value(String equation) {
        return Given.parse(equation).value(VALUES::get);
    }

    private static double derivative(String equation, String by) {
        return Given.parse(equation).derivative(by).value(VALUES::get);
    }

    @ParameterizedTest
    @CsvSource({
        "1 + 2 * 3, 7",
        "(1 + 2) * 3, 9",
        "10 - 3 - 2, 5",
        "24 / 4 / 2, 3",
        "24 / 4 * 2, 12",
        "-a^2, -9",
        "(-a)^2, 9",
        "-a^2 + 10, 1",
        "a^b^c, 43046721",
        "(a^b)^c, 6561",
        "b^-1, 0.5",
        "b^-b, 0.25",
        "a * -b, -6",
        "a - -b, 5",
        "--a, 3",
        "+a, 3",
        "- - -a, -3",
        "2 * x_1, 1",
        "exp(0), 1",
        "ln(exp(1)), 1",
        "log10(1000), 3",
        "sqrt(c), 2",
        "sqrt(a^2 + c^2), 5",
        "1e3, 1000",
        "1.5e-3, 0.0015",
        "1E+2, 100",
        "2.5 * e1, 17.5",
        ".5, 0.5",
        "5., 5",
        "  a\t+ b , 5"
    })
    void readsOrdinaryAlgebra(String equation, double expected) {
        assertThat(value(equation)).isCloseTo(expected, within(1e-12 * Math.abs(expected)));
    }

    @ParameterizedTest
    @CsvSource({
        "a + b * c, 1",
        "a * b, 2",
        "a / b, 0.5",
        "b / a, -0.2222222222222222",
        "a^2, 6",
        "a^3, 27",
        "b^a, 5.545177444479562", // 2^3 ln 2
        "a^a, 56.66253179403897", // 27 (ln 3 + 1)
        "-a, -1",
        "exp(2 * a), 806.8575869854702", // 2 e^6
        "ln(a), 0.3333333333333333",
        "log10(a), 0.14476482730108395", // 1 / (3 ln 10)
        "sqrt(a), 0.28867513459481287",
        "sqrt(a^2 + c^2), 0.6",
        "(a - b) / (a + b), 0.16", // 2 b / (a + b)^2
        "b * c, 0",
        "7, 0"
    })
    void derivativesAreThoseOfAlgebra(String equation, double expected) {
        assertThat(derivative(equation, "a"))
                .isCloseTo(expected, within(1e-13 * Math.abs(expected)));
    }

    @Test
    void secondDerivativesComeFromTheSameTree() {
        final Expression second = Given.parse("a^4 * b").derivative("a").derivative("a");

        assertThat(second.value(VALUES::get)).isEqualTo(12 * 9 * 2.0);
    }

    @Test
    void aWholePowerOfANegativeBaseHasAValueAndADerivative() {
        final Map<String, Double> negative = Map.of("a", -3.0);

        assertThat(Given.parse("a^3").value(negative::get)).isEqualTo(-27);
        assertThat(Given.parse("a^3").derivative("a").value(negative::get)).isEqualTo(27);
        assertThat(Given.parse("a^2").derivative("a").value(Map.of("a", 0.0)::get)).isZero();
    }

    @ParameterizedTest
    @CsvSource({
        "found * V / oil * precision / R, found * V / oil * precision / R",
        "a-(b-c), a - (b - c)",
        "(a-b)-c, a - b - c",
        "a/(b*c), a / (b * c)",
        "(a+b)*c, (a + b) * c",
        "a^(b^c), a^b^c",
        "(a^b)^c, (a^b)^c",
        "-a^2, -a^2",
        "(-a)^2, (-a)^2",
        "-(a*b), -(a * b)",
        "a^-b, a^(-b)",
        "sqrt(a+b), sqrt(a + b)",
        "2*x_1, 2 * x_1"
    })
    void isWrittenWithTheParenthesesThatItNeeds(String equation, String text) {
        assertThat(Given.parse(equation).text(s -> s)).isEqualTo(text);
    }

    @Test
    void everySymbolIsFoundOnceAndMayBeReplaced() {
        final Expression equation = Given.parse("b * (a + b) / sqrt(c)");

        assertThat(equation.symbols()).containsExactly("a", "b", "c");
        final Expression replaced =
                equation.replace(s -> s.name().equals("a") ? Given.parse("b - 1") : s);
        assertThat(replaced.text(s -> s)).isEqualTo("b * (b - 1 + b) / sqrt(c)");
        assertThat(replaced.symbols()).containsExactly("b", "c");
    }

    @ParameterizedTest
    @CsvSource({
        "'', 1, the end",
        "'a +', 4, the end",
        "'a b', 3, 'b'",
        "'(a + b', 7, ')'",
        "'a + b)', 6, ')'",
        "'a + * b', 5, '*'",
        "'a ^ ^ b', 5, '^'",
        "'a % b', 3, '%'",
        "'a == b', 3, '='",
        "'sqrt a', 6, '(' after sqrt",
        "'ln(a', 5, ')'",
        "'sin(a)', 4, '('",
        "'1.2.3', 1, 1.2.3",
        "'a + 2e', 5, 2e",
        "'1e400', 1, 1e400",
        "'f(a)', 2, '('",
        "'a; b', 2, ';'",
        "'a,b', 2, ','"
    })
    void aMistakeIsToldWithItsPlace(String equation, int position, String words) {
        assertThatExceptionOfType(ExpressionException.class)
                .isThrownBy(() -> ExpressionParser.parse(equation))
                .satisfies(e -> assertThat(e.position()).isEqualTo(position))
                .withMessageContaining("at character " + position)
                .withMessageContaining(words);
    }

    @Test
    void nestingAndLengthAreBounded() {
        final String deep = "(".repeat(500) + "a" + ")".repeat(500);
        assertThatExceptionOfType(ExpressionException.class)
                .isThrownBy(() -> ExpressionParser.parse(deep))
                .withMessageContaining("deep");
        final String minus = "-".repeat(3000) + "a";
        assertThatExceptionOfType(ExpressionException.class)
                .isThrownBy(() -> ExpressionParser.parse(minus));
        final String powers = "a" + "^a".repeat(1900);
        assertThatExceptionOfType(ExpressionException.class)
                .isThrownBy(() -> ExpressionParser.parse(powers));
        final String functions = "exp(".repeat(900) + "a" + ")".repeat(900);
        assertThatExceptionOfType(ExpressionException.class)
                .isThrownBy(() -> ExpressionParser.parse(functions));
        assertThatExceptionOfType(ExpressionException.class)
                .isThrownBy(() -> ExpressionParser.parse("a+".repeat(2500) + "a"))
                .withMessageContaining("longer");
    }

    @Test
    void theLongestSumAllowedCanBeUsed() {
        final Expression sum = Given.parse("a" + "+a".repeat(1999));

        assertThat(sum.value(VALUES::get)).isEqualTo(6000);
        assertThat(sum.derivative("a").value(VALUES::get)).isEqualTo(2000);
        assertThat(sum.text(s -> s)).startsWith("a + a");
    }

    @ParameterizedTest
    @ValueSource(strings = {"exp", "ln", "log10", "sqrt"})
    void functionsAreNoSymbols(String word) {
        assertThat(ExpressionParser.isFunction(word)).isTrue();
        assertThat(ExpressionParser.isFunction(word + "2")).isFalse();
    }
}
