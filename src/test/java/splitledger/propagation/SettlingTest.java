package splitledger.propagation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import splitledger.propagation.Batches.Part;

/** The rule that ends the trials, worked by hand. */
class SettlingTest {
    /** Standard normal at 0.975. */
    private static final double Z = 1.959963984540054;

    /** Ten batches; their lower ends are by turns e above and below, the average's error is e/3. */
    private static Part[] ends(double e, double u) {
        final Part[] parts = new Part[10];
        for (int i = 0; i < parts.length; i++) {
            final double off = i % 2 == 0 ? e : -e;
            parts[i] = new Part(2, 5, u * u, 5 - Z * u + off, 5 + Z * u);
        }
        return parts;
    }

    @ParameterizedTest
    @CsvSource({"true, 0.0749, 10", "true, 0.0751, 0", "false, 0.0749, 10", "false, 0.0751, 0"})
    void twiceTheErrorOfTheEndsMustNotExceedTheTolerance(boolean all, double e, int batches) {
        // u = 2.0 to two digits: tolerance 0.05; twice e/3 is 0.05 at e = 0.075
        assertThat(new Settling(0.95, all).settledAt(ends(e, 2), 10)).isEqualTo(batches);
    }

    @Test
    void theFirstNumberOfBatchesThatIsEnoughCounts() {
        final Part[] alike = ends(0, 2);

        assertThat(new Settling(0.95, true).settledAt(alike, 4)).isEqualTo(4);
        assertThat(new Settling(0.95, true).settledAt(alike, 10)).isEqualTo(10);
        assertThat(new Settling(0.95, true).settledAt(alike, 11)).isZero();
    }

    @Test
    void theMeanDecidesOnlyWhereMomentsCount() {
        final Part[] parts = new Part[10];
        for (int i = 0; i < parts.length; i++) {
            parts[i] = new Part(2, i % 2 == 0 ? 4 : 6, 4, 1, 9);
        }

        assertThat(new Settling(0.95, true).settledAt(parts, 10)).isZero();
        assertThat(new Settling(0.95, false).settledAt(parts, 10)).isEqualTo(10);
    }

    /** Twice the tolerance at ten batches: four times as many and a tenth, 44 by the root law. */
    @Test
    void theSquareRootLawForetellsHowManyBatchesAreEnough() {
        assertThat(new Settling(0.95, true).expected(ends(0.15, 2))).isBetween(44, 45);
        assertThat(new Settling(0.95, false).expected(ends(0.15, 2))).isBetween(44, 45);
    }

    @Test
    void atLeastOneMoreBatchIsExpected() {
        assertThat(new Settling(0.95, true).expected(ends(0, 2))).isEqualTo(11);
    }

    /** Lower ends 1 and 3: standard deviation of their mean 1; upper ends 5 and 5.5: a quarter. */
    @Test
    void theLessCertainEndCounts() {
        final Part one = new Part(10, 2, 1, 1, 5);
        final Part two = new Part(10, 2, 1, 3, 5.5);

        assertThat(Settling.errorOfEnds(new Part[] {one, two})).isCloseTo(1, within(1e-12));
        assertThat(
                        Settling.errorOfEnds(
                                new Part[] {new Part(10, 2, 1, 5, 1), new Part(10, 2, 1, 5.5, 3)}))
                .isCloseTo(1, within(1e-12));
        assertThat(Settling.errorOfEnds(new Part[] {one})).isZero();
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, -1, Double.NaN, Double.POSITIVE_INFINITY})
    void withoutAFiniteUncertaintyThereIsNoTolerance(double u) {
        assertThat(Settling.tolerance(u, 2)).isZero();
        assertThat(Settling.meaningfulDigits(u)).isEqualTo(1);
    }
}
