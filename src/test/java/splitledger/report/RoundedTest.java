package splitledger.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RoundedTest {

    /** Rounded by hand: uncertainty to two significant digits, value to the same place. */
    @ParameterizedTest
    @CsvSource({
        "12.3456,     1.2345,   12.3,      1.2",
        "1,           0.0996,   1.00,      0.10",
        "0.5,         0.996,    0.5,       1.0",
        "100,         9.96,     100,       10",
        "9.9996,      0.012,    10.000,    0.012",
        "-0.7,        3.1,      −0.7,      3.1",
        "-0.04,       3.1,      0.0,       3.1",
        "3.2,         150,      0,         150",
        "1234.5,      342,      1230,      340",
        "2345678,     1234,     2345700,   1200",
        "0.000185432, 0.0000331, 0.000185, 0.000033",
        "5,           0.5,      5.00,      0.50",
        "0.125,       0.01,     0.125,     0.010",
        "0.1225,      0.010,    0.122,     0.010",
        "0,           0.02,     0.000,     0.020",
    })
    void valueAndUncertaintyEndAtTheSamePlace(
            double value, double uncertainty, String valueText, String uncertaintyText) {
        assertThat(Rounded.of(value, uncertainty))
                .isEqualTo(new Rounded(valueText, uncertaintyText, 0));
    }

    @ParameterizedTest
    @CsvSource({
        "1.5e-9,      2.5e-10,  1.50 × 10⁻⁹,     0.25 × 10⁻⁹",
        "-1.8444e-8,  3e-10,    −1.844 × 10⁻⁸,   0.030 × 10⁻⁸",
        "123456789,   12345,    1.23457 × 10⁸,   0.00012 × 10⁸",
        "6.02214e23,  1.5e18,   6.022140 × 10²³, 0.000015 × 10²³",
        "2e-9,        3.4e-7,   0.0 × 10⁻⁷,      3.4 × 10⁻⁷",
    })
    void veryLargeAndVerySmallPairsShareAPowerOfTen(
            double value, double uncertainty, String valueText, String uncertaintyText) {
        final Rounded rounded = Rounded.of(value, uncertainty);

        assertThat(rounded.valueText()).isEqualTo(valueText);
        assertThat(rounded.uncertaintyText()).isEqualTo(uncertaintyText);
    }

    @ParameterizedTest
    @CsvSource({"50, 50", "0.1, 0.1", "0.33333333333, 0.333333", "0, 0", "1234567, 1234570"})
    void withoutUncertaintyAValueKeepsSixDigitsAtMost(double value, String text) {
        assertThat(Rounded.of(value, 0)).isEqualTo(new Rounded(text, "0", 0));
    }

    @ParameterizedTest
    @CsvSource({"2.66712, 2.667", "0.05, 0.05", "12, 12", "99.995, 100.0", "1e-12, 1 × 10⁻¹²"})
    void aNumberAloneKeepsFourDigitsAtMost(double value, String text) {
        assertThat(Rounded.alone(value).valueText()).isEqualTo(text);
    }

    @Test
    void anEndOfAnIntervalStandsInLineWithItsValue() {
        assertThat(Rounded.at(0.0426, 0.0061).valueText()).isEqualTo("0.0426");
        assertThat(Rounded.at(-0.00004, 0.0061).valueText()).isEqualTo("0.0000");
        assertThat(Rounded.at(7.25, 0).valueText()).isEqualTo("7.25");
    }

    @Test
    void whatIsNoNumberIsRefused() {
        assertThatThrownBy(() -> Rounded.of(Double.NaN, 1))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Rounded.of(1, Double.NaN))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("uncertainty = NaN");
        assertThatThrownBy(() -> Rounded.of(1, -1)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Rounded.of(1, Double.POSITIVE_INFINITY))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
