package splitledger.evaluation;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class GuardedTest {

    @ParameterizedTest
    @CsvSource({
        // value, u, carried, rounded
        "12.7600498, 0.1915968, 12.7600, 12.76",
        "12.7600498, 0.5, 12.7600, 12.76",
        // 0.0996 to two digits is 0.10
        "3.14159265, 0.0996, 3.14159, 3.14",
        "1234567, 4321, 1234567, 1234600",
        "1234567.89, 1.5, 1234567.890, 1234567.9",
        "-0.00123456, 0.0000251, -0.00123456, -0.001235"
    })
    void twoDigitsMoreThanTheRoundedResultHas(
            double value, double u, String carried, String rounded) {
        assertThat(Guarded.carried(value, u)).isEqualTo(carried);
        assertThat(Guarded.rounded(value, u)).isEqualTo(rounded);
    }

    @ParameterizedTest
    @CsvSource({"1.23456789, 0, 1.234568", "12, 0, 12"})
    void withoutUncertaintySevenDigitsAreCarried(double value, double u, String carried) {
        assertThat(Guarded.carried(value, u)).isEqualTo(carried);
    }
}
