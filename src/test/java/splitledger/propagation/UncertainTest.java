package splitledger.propagation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.TreeMap;
import net.jqwik.api.ForAll;
import net.jqwik.api.Label;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Positive;
import net.jqwik.api.constraints.Scale;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import splitledger.statistics.Quantiles;

class UncertainTest {
    private static final Root A = Given.root("a", 5, new Shape.Normal());
    private static final Root B = Given.root("b", 8, new Shape.Normal());
    private static final Root C = Given.root("c");

    private static Uncertain of(double value, Object... rootsAndParts) {
        final TreeMap<Root, Double> parts = new TreeMap<>();
        for (int i = 0; i < rootsAndParts.length; i += 2) {
            parts.put((Root) rootsAndParts[i], ((Number) rootsAndParts[i + 1]).doubleValue());
        }
        return Uncertain.of(value, "mg", parts);
    }

    @Test
    void varianceIsTheSumOfSquaresAndCovarianceThatOfSharedRoots() {
        // worked by hand
        final Uncertain x = of(1, A, 3, B, 4);
        final Uncertain y = of(2, B, -2, C, 1);

        assertThat(x.standardUncertainty()).isEqualTo(5);
        assertThat(x.covariance(y)).isEqualTo(-8);
        assertThat(y.covariance(x)).isEqualTo(-8);
        assertThat(x.correlation(y)).isCloseTo(-8 / (5 * Math.sqrt(5)), within(1e-15));
        assertThat(x.covariance(x)).isEqualTo(x.variance());
        assertThat(x.part(C)).isZero();
        assertThat(of(1, A, 1).covariance(of(1, C, 1))).isZero();
    }

    @Test
    void degreesOfFreedomSumEachPoolFirst() {
        // worked by hand: u^2 = 9 + 16 = 25; 25^2 / (81/5 + 256/8) = 12.967
        assertThat(of(1, A, 3, B, 4).degreesOfFreedom())
                .isCloseTo(625 / (81 / 5.0 + 256 / 8.0), within(1e-12));
        // two roots of one pool count as one estimate
        final Root again = new Root("z", A.pool(), A.effect(), A.actsOn(), A.shape(), "");
        assertThat(of(1, A, 3, again, 4).degreesOfFreedom()).isCloseTo(5, within(1e-12));
        assertThat(of(1, C, 2).degreesOfFreedom()).isInfinite();
        assertThat(Uncertain.exact(3, "1").degreesOfFreedom()).isInfinite();
    }

    /**
     * JCGM 100:2008, G.4.1, note 3 example: four relative inputs, n = 10, 5 and 15 readings; 0.25,
     * 0.57, 0.82 %; u = 1.03 %, 19.0 degrees of freedom (from memory).
     */
    @Test
    void exampleOfTheGuideToWelchAndSatterthwaite() {
        final Uncertain y =
                of(
                        1,
                        Given.root("1", 9, new Shape.Normal()),
                        0.25,
                        Given.root("2", 4, new Shape.Normal()),
                        0.57,
                        Given.root("3", 14, new Shape.Normal()),
                        0.82);

        assertThat(y.standardUncertainty()).isCloseTo(1.03, within(0.005));
        assertThat(y.degreesOfFreedom()).isCloseTo(19.0, within(0.05));
    }

    /**
     * Recoveries .94 .97 .95 .93 .96 .95 against a reference known to 1 %: t 4.50, 68.7 degrees of
     * freedom; without the reference t 8.66 with 5. Worked by hand.
     */
    @Test
    void aReferenceOfKnownUncertaintyAddsDegreesOfFreedom() {
        final double mean = 0.95;
        final double s = Math.sqrt(0.0002 / 6);
        final Uncertain alone = of(mean, A, s);
        final Uncertain both = of(mean, A, s, C, 0.0095);

        assertThat((1 - mean) / alone.standardUncertainty()).isCloseTo(8.66, within(0.005));
        assertThat(alone.degreesOfFreedom()).isCloseTo(5, within(1e-12));
        assertThat((1 - mean) / both.standardUncertainty()).isCloseTo(4.50, within(0.005));
        assertThat(both.degreesOfFreedom()).isCloseTo(68.7, within(0.05));
    }

    /** RSD 2 % and 2 %: ratio 0.894 % at correlation 0.9, 2.366 % at 0.3. Worked by hand. */
    @Test
    void anInternalStandardHelpsOnlyIfItCorrelates() {
        for (double[] pair : new double[][] {{0.9, 0.894}, {0.3, 2.366}}) {
            final double rho = pair[0];
            final Uncertain analyte = of(1, A, 0.02);
            final Uncertain standard = of(1, A, 0.02 * rho, B, 0.02 * Math.sqrt(1 - rho * rho));
            final Uncertain ratio =
                    new Given().input("a", analyte).input("s", standard).propagate("a / s");

            assertThat(analyte.correlation(standard)).isCloseTo(rho, within(1e-12));
            assertThat(100 * ratio.standardUncertainty()).isCloseTo(pair[1], within(0.0005));
        }
    }

    @Property
    @Label("a root shared by positive terms never makes their sum more certain")
    void sharingNeverHelpsASum(
            @ForAll @Size(min = 2, max = 6) List<@DoubleRange(min = 0, max = 100) Double> parts) {
        Uncertain shared = Uncertain.exact(0, "mg");
        Uncertain apart = Uncertain.exact(0, "mg");
        final double[] ones = {1, 1};
        int i = 0;
        for (double part : parts) {
            shared = Uncertain.combine(0, "mg", ones, List.of(shared, of(0, A, part)));
            final Root own = Given.root("own" + i++);
            apart = Uncertain.combine(0, "mg", ones, List.of(apart, of(0, own, part)));
        }

        assertThat(shared.standardUncertainty())
                .isGreaterThanOrEqualTo(apart.standardUncertainty() * (1 - 1e-12));
    }

    @Property
    @Label(
            "another unit scales value and uncertainty, and changes neither correlation nor degrees of freedom")
    void scales(
            @ForAll @DoubleRange(min = 0.001, max = 1000) @Scale(4) double k,
            @ForAll @Positive @DoubleRange(min = 0.01, max = 10) double p,
            @ForAll @DoubleRange(min = -10, max = 10) double q) {
        final Uncertain x = of(3, A, p, B, q);
        final Uncertain y = of(1, B, 2, C, 1);
        final Uncertain scaled = x.scaled(k, "ug");

        assertThat(scaled.value()).isEqualTo(3 * k);
        assertThat(scaled.unit()).isEqualTo("ug");
        assertThat(scaled.standardUncertainty())
                .isCloseTo(k * x.standardUncertainty(), within(1e-12 * k * 20));
        assertThat(scaled.correlation(y)).isCloseTo(x.correlation(y), within(1e-12));
        assertThat(scaled.degreesOfFreedom())
                .isCloseTo(x.degreesOfFreedom(), within(1e-9 * x.degreesOfFreedom()));
    }

    @Property
    @Label("variance of a combination is the quadratic form of variances and covariances")
    void combines(
            @ForAll @DoubleRange(min = -5, max = 5) double c,
            @ForAll @DoubleRange(min = -5, max = 5) double d,
            @ForAll @DoubleRange(min = -5, max = 5) double p,
            @ForAll @DoubleRange(min = -5, max = 5) double q) {
        final Uncertain x = of(3, A, p, B, q);
        final Uncertain y = of(1, B, 2, C, 1);
        final Uncertain z = Uncertain.combine(0, "1", new double[] {c, d}, List.of(x, y));
        final double form =
                c * c * x.variance() + d * d * y.variance() + 2 * c * d * x.covariance(y);

        assertThat(z.variance()).isCloseTo(form, within(1e-10));
    }

    @Test
    void aDifferenceOfTheSameEstimateIsCertain() {
        final Uncertain x = of(3, A, 1, B, 2);
        final Uncertain zero = new Given().input("x", x).propagate("x - x");

        assertThat(zero.value()).isZero();
        assertThat(zero.standardUncertainty()).isZero();
        assertThat(zero.roots()).isEmpty();
    }

    @Test
    void partsOfACauseCanBeLookedAtAlone() {
        final Uncertain x = of(3, A, 1, B, 2);

        assertThat(x.only(r -> r.equals(B)).standardUncertainty()).isEqualTo(2);
        assertThat(x.only(r -> false).standardUncertainty()).isZero();
        assertThat(x.at(7).value()).isEqualTo(7);
        assertThat(x.at(7).covariance(x)).isEqualTo(5);
    }

    /** Slope 10, var(b) 0.001, 1 % of a stock shared by all levels; worked by hand. */
    @Test
    void aSharedStockAddsItsRelativeUncertaintyToTheSlopeAlone() {
        final Root level = Given.root("level");
        final Root slope = Given.root("slope");
        // x 1..5, sd of y 0.1 known: mean 3, Sxx 10
        final double partB = 0.1 / Math.sqrt(10);
        final Uncertain b = of(10, slope, partB);
        final Uncertain a = of(0, level, 0.1 / Math.sqrt(5), slope, -3 * partB);
        final Given given = new Given().input("b", b).input("f", 1, 0.01);
        final Uncertain withStock = given.propagate("b / f");

        assertThat(withStock.variance()).isCloseTo(0.001 + 0.01, within(1e-12));
        assertThat(withStock.standardUncertainty()).isCloseTo(0.104881, within(5e-7));
        assertThat(a.variance()).isCloseTo(0.011, within(1e-12));
        assertThat(a.covariance(withStock)).isCloseTo(-0.003, within(1e-12));
    }

    @ParameterizedTest
    @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY})
    void whatIsNoNumberIsRefused(double bad) {
        assertThatIllegalArgumentException().isThrownBy(() -> of(bad, A, 1));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> of(1, A, bad))
                .withMessageContaining("part of a");
        assertThatIllegalArgumentException().isThrownBy(() -> new Pool("p", -1, ""));
        assertThat(Quantiles.t(0.975, Pool.known("p", "").degreesOfFreedom()))
                .isCloseTo(1.959964, within(1e-6));
    }
}
