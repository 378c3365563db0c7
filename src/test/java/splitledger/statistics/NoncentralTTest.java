package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static splitledger.Digits.assertDigits;

import org.junit.jupiter.api.Test;

class NoncentralTTest {

    @Test
    void probabilitiesAreThoseOfR() {
        CalibrationOracle.all("noncentral-t")
                .forEach(
                        (key, expected) -> {
                            final String[] c = key.split("/", -1);
                            assertThat(
                                            NoncentralT.cumulative(
                                                    Double.parseDouble(c[2]),
                                                    Double.parseDouble(c[0]),
                                                    Double.parseDouble(c[1])))
                                    .as(key)
                                    .isCloseTo(expected, within(1e-11));
                        });
    }

    @Test
    void shiftsAreThoseOfR() {
        CalibrationOracle.all("noncentral-shift")
                .forEach(
                        (key, expected) -> {
                            final String[] c = key.split("/", -1);
                            final double df = Double.parseDouble(c[0]);
                            final double t = Quantiles.t(1 - Double.parseDouble(c[1]), df);
                            assertDigits(
                                    9,
                                    expected,
                                    NoncentralT.shift(t, df, Double.parseDouble(c[2])),
                                    key);
                        });
    }

    /** delta(0.05, 0.05, 4) = 4.07 and 3.29 for known scatter (Currie, IUPAC 1995, from memory). */
    @Test
    void theDetectionFactorsOfCurrie() {
        assertThat(NoncentralT.shift(Quantiles.t(0.95, 4), 4, 0.05)).isCloseTo(4.07, within(0.005));
        final double infinite = Double.POSITIVE_INFINITY;
        assertThat(NoncentralT.shift(Quantiles.normal(0.95), infinite, 0.05))
                .isCloseTo(3.29, within(0.005));
    }

    @Test
    void withoutShiftItIsStudents() {
        for (double t : new double[] {-2.3, 0, 0.4, 5}) {
            assertThat(NoncentralT.cumulative(t, 7, 0))
                    .isCloseTo(Quantiles.tTail(-t, 7), within(1e-13));
        }
    }

    @Test
    void veryLargeShiftsStayFinite() {
        // nearly normal about the shift: half below it
        assertThat(NoncentralT.cumulative(60, 1e5, 60)).isCloseTo(0.5, within(0.01));
        assertThat(NoncentralT.shift(12.7062, 1, 0.05)).isBetween(24.0, 26.0);
    }
}
