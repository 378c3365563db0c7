package splitledger.propagation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.withinPercentage;

import net.jqwik.api.ForAll;
import net.jqwik.api.Label;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Scale;

class LawProperties {

    @Property(tries = 300)
    @Label("an input in a unit k times smaller, divided by k in the equation, changes nothing")
    void unitsRescale(
            @ForAll @DoubleRange(min = 0.5, max = 5) double a,
            @ForAll @DoubleRange(min = 0.5, max = 5) double b,
            @ForAll @DoubleRange(min = 1e-3, max = 1e3) @Scale(3) double k) {
        final Uncertain plain =
                new Given().input("a", a, 0.02).input("b", b, 0.03, 5).propagate("a * exp(b) / 7");
        final Uncertain scaled =
                new Given()
                        .input("a", k * a, k * 0.02)
                        .input("b", b, 0.03, 5)
                        .input("k", k, 0)
                        .propagate("a / k * exp(b) / 7");

        assertThat(scaled.standardUncertainty())
                .isCloseTo(plain.standardUncertainty(), withinPercentage(1e-9));
        assertThat(scaled.degreesOfFreedom())
                .isCloseTo(plain.degreesOfFreedom(), withinPercentage(1e-9));
    }

    @Property(tries = 300)
    @Label("names, and with them the order of the inputs, are irrelevant")
    void orderIsIrrelevant(
            @ForAll @DoubleRange(min = 0.5, max = 5) double a,
            @ForAll @DoubleRange(min = 0.5, max = 5) double b,
            @ForAll @IntRange(min = 2, max = 30) int df) {
        final Uncertain one =
                new Given().input("p", a, 0.1, df).input("q", b, 0.2).propagate("ln(p) / q^2");
        final Uncertain other =
                new Given().input("z", a, 0.1, df).input("c", b, 0.2).propagate("ln(z) / c^2");

        assertThat(other.value()).isEqualTo(one.value());
        assertThat(other.standardUncertainty())
                .isCloseTo(one.standardUncertainty(), withinPercentage(1e-12));
        assertThat(other.degreesOfFreedom())
                .isCloseTo(one.degreesOfFreedom(), withinPercentage(1e-12));
    }

    @Property(tries = 300)
    @Label("a cause that terms of a sum share never makes its uncertainty smaller")
    void aCommonRootNeverReducesTheUncertaintyOfASum(
            @ForAll @DoubleRange(min = 0, max = 3) double common,
            @ForAll @DoubleRange(min = 0.01, max = 3) double own) {
        final Root shared = Given.root("shared");
        final Uncertain together =
                new Given()
                        .input("a", with(shared, common, "a", own))
                        .input("b", with(shared, common, "b", own))
                        .propagate("a + b");
        final Uncertain apart =
                new Given()
                        .input("a", with(Given.root("s1"), common, "a", own))
                        .input("b", with(Given.root("s2"), common, "b", own))
                        .propagate("a + b");

        assertThat(together.standardUncertainty())
                .isGreaterThanOrEqualTo(apart.standardUncertainty() * (1 - 1e-12));
    }

    private static Uncertain with(Root root, double part, String name, double own) {
        final Uncertain one = Uncertain.of(5, "1", root, part);
        return Uncertain.combine(
                5,
                "1",
                new double[] {1, 1},
                java.util.List.of(one, Uncertain.of(0, "1", Given.root(name), own)));
    }
}
