package splitledger.propagation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import splitledger.propagation.MonteCarlo.Histogram;

/** Sixty equal steps over all trials but a thousandth on either side, counted by hand. */
class HistogramsTest {

    /** The values 10 to 70, each so often: one value a step, two in the last, which is closed. */
    @ParameterizedTest
    @ValueSource(ints = {1, 2, 5})
    void everyTrialCountsInTheStepThatItBegins(int often) {
        final double[] sorted =
                IntStream.range(0, 61 * often).mapToDouble(i -> 10 + i / often).toArray();
        final Histogram found = Histograms.of(sorted);

        assertThat(found.from()).isEqualTo(10);
        assertThat(found.step()).isEqualTo(1);
        assertThat(found.densities()).hasSize(60);
        assertThat(found.densities().subList(0, 59))
                .allSatisfy(d -> assertThat(d).isCloseTo(1.0 / 61, within(1e-15)));
        assertThat(found.densities().get(59)).isCloseTo(2.0 / 61, within(1e-15));
    }

    @Test
    void stepsBetweenTrialsAreEmpty() {
        // steps of 2: 0 stands in the first, 50 in the 26th, 120 in the last
        final Histogram found = Histograms.of(new double[] {0, 50, 120});

        assertThat(found.step()).isEqualTo(2);
        for (int i = 0; i < 60; i++) {
            final double expected = i == 0 || i == 25 || i == 59 ? 1.0 / 6 : 0;
            assertThat(found.densities().get(i)).isCloseTo(expected, within(1e-15));
        }
    }

    @Test
    void aThousandthOnEitherSideIsLeftOut() {
        final double[] sorted = IntStream.range(0, 10_000).mapToDouble(i -> i).toArray();
        final Histogram found = Histograms.of(sorted);

        assertThat(found.from()).isEqualTo(10);
        assertThat(found.from() + 60 * found.step()).isCloseTo(9_989, within(1e-9));
        final double share = found.densities().stream().mapToDouble(d -> d * found.step()).sum();
        assertThat(share).isCloseTo(0.998, within(1e-12));
    }

    @Test
    void trialsThatAreAllAlikeHaveNoSteps() {
        final Histogram found = Histograms.of(new double[] {4, 4, 4, 4});

        assertThat(found).isEqualTo(new Histogram(4, 0, List.of()));
    }
}
