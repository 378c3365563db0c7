package splitledger.base;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Expected texts follow from the definition (fewest digits, nearest), worked by hand. */
@SuppressWarnings("FloatingPointLiteralPrecision") // literals that round are what is tested
class NumbersTest {

    @ParameterizedTest
    @CsvSource({
        "5e-324,5e-324",
        "1e-323,1e-323",
        "2.2250738585072014e-308,2.2250738585072014e-308",
        "1.7976931348623157e308,1.7976931348623157e308",
        "1.1e23,1.1e23",
        "1e23,1e23",
        "9e22,9e22",
        "2e-3,0.002",
        "-2e-3,-0.002",
        "0.1,0.1",
        "100,100",
        "1e5,100000",
        "12.5,12.5",
        "1.5e-7,1.5e-7",
        "-1.5e-7,-1.5e-7",
        "1e-7,1e-7",
        "0.00001,0.00001",
        "0.000012345,0.000012345",
        "0.0000099,9.9e-6",
        "999999999999999,999999999999999",
        "1e15,1e15",
        "1234567890123456,1.234567890123456e15",
        "2e15,2e15",
        "9007199254740993,9.007199254740992e15",
        "0.3333333333333333,0.3333333333333333"
    })
    void writesTheShortestTextThatReadsBack(String read, String expected) {
        assertThat(Numbers.text(Double.parseDouble(read))).isEqualTo(expected);
    }

    /** Seen with Java 17.0.15: 5.6843418860808015E-14 and 1.9999999999999998E23. */
    @Test
    void isShorterThanTheTextOfJava17() {
        assertThat(Numbers.text(0x1p-44)).isEqualTo("5.684341886080802e-14");
        assertThat(Numbers.text(Double.parseDouble("2e23"))).isEqualTo("2e23");
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.0, -0.0})
    void writesBothZerosAsZero(double zero) {
        assertThat(Numbers.text(zero)).isEqualTo("0");
    }

    @Test
    void writesPositiveInfinityAsInf() {
        assertThat(Numbers.text(Double.POSITIVE_INFINITY)).isEqualTo("inf");
    }

    @ParameterizedTest
    @ValueSource(doubles = {Double.NaN, Double.NEGATIVE_INFINITY})
    void refusesWhatNoOutputMayHold(double value) {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> Numbers.text(value))
                .withMessageContaining(Double.toString(value));
    }
}
