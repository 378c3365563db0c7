package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Label;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;

class MomentsProperties {

    @Property
    @Label("adding one by one, joining two parts and taking all at once agree")
    void partsJoin(
            @ForAll("samples") double[] values, @ForAll @IntRange(min = 1, max = 39) int at) {
        final Moments all = Moments.ofAll(values);
        Moments oneByOne = Moments.of(values[0]);
        for (int i = 1; i < values.length; i++) {
            oneByOne = oneByOne.with(Moments.of(values[i]));
        }
        final int cut = Math.min(at, values.length - 1);
        final Moments parts =
                Moments.ofAll(java.util.Arrays.copyOf(values, cut))
                        .with(
                                Moments.ofAll(
                                        java.util.Arrays.copyOfRange(values, cut, values.length)));

        for (Moments other : new Moments[] {oneByOne, parts}) {
            assertThat(other.count()).isEqualTo(all.count());
            assertThat(other.mean()).isCloseTo(all.mean(), within(1e-10));
            assertThat(other.squares())
                    .isCloseTo(all.squares(), within(1e-9 * (1 + all.squares())));
        }
    }

    @Property
    @Label("the mean lies among the values, the squares are never negative")
    void stayInBounds(@ForAll("samples") double[] values) {
        final Moments all = Moments.ofAll(values);
        final double least = java.util.Arrays.stream(values).min().getAsDouble();
        final double most = java.util.Arrays.stream(values).max().getAsDouble();

        assertThat(all.mean()).isBetween(least - 1e-10, most + 1e-10);
        assertThat(all.squares()).isNotNegative();
    }

    @Example
    @Label("one value has no variance")
    void oneValue() {
        assertThat(Moments.of(3).variance()).isNaN();
        assertThat(Moments.ofAll(3).squares()).isZero();
    }

    @Example
    @Label("no value at all is refused")
    void noValue() {
        assertThatIllegalArgumentException()
                .isThrownBy(Moments::ofAll)
                .withMessageContaining("empty");
    }

    /** 2 to 40 values of |v| at most 1000. */
    @Provide
    Arbitrary<double[]> samples() {
        return Arbitraries.doubles()
                .between(-1000, 1000)
                .ofScale(6)
                .array(double[].class)
                .ofMinSize(2)
                .ofMaxSize(40);
    }
}
