package splitledger.propagation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static splitledger.Digits.assertDigits;
import static splitledger.statistics.Outcomes.assertNot;
import static splitledger.statistics.Outcomes.value;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import splitledger.statistics.InjectionShare;
import splitledger.statistics.LineFit;
import splitledger.statistics.LineFitter;
import splitledger.statistics.MeanLaw;
import splitledger.statistics.Outcome;
import splitledger.statistics.ScatterFitter;
import splitledger.statistics.ScatterLaw;
import splitledger.statistics.Weighting;

/**
 * Both kinds of line on five calibrants, worked by hand: mean amount 3 and response 30.02, slope
 * 99.9/10 = 9.99, residual sum of squares 0.107, s^2 = 0.107/3.
 */
class LineAnswersTest {
    private static final double[] X = {1, 2, 3, 4, 5};
    private static final double[] Y = {10.1, 19.9, 30.2, 39.8, 50.1};
    private static final double S2 = 0.107 / 3;

    private static WeightedLine weighted(Weighting weighting, double[] y) {
        final LineFit fit = value(LineFitter.withDefaults().withWeighting(weighting).fit(X, y));
        final Pool pool = new Pool("cal", fit.degreesOfFreedom(), "scatter about the line");
        return new WeightedLine("cal", fit, "mg/L", "pA s", pool, Optional.empty(), 1);
    }

    private static ScatterLine scatter(MeanLaw mean, InjectionShare share, String amountUnit) {
        return new ScatterLine(
                "cal",
                value(
                        ScatterFitter.withDefaults()
                                .withMean(mean)
                                .withForm(ScatterLaw.Form.CONSTANT)
                                .fit(X, Y)),
                share,
                true,
                0.95,
                amountUnit,
                "pA s");
    }

    private static ScatterLine scatter() {
        return scatter(MeanLaw.LINE, new InjectionShare(1, 1, 0), "mg/L");
    }

    static List<UncertainLine> lines() {
        return List.of(weighted(Weighting.NONE, Y), scatter());
    }

    @ParameterizedTest
    @MethodSource("lines")
    void aLineAnswersAsWorkedByHand(UncertainLine line) {
        assertThat(line.law()).isEqualTo(MeanLaw.LINE);
        assertDigits(12, 25.025, line.mean(2.5), "mean");
        assertDigits(12, 9.99, line.slopeAt(4), "slope");
        assertDigits(9, 0.3 * S2, line.fitVariance(4), "variance of the fit");
        assertDigits(9, 0.2 * S2, line.fitVariance(3), "variance of the fit in the middle");
        assertDigits(9, S2, line.scatter(4), "scatter");
        assertThat(line.scatterFreedom(4)).isEqualTo(3);
        assertDigits(12, 4, line.read(40.01), "amount");
        assertThat(line.near(4, 1)).isSameAs(line);
        assertThat(line.amountUnit()).isEqualTo("mg/L");
        assertThat(line.responseUnit()).isEqualTo("pA s");
        assertThat(line.intercept().unit()).isEqualTo("pA s");
        assertThat(line.slope().unit()).isEqualTo("pA s/(mg/L)");
    }

    /** Calibrants injected once: the variance of one preparation is divided by m. */
    @ParameterizedTest
    @MethodSource("lines")
    void fourInjectionsHaveAQuarterOfTheVariance(UncertainLine line) {
        assertDigits(9, S2 / 4, line.response(40.01, 4, 4, "P").variance(), "variance");
    }

    /** A steeper line gives a smaller amount: -(x0 - 3) s^2/10 / 9.99 at x0 = 5. */
    @ParameterizedTest
    @MethodSource("lines")
    void anAmountFallsWhereTheSlopeRises(UncertainLine line) {
        final Uncertain amount = line.amount(Uncertain.exact(50, "pA s"), 5);

        assertDigits(9, -0.2 * S2 / 9.99, amount.covariance(line.slope()), "covariance");
        assertDigits(9, (0.2 + 0.4) * S2 / (9.99 * 9.99), amount.variance(), "variance");
    }

    /** 0.8 of the variance between means of two is of injections: shares 0.6 and 0.8/m. */
    @Test
    void injectionsAreTakenApartFromTheirPreparation() {
        final ScatterLine line = scatter(MeanLaw.LINE, new InjectionShare(0.8, 2, 12), "mg/L");

        assertDigits(9, 1.4 * S2, line.response(40, 4, 1, "P").variance(), "one injection");
        assertDigits(9, S2, line.response(40, 4, 2, "P").variance(), "two");
        assertDigits(9, 0.8 * S2, line.response(40, 4, 4, "P").variance(), "four");
        assertThat(line.response(40, 4, 4, "P").roots()).hasSize(2);
    }

    @Test
    void coefficientsHaveTheUnitsOfTheirPowers() {
        final InjectionShare once = new InjectionShare(1, 1, 0);

        assertThat(scatter(MeanLaw.LINE, once, "1").slope().unit()).isEqualTo("pA s");
        final ScatterLine curve = scatter(MeanLaw.QUADRATIC, once, "mg/L");
        assertThat(curve.coefficient(0).unit()).isEqualTo("pA s");
        assertThat(curve.coefficient(1).unit()).isEqualTo("pA s/(mg/L)");
        assertThat(curve.coefficient(2).unit()).isEqualTo("pA s/(mg/L)^2");
        final ScatterLine origin = scatter(MeanLaw.THROUGH_ORIGIN, once, "mg/L");
        assertThat(origin.slope().unit()).isEqualTo("pA s/(mg/L)");
        assertThat(origin.intercept().variance()).isZero();
        // sum of xy 550.2 over sum of xx 55
        assertThat(origin.slope().value()).isCloseTo(550.2 / 55, within(1e-12));
    }

    @Test
    void exactAmountsMoveNoLine() {
        assertThat(scatter().isMoved()).isFalse();
        assertThat(scatter().isGiven()).isTrue();
    }

    /** The responses 1, 2, 1, 2, 1 have slope 0. */
    @Test
    void aFlatLineTellsNoAmount() {
        final WeightedLine flat = weighted(Weighting.NONE, new double[] {1, 2, 1, 2, 1});

        assertThat(flat.read(1.5)).isNaN();
        assertNot(flat.predict(1.5, 1, "P", 0.95), Outcome.Reason.NO_FINITE_VALUE, "slope");
    }

    @Test
    void belowZeroInverseWeightsHaveNoScatter() {
        assertNot(
                weighted(Weighting.INVERSE, Y).predict(-5, 1, "P", 0.95),
                Outcome.Reason.NO_FINITE_VALUE,
                "below 0");
        assertThat(value(weighted(Weighting.NONE, Y).predict(-5, 1, "P", 0.95)).amount().value())
                .isCloseTo((-5 - 0.05) / 9.99, within(1e-12));
    }

    /** Parts 3 and 4, halved: 2.5; without the second: 3. */
    @Test
    void partsAreWeightedOneByOne() {
        final Root first = Given.root("first");
        final Root second = Given.root("second");
        final Uncertain x =
                Uncertain.combine(
                        7,
                        "1",
                        new double[] {1, 1},
                        List.of(Uncertain.of(0, "1", first, 3), Uncertain.of(0, "1", second, 4)));

        assertThat(x.weighted(r -> 0.5).standardUncertainty()).isCloseTo(2.5, within(1e-12));
        final Uncertain one = x.weighted(r -> r.equals(first) ? 1 : 0);
        assertThat(one.standardUncertainty()).isEqualTo(3);
        assertThat(one.roots()).containsExactly(first);
        assertThat(one.value()).isEqualTo(7);
    }
}
