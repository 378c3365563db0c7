package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import splitledger.statistics.Allocation.Counts;

class AllocationTest {
    /** Worked by hand: 2/1 sqrt(90/10) = 6 and 1/2 sqrt(10/2.5) = 1. */
    @Test
    void theClosedFormIsThatOfSubsamplingInStages() {
        final Allocation a = new Allocation(1, 2, 1, 90, 10, 2.5);

        assertThat(a.preparationsADay()).isCloseTo(6, within(1e-12));
        assertThat(a.injectionsAPreparation()).isCloseTo(1, within(1e-12));
        assertThat(a.cost(new Counts(2, 3, 4))).isEqualTo(2 * (90 + 3 * (10 + 4 * 2.5)));
        assertThat(a.variance(new Counts(2, 3, 4)))
                .isCloseTo(1.0 / 2 + 4.0 / 6 + 1.0 / 24, within(1e-15));
    }

    @Test
    void withoutScatterOrPriceAbovePreparationsTheClosedFormHasNoEnd() {
        assertThat(new Allocation(0, 1, 1, 90, 10, 1).preparationsADay()).isInfinite();
        assertThat(new Allocation(1, 1, 1, 0, 10, 1).preparationsADay()).isZero();
        assertThatThrownBy(() -> new Allocation(1, 1, 1, 1, 1, 0))
                .hasMessageContaining("injectionCost");
    }

    static LongStream seeds() {
        return LongStream.range(0, 30);
    }

    /** No whole numbers do better than the continuous optimum: its cost times variance is least. */
    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void wholeNumbersCostNoLessThanTheClosedFormAndReachTheVariance(long seed) {
        final SplittableRandom random = new SplittableRandom(seed);
        final Allocation a =
                new Allocation(
                        random.nextDouble(0.2, 3),
                        random.nextDouble(0.2, 3),
                        random.nextDouble(0.2, 3),
                        random.nextDouble(10, 300),
                        random.nextDouble(5, 60),
                        random.nextDouble(2, 40));
        final double wanted = random.nextDouble(0.05, 1);
        final Counts found = a.cheapest(wanted, 12);
        final double root =
                a.dayScatter() * Math.sqrt(a.dayCost())
                        + a.preparationScatter() * Math.sqrt(a.preparationCost())
                        + a.injectionScatter() * Math.sqrt(a.injectionCost());

        assertThat(a.variance(found)).isLessThanOrEqualTo(wanted * (1 + 1e-9));
        assertThat(a.cost(found) * wanted).isGreaterThanOrEqualTo(root * root * (1 - 1e-9));
        for (int d = 1; d <= found.days() + 3; d++) {
            for (int p = 1; p <= 12; p++) {
                for (int m = 1; m <= 12; m++) {
                    final Counts other = new Counts(d, p, m);
                    if (a.variance(other) <= wanted) {
                        assertThat(a.cost(other)).isGreaterThanOrEqualTo(a.cost(found) - 1e-9);
                    }
                }
            }
        }
    }
}
