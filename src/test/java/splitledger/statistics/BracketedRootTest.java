package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.apache.commons.math3.util.FastMath;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class BracketedRootTest {
    private int calls;

    @Test
    void aSmoothCrossingTakesFewSteps() {
        final double root =
                BracketedRoot.of(
                        x -> {
                            calls++;
                            return FastMath.exp(x) - 2;
                        },
                        -3,
                        5,
                        1e-13);

        assertThat(root).isCloseTo(FastMath.log(2), within(1e-13));
        assertThat(calls).isLessThan(40);
    }

    @Test
    void aCrossingThatIsNearlyAStepIsFoundByHalving() {
        assertThat(BracketedRoot.of(x -> 1 - FastMath.pow(x, 41), 0, 40, 1e-12))
                .isCloseTo(1, within(1e-12));
        assertThat(BracketedRoot.of(x -> x < 0.3 ? -1 : 1e9, 0, 1, 1e-12))
                .isCloseTo(0.3, within(1e-12));
    }

    @Test
    void anEndThatIsTheRootIsReturned() {
        assertThat(BracketedRoot.of(x -> x, 0, 1, 1e-12)).isZero();
        assertThat(BracketedRoot.of(x -> x - 1, 0, 1, 1e-12)).isEqualTo(1);
    }

    /** qf() of R 4.2. */
    @ParameterizedTest
    @CsvSource({
        "0.95, 5, 10, 3.325834530413",
        "0.025, 3.7, 12.2, 0.101480188428",
        "0.975, 40, 2, 39.472895479750"
    })
    void quantilesOfFAreThoseOfR(double p, double numerator, double denominator, double f) {
        assertThat(Quantiles.f(p, numerator, denominator)).isCloseTo(f, within(5e-12 * f));
    }
}
