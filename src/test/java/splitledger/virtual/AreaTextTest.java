package splitledger.virtual;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import splitledger.base.Numbers;
import splitledger.statistics.RandomStream;

/** The quick ways to round and to print against the exact ones. */
class AreaTextTest {
    private static final int NUMBERS = 20_000;

    private static String text(double value) {
        final StringBuilder text = new StringBuilder();
        AreaText.append(text, value);
        return text.toString();
    }

    @Test
    void areasAreRoundedAndPrintedAsTheExactWayDoes() {
        final RandomStream random = RandomStream.of(5, 1);
        for (int i = 0; i < NUMBERS; i++) {
            final double size = Math.pow(10, 20 * random.nextDouble() - 9);
            final double value = (random.nextDouble() < 0.2 ? -1 : 1) * size;
            final int digits = 1 + random.nextInt(12);
            final double exact =
                    new BigDecimal(value)
                            .round(new MathContext(digits, RoundingMode.HALF_EVEN))
                            .doubleValue();

            assertThat(Integrator.rounded(value, digits)).isEqualTo(exact);
            assertThat(text(exact)).isEqualTo(Numbers.text(exact));
            assertThat(text(value)).isEqualTo(Numbers.text(value));
        }
    }

    @ParameterizedTest
    @ValueSource(
            doubles = {0, -0.0, 0.5, 0.25, 2.5, 12.5, 0.1, 1, 10, 99.9995, 0.00001, 1e-6, 1e15, -3})
    void tiesAndRoundNumbersToo(double value) {
        for (int digits = 1; digits <= 6; digits++) {
            final double exact =
                    new BigDecimal(value)
                            .round(new MathContext(digits, RoundingMode.HALF_EVEN))
                            .doubleValue();
            assertThat(Integrator.rounded(value, digits)).isEqualTo(exact);
            assertThat(text(exact)).isEqualTo(Numbers.text(exact));
        }
    }
}
