package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static splitledger.Digits.assertDigits;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import splitledger.Oracle;

class NestedScatterTest {
    /** Labels of balanced data: so many injections in each of so many preparations a group. */
    private static NestedScatter balanced(double[] y, int preparations, int injections) {
        final List<String> group = new ArrayList<>();
        final List<String> preparation = new ArrayList<>();
        for (int i = 0; i < y.length; i++) {
            group.add("g" + i / (preparations * injections));
            preparation.add("p" + i / injections);
        }
        return NestedScatter.of(y, group, preparation);
    }

    /**
     * Box, Hunter and Hunter, Statistics for Experimenters: moisture of pigment paste, 15 batches,
     * 2 samples, 2 tests. Data and printed mean squares from memory; they reproduce each other.
     */
    @Test
    void pigmentPaste() {
        final double[] y = {
            40, 39, 30, 30, 26, 28, 25, 26, 29, 28, 14, 15, 30, 31, 24, 24, 19, 20, 17, 17, 33, 32,
            26, 24, 23, 24, 32, 33, 34, 34, 29, 29, 27, 27, 31, 31, 13, 16, 27, 24, 25, 23, 25, 27,
            29, 29, 31, 32, 19, 20, 29, 30, 23, 24, 25, 25, 39, 37, 26, 28
        };
        final NestedScatter found = balanced(y, 2, 2);

        assertThat(found.injections()).isEqualTo(60);
        assertThat(found.preparationDf()).isEqualTo(15);
        assertThat(found.injectionDf()).isEqualTo(30);
        assertThat(found.preparationMs().getAsDouble()).isCloseTo(57.98, within(0.005));
        assertThat(found.injectionMs().getAsDouble()).isCloseTo(0.917, within(0.0005));
        // component of samples 28.53, of tests 0.92
        final double samples =
                (found.preparationMs().getAsDouble() - found.injectionMs().getAsDouble()) / 2;
        assertThat(samples).isCloseTo(28.53, within(0.005));
        // a result of one test a sample: 28.53 + 0.92
        assertThat(found.resultVariance(1).orElseThrow().variance())
                .isCloseTo(28.53 + 0.92, within(0.01));
    }

    /** Mean squares of aov in R, unbalanced; n0 as a trace of the projection. */
    @Test
    void unbalancedData() {
        final double[] y = {
            10.1, 10.4, 10.2, 11.0, 11.3, 9.7, 12.1, 12.4, 12.2, 12.0, 11.5, 11.9, 13.0, 8.8, 9.1,
            9.3, 9.0, 9.6
        };
        final List<String> g = List.of("aaaaaabbbbbbbccccc".split(""));
        final List<String> p = List.of("111223111122311222".split(""));
        final NestedScatter found = NestedScatter.of(y, g, p);
        final String name = "nested-unbalanced";

        assertThat(found.injectionDf()).isEqualTo((int) Oracle.number(name, "injection-df"));
        assertThat(found.preparationDf()).isEqualTo((int) Oracle.number(name, "preparation-df"));
        assertDigits(
                12, Oracle.number(name, "injection-ms"), found.injectionMs().getAsDouble(), "MS_i");
        assertDigits(
                12,
                Oracle.number(name, "preparation-ms"),
                found.preparationMs().getAsDouble(),
                "MS_p");
        assertDigits(13, Oracle.number(name, "n0"), found.size(), "n0");
        // rows in another order are the same data
        final List<Integer> order = new ArrayList<>();
        for (int i = 0; i < y.length; i++) {
            order.add(i);
        }
        Collections.reverse(order);
        final NestedScatter reversed =
                NestedScatter.of(
                        order.stream().mapToDouble(i -> y[i]).toArray(),
                        order.stream().map(g::get).toList(),
                        order.stream().map(p::get).toList());
        assertDigits(
                12,
                found.preparationMs().getAsDouble(),
                reversed.preparationMs().getAsDouble(),
                "MS_p of the rows in reverse");
    }

    @Test
    void balancedResultsOfAsManyInjectionsHaveExactDegreesOfFreedom() {
        // worked by hand: preparation means 10 12 | 20 22, injections +-1: MS_p = 4, MS_i = 2
        final NestedScatter found = balanced(new double[] {9, 11, 11, 13, 19, 21, 21, 23}, 2, 2);

        assertThat(found.preparationMs().getAsDouble()).isEqualTo(4);
        assertThat(found.injectionMs().getAsDouble()).isEqualTo(2);
        assertThat(found.size()).isEqualTo(2);
        assertThat(found.mean()).isEqualTo(16);
        assertThat(found.resultVariance(2)).contains(new VarianceEstimate(2, 2));
        // m = 1: 4/2 + 2 (1 - 1/2) = 3, Satterthwaite 9 / (4/2 + 1/4) = 4
        final VarianceEstimate single = found.resultVariance(1).orElseThrow();
        assertThat(single.variance()).isCloseTo(3, within(1e-12));
        assertThat(single.degreesOfFreedom()).isCloseTo(4, within(1e-12));
    }

    @Test
    void aNegativeComponentNeverMakesManyInjectionsLookBetterThanTheirOwnScatter() {
        // worked by hand: preparation means agree, injections +-1: MS_p = 0, MS_i = 2
        final NestedScatter found = balanced(new double[] {9, 11, 9, 11}, 2, 2);

        assertThat(found.preparationMs().getAsDouble()).isZero();
        final VarianceEstimate ten = found.resultVariance(10).orElseThrow();
        assertThat(ten.variance()).isCloseTo(0.2, within(1e-12));
        assertThat(ten.degreesOfFreedom()).isEqualTo(2);
    }

    @Test
    void whatWasNotRepeatedIsNotKnown() {
        final NestedScatter oneInjectionEach = balanced(new double[] {1, 2, 3}, 3, 1);
        assertThat(oneInjectionEach.injectionMs()).isEmpty();
        assertThat(oneInjectionEach.preparationMs()).hasValue(1);
        assertThat(oneInjectionEach.resultVariance(1)).contains(new VarianceEstimate(1, 2));
        assertThat(oneInjectionEach.resultVariance(2)).isEmpty();

        final NestedScatter onePreparationEach = balanced(new double[] {1, 2, 4, 6}, 1, 2);
        assertThat(onePreparationEach.preparationMs()).isEmpty();
        assertThat(onePreparationEach.resultVariance(1)).isEmpty();
        assertThat(onePreparationEach.injectionMs()).hasValue(1.25);
    }
}
