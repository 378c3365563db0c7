package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static splitledger.Digits.assertDigits;

import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.junit.jupiter.api.Test;

class VarianceEstimateTest {

    /** RSD 0.70 % of six results: 95 % interval 0.437 to 1.717 %, worked by hand. */
    @Test
    void intervalOfARelativeStandardDeviation() {
        final VarianceEstimate v = new VarianceEstimate(0.70 * 0.70, 5);

        assertThat(v.sd()).isEqualTo(0.70);
        assertThat(v.sdLower(0.95)).isCloseTo(0.437, within(0.0005));
        assertThat(v.sdUpper(0.95)).isCloseTo(1.717, within(0.0005));
    }

    @Test
    void theIntervalLeavesEqualTailsOnBothSides() {
        for (double df : new double[] {1, 2.5, 5, 30, 1000}) {
            final VarianceEstimate v = new VarianceEstimate(4, df);
            final ChiSquaredDistribution law = ChiSquaredDistribution.of(df);
            final double low = v.sdLower(0.9);
            final double high = v.sdUpper(0.9);

            assertDigits(11, 0.05, law.survivalProbability(df * 4 / (low * low)), "above");
            assertDigits(11, 0.05, law.cumulativeProbability(df * 4 / (high * high)), "below");
        }
    }

    @Test
    void standardUncertaintyForManyDegreesOfFreedom() {
        // s / sqrt(2 nu), JCGM 100:2008, E.4.3
        assertThat(new VarianceEstimate(9, 50).sdUncertainty()).isCloseTo(0.3, within(1e-12));
    }

    /**
     * Method detection limit, worked by hand: spikes 1.9 2.1 2.0 2.2 1.8 2.0 2.0; blanks .1 0 .2 .1
     * -.1 .1 0; t one-sided 99 %, 6 degrees of freedom.
     */
    @Test
    void partsOfTheMethodDetectionLimit() {
        final double t = Quantiles.t(0.99, 6);
        final Moments spikes = Moments.ofAll(1.9, 2.1, 2.0, 2.2, 1.8, 2.0, 2.0);
        final Moments blanks = Moments.ofAll(0.1, 0, 0.2, 0.1, -0.1, 0.1, 0);
        final Moments lower = Moments.ofAll(-0.1, -0.2, 0, -0.1, -0.3, -0.1, -0.2);

        assertThat(t * spikes.sd()).isCloseTo(0.4057, within(0.00005));
        assertThat(blanks.mean() + t * blanks.sd()).isCloseTo(0.3638, within(0.00005));
        assertThat(lower.mean()).isNegative();
        assertThat(t * lower.sd()).isCloseTo(0.3067, within(0.00005));
    }

    /** Berthouex and Brown, Statistics for Environmental Engineers, 2nd ed., example 14.1. */
    @Test
    void methodDetectionLimitOfATextbook() {
        final Moments one = Moments.ofAll(2.5, 2.7, 2.2, 2.2, 3.1, 2.6, 2.8);

        assertThat(one.variance()).isCloseTo(0.10, within(0.005));
        assertThat(one.sd()).isCloseTo(0.32, within(0.005));
        assertThat(Quantiles.t(0.99, 6) * one.sd()).isCloseTo(1.0, within(0.05));
    }
}
