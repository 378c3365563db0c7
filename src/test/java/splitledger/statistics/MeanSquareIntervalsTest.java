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

    /**
     * Worked by hand with chi-square 14.4494 and 1.23734 at 6 degrees of freedom: two mean squares
     * of 10 have the ends 20 - sqrt(2) 10 (1 - 6/14.4494) and 20 + sqrt(2) 10 (6/1.23734 - 1).
     */
    @Test
    void sumsAddTheSquaredDistancesOfTheirEnds() {
        final MeanSquareIntervals found = new MeanSquareIntervals(0.95, 6, 6);
        final double[] squares = {10, 10};

        assertThat(found.lower(new double[] {1, 1}, squares)).isCloseTo(11.7303, within(5e-4));
        assertThat(found.upper(new double[] {1, 1}, squares)).isCloseTo(74.4347, within(5e-3));
        assertThat(found.lower(new double[] {0.5, 1.5}, squares))
                .isCloseTo(20 - Math.sqrt(2.5) * 5.84758, within(5e-4));
    }

    /** By construction: the same with the mean squares in the other order. */
    @Test
    void aDifferenceTheOtherWayRoundEndsAtZeroToo() {
        final MeanSquareIntervals found = new MeanSquareIntervals(0.95, 12, 4);
        final double[] factors = {-0.5, 0.5};
        final double upper = FisherQuantiles.of(0.975, 4, 12);
        final double lower = FisherQuantiles.of(0.025, 4, 12);

        assertThat(found.lower(factors, new double[] {7, upper * 7})).isCloseTo(0, within(1e-9));
        assertThat(found.upper(factors, new double[] {7, lower * 7})).isCloseTo(0, within(1e-9));
        // turned over, the ends change places
        final double[] turned = {0.5, -0.5};
        final double[] squares = {3, 20};
        assertThat(found.lower(turned, squares))
                .isCloseTo(-found.upper(factors, squares), within(1e-9));
    }

    /**
     * By construction: where a third mean square, here 0, is taken off, two with the same
     * expectation and weights by degrees of freedom have the end of the one mean square that they
     * pool to.
     */
    @Test
    void meanSquaresThatPoolHaveTheEndOfThePooledOne() {
        final MeanSquareIntervals found = new MeanSquareIntervals(0.95, 5, 9, 4);
        final double[] squares = {10, 10, 0};
        final double low = 10 * 14 / Quantiles.chiSquare(0.975, 14);

        assertThat(found.lower(new double[] {5.0 / 14, 9.0 / 14, -1}, squares))
                .isCloseTo(low, within(1e-9));
        assertThat(found.upper(new double[] {-5.0 / 14, -9.0 / 14, 1}, squares))
                .isCloseTo(-low, within(1e-9));
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
