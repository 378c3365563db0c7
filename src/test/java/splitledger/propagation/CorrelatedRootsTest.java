package splitledger.propagation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Label;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;

class CorrelatedRootsTest {

    private static List<Uncertain> joined(double[][] r, double... u) {
        final List<Uncertain> values = new ArrayList<>();
        final List<Root> roots = new ArrayList<>();
        for (int i = 0; i < u.length; i++) {
            values.add(Uncertain.of(i, "1", Given.root("own" + i), u[i]));
            roots.add(Given.root("common" + i));
        }
        return CorrelatedRoots.joined(values, CorrelatedRoots.factor(r).orElseThrow(), roots);
    }

    @Property(tries = 200)
    @Label("values keep their uncertainty and get the correlations that were asked for")
    void uncertaintiesAndCorrelationsComeBack(
            @ForAll @Size(12) List<@DoubleRange(min = -1, max = 1) Double> numbers) {
        // any matrix of normalised rows times its transpose is a correlation matrix
        final double[][] r = new double[4][4];
        for (int i = 0; i < 4; i++) {
            for (int j = 0; j < 4; j++) {
                r[i][j] = i == j ? 1 : dot(numbers, i, j) / size(numbers, i) / size(numbers, j);
            }
        }
        final List<Uncertain> x = joined(r, 0.1, 2, 30, 0.4);
        assertThat(x.get(2).standardUncertainty()).isCloseTo(30, within(1e-6));
        for (int i = 0; i < 4; i++) {
            for (int j = 0; j < i; j++) {
                assertThat(x.get(i).correlation(x.get(j))).isCloseTo(r[i][j], within(1e-4));
            }
        }
    }

    private static double dot(List<Double> numbers, int i, int j) {
        // a constant keeps rows away from 0
        double sum = 0.01;
        for (int k = 0; k < 3; k++) {
            sum += numbers.get(3 * i + k) * numbers.get(3 * j + k);
        }
        return sum;
    }

    private static double size(List<Double> numbers, int i) {
        return Math.sqrt(dot(numbers, i, i));
    }

    @Test
    void whatCannotHoldTogetherHasNoFactor() {
        assertThat(
                        CorrelatedRoots.factor(
                                new double[][] {{1, 0.9, 0.9}, {0.9, 1, -0.9}, {0.9, -0.9, 1}}))
                .isEmpty();
        assertThat(CorrelatedRoots.factor(new double[][] {{1, 1, 0}, {1, 1, 0.5}, {0, 0.5, 1}}))
                .isEmpty();
        assertThat(CorrelatedRoots.factor(new double[][] {{1, 1}, {1, 1}})).isPresent();
    }

    /** Fully against each other: the sum has no uncertainty. */
    @Test
    void minusOneCancels() {
        final List<Uncertain> x = joined(new double[][] {{1, -1}, {-1, 1}}, 2, 2);

        assertThat(Uncertain.combine(0, "1", new double[] {1, 1}, x).standardUncertainty())
                .isZero();
    }
}
