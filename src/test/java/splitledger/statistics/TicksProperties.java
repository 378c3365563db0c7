package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Label;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Scale;

class TicksProperties {

    @Property(tries = 2000)
    @Label(
            "four to nine places cover the range, evenly, in steps of 1, 2 or 5 times ten^n (a range not too small against its place)")
    void coverTheRange(
            @ForAll @DoubleRange(min = -1000, max = 1000) @Scale(6) double low,
            @ForAll @DoubleRange(min = 0.001, max = 1000) @Scale(6) double span,
            @ForAll @IntRange(min = -12, max = 12) int exponent) {
        final double scale = StrictMath.pow(10, exponent);
        final double from = low * scale;
        final double to = (low + span) * scale;
        final double[] places = Ticks.round(from, to);
        final double step = places[1] - places[0];

        assertThat(places).hasSizeBetween(4, 9);
        // an end that lies within a billionth of a step of a place is taken to lie on it
        final double near = 2e-9 * step + 2 * Math.ulp(Math.max(Math.abs(from), Math.abs(to)));
        assertThat(places[0]).isLessThanOrEqualTo(from + near);
        assertThat(places[places.length - 1]).isGreaterThanOrEqualTo(to - near);
        for (int i = 1; i < places.length; i++) {
            assertThat(places[i] - places[i - 1]).isCloseTo(step, within(1e-5 * step));
        }
        assertThat(firstDigit(step)).isIn(1, 2, 5);
    }

    private static int firstDigit(double step) {
        final BigDecimal digits = new BigDecimal(step).round(new java.math.MathContext(3));
        return Integer.parseInt(digits.unscaledValue().toString().substring(0, 1));
    }

    @Example
    @Label("places are the decimals they are written as")
    void areExactDecimals() {
        assertThat(Ticks.round(0, 1)).containsExactly(0, 0.2, 0.4, 0.6, 0.8, 1);
        assertThat(Ticks.round(0.1, 0.6)).containsExactly(0.1, 0.2, 0.3, 0.4, 0.5, 0.6);
        assertThat(Ticks.round(-3, 12)).containsExactly(-5, 0, 5, 10, 15);
    }

    @Example
    @Label("equal ends are widened, also at zero and far from it")
    void equalEnds() {
        for (double at : new double[] {0, 1, -7.5, 1e12, 1e-12}) {
            final double[] places = Ticks.round(at, at);
            assertThat(places.length).isBetween(3, 9);
            assertThat(places[0]).isLessThanOrEqualTo(at);
            assertThat(places[places.length - 1]).isGreaterThan(at);
        }
    }

    @Example
    @Label("the ends may come in either order")
    void eitherOrder() {
        assertThat(Ticks.round(12, -3)).isEqualTo(Ticks.round(-3, 12));
    }
}
