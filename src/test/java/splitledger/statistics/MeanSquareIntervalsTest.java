package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static splitledger.Digits.assertDigits;

import org.junit.jupiter.api.Test;

class MeanSquareIntervalsTest {

    /** With a mean square known almost exactly, what is left is the chi-square interval. */
    @Test
    void oneUncertainMeanSquareHasItsExactInterval() {
        final MeanSquareIntervals found = new MeanSquareIntervals(0.95, 6, 1e9);
        final VarianceEstimate plain = new VarianceEstimate(10, 6);
        final double[] squares = {10, 3};

        for (double factor : new double[] {1, -1}) {
            final double[] factors = {1, factor};
            final double low = plain.sdLower(0.95) * plain.sdLower(0.95) + 3 * factor;
            final double high = plain.sdUpper(0.95) * plain.sdUpper(0.95) + 3 * factor;
            assertThat(found.lower(factors, squares)).isCloseTo(low, within(2e-3));
            assertThat(found.upper(factors, squares)).isCloseTo(high, within(2e-3));
        }
    }

    /** By construction: a difference starts at 0 where the F test just rejects equality. */
    @Test
    void aDifferenceEndsAtZeroWhereTheFTestRejects() {
        final MeanSquareIntervals found = new MeanSquareIntervals(0.95, 4, 12);
        final double[] factors = {0.5, -0.5};
        final double upper = FisherQuantiles.of(0.975, 4, 12);
        final double lower = FisherQuantiles.of(0.025, 4, 12);

        assertThat(found.lower(factors, new double[] {upper * 7, 7})).isCloseTo(0, within(1e-9));
        assertThat(found.upper(factors, new double[] {lower * 7, 7})).isCloseTo(0, within(1e-9));
    }

    /** qf of R 4.2. */
    @Test
    void quantilesOfF() {
        assertDigits(12, 5.050329057632643, FisherQuantiles.of(0.95, 5, 5), "5 and 5");
        assertDigits(12, 0.1142705793220289, FisherQuantiles.of(0.025, 4, 12), "4 and 12");
        assertDigits(12, 27.991018057950185, FisherQuantiles.of(0.9995, 1, 9), "1 and 9");
        assertDigits(11, 5.5352787832282e-4, FisherQuantiles.of(1e-4, 2.5, 30.7), "2.5 and 30.7");
        assertDigits(
                10, 1 / FisherQuantiles.of(0.9, 3, 7), FisherQuantiles.of(0.1, 7, 3), "turned");
        assertDigits(
                12,
                Quantiles.chiSquare(0.2, 8) / 8,
                FisherQuantiles.of(0.2, 8, Double.POSITIVE_INFINITY),
                "chi-square");
    }
}
