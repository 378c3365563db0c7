package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.apache.commons.statistics.distribution.TDistribution;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class StudentContentTest {

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 4, 7, 16, 101, 200, 350})
    void theSeriesIsTheDistributionFunction(int freedom) {
        final StudentContent content = new StudentContent(freedom);
        final TDistribution law = TDistribution.of(freedom);
        for (double t : new double[] {1e-3, 0.5, 1.7, 2.6, 9, 400}) {
            final double expected = law.probability(-t, t);

            assertThat(content.between(t)).isCloseTo(expected, within(1e-13));
            assertThat(content.between(-t)).isCloseTo(-expected, within(1e-13));
        }
    }
}
