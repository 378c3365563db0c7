package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static splitledger.Digits.assertDigits;
import static splitledger.statistics.CalibrationOracle.X;
import static splitledger.statistics.CalibrationOracle.Y;
import static splitledger.statistics.CalibrationOracle.number;
import static splitledger.statistics.Outcomes.assertNot;
import static splitledger.statistics.Outcomes.value;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.ScatterLaw.Form;

class LineLimitsTest {
    /** Cadmium calibration of QUAM:2012 example A5. */
    private static final double[] CADMIUM_X = {
        .1, .1, .1, .3, .3, .3, .5, .5, .5, .7, .7, .7, .9, .9, .9
    };

    private static final double[] CADMIUM_Y = {
        .028, .029, .029, .084, .083, .081, .135, .131, .133, .180, .181, .183, .215, .230, .216
    };

    private static LineLimits cadmium() {
        final ScatterFit fit =
                value(
                        ScatterFitter.withDefaults()
                                .withForm(Form.CONSTANT)
                                .fit(CADMIUM_X, CADMIUM_Y));
        return value(LineLimits.of(fit, 1, 0.95));
    }

    /** The documents' formulas in R; no published number exists for this line. */
    @ParameterizedTest
    @CsvSource({
        "0.05, 0.0455164125, 0.089800341, 0.09103282499, 0.08940998321",
        "0.01, 0.06811806168, 0.1336085959, 0.1362361234, 0.1344804703"
    })
    void limitsOfAPublishedCalibration(
            double risk, double critical, double hubauxVos, double twice, double detectable) {
        final LineLimits limits = cadmium();

        assertDigits(9, critical, limits.criticalValue(risk).value(), "critical value");
        assertDigits(8, hubauxVos, value(limits.hubauxVos(risk, risk)).value(), "Hubaux-Vos");
        assertDigits(9, twice, limits.twiceCritical(risk).value(), "twice the critical value");
        assertDigits(9, detectable, value(limits.detectable(risk, risk)).value(), "ISO 11843-2");
        assertDigits(9, 0.1591263915, value(limits.dinQuantification(3, 0.05)).value(), "DIN");
        assertDigits(9, 0.07511464935, limits.byScatter(3.3, 0).value(), "ICH 3.3 s/b");
        assertDigits(9, 0.2276201495, limits.byScatter(10, 0).value(), "ICH 10 s/b");
        assertDigits(9, 0.03939045443, limits.byIntercept(3.3).value(), "ICH 3.3 s_a/b");
    }

    @Test
    void limitsWithBothPartsOfTheScatterAreThoseOfR() {
        final ScatterFit fit =
                ScatterFitterTest.fit(MeanLaw.LINE, X, Y, CalibrationOracle.ones(18));
        final LineLimits limits = value(LineLimits.of(fit, 0.5, 0.95));

        assertDigits(
                8, number("limits", "critical-value"), limits.criticalValue(0.05).value(), "x_C");
        assertDigits(
                8,
                number("limits", "detectable"),
                value(limits.detectable(0.05, 0.05)).value(),
                "x_D");
        assertDigits(
                8,
                number("limits", "hubaux-vos"),
                value(limits.hubauxVos(0.05, 0.05)).value(),
                "Hubaux-Vos");
        assertDigits(8, number("limits", "scatter-3.3"), limits.byScatter(3.3, 0).value(), "3.3");
        assertDigits(8, number("limits", "intercept-10"), limits.byIntercept(10).value(), "10");
        assertNot(limits.dinQuantification(3, 0.05), Reason.NOT_DEFINED);
    }

    @Test
    void limitsOfALawFoundFromTheDataAreTheWiderOnes() {
        final ScatterFit fit =
                ScatterFitterTest.fit(MeanLaw.LINE, X, Y, CalibrationOracle.ones(18));
        final LineLimits own = value(LineLimits.of(fit, 1, 0.95));
        final LineLimits averaged = value(LineLimits.averaged(fit, 1, 0.95));
        final double factor = AmountPredictor.of(fit, 0.9).factorAt(0, 1);

        assertThat(averaged.freedom()).isLessThanOrEqualTo(own.freedom() * (1 + 1e-9));
        assertDigits(
                8,
                Math.max(factor, Quantiles.t(0.95, own.freedom()))
                        / Quantiles.t(0.95, own.freedom())
                        * own.criticalValue(0.05).value(),
                averaged.criticalValue(0.05).value(),
                "critical value");
    }

    /** Blanks above the critical value: at most 5 % and three standard errors. */
    @Test
    void falsePositivesThroughTheChoiceStayNearTheirRisk() {
        final RandomStream stream = RandomStream.of(51, 0);
        final int studies = 400;
        int positives = 0;
        for (int k = 0; k < studies; k++) {
            final double[] y = new double[X.length];
            for (int i = 0; i < y.length; i++) {
                y[i] = X[i] + Math.hypot(0.015, 0.03 * X[i]) * stream.nextNormal();
            }
            final ScatterFit fit =
                    ScatterFitterTest.fit(MeanLaw.LINE, X, y, CalibrationOracle.ones(18));
            final double found =
                    (0.015 * stream.nextNormal() - fit.coefficient(0)) / fit.coefficient(1);
            if (found > value(LineLimits.averaged(fit, 1, 0.95)).criticalValue(0.05).value()) {
                positives++;
            }
        }
        assertThat((double) positives / studies)
                .isBetween(0.01, 0.05 + 3 * Math.sqrt(0.05 * 0.95 / studies));
    }

    @Test
    void theIntervalIsThatOfAStandardDeviation() {
        final Limit limit = cadmium().byScatter(3.3, 0);

        assertThat(limit.degreesOfFreedom()).isCloseTo(13, within(1e-9));
        // the slope's 1.2 % takes little away from 13 degrees of freedom
        assertThat(limit.spread()).isBetween(12.8, 13.0);
        assertThat(limit.lower(0.95)).isCloseTo(limit.value() * 0.725, within(1e-3));
        assertThat(limit.upper(0.95)).isCloseTo(limit.value() * 1.611, within(3e-3));
    }

    @Test
    void withoutASlopeOrALineThereAreNoLimits() {
        final ScatterFit flat =
                value(
                        ScatterFitter.withDefaults()
                                .withForm(Form.CONSTANT)
                                .fit(new double[] {1, 2, 3}, new double[] {1, 3, 2}));
        assertNot(LineLimits.of(flat, 1, 0.95), Reason.SLOPE_NOT_SIGNIFICANT);
        assertNot(
                LineLimits.of(
                        ScatterFitterTest.fit(
                                MeanLaw.THROUGH_ORIGIN, X, Y, CalibrationOracle.ones(18)),
                        1,
                        0.95),
                Reason.NOT_DEFINED);
    }

    /**
     * Seven blanks and seven samples (a textbook's example, from memory): SD of blanks and slope
     * 0.229. Currie's critical value of one result against the mean of 7 blanks has t(0.95, 6) =
     * 1.9432; its detection factor and twice t lie near each other.
     */
    @Test
    void limitsFromBlanks() {
        final Moments blanks = Moments.ofAll(1.4, 2.2, 1.7, 0.9, 0.4, 1.5, 0.7);
        final BlankLimits limits =
                value(BlankLimits.of(new Moments(7, blanks.mean(), blanks.squares()), 1, 0));
        final double sd0 = blanks.sd() * Math.sqrt(8.0 / 7);

        assertDigits(4, 1.9432 * sd0, limits.criticalValue(0.05).value(), "critical value");
        assertThat(limits.twiceCritical(0.05).value())
                .isGreaterThan(limits.detectable(0.05, 0.05).value());
        // 95 % factors of a standard deviation from 7 values (US 40 CFR 136 App. B, from memory)
        assertThat(limits.criticalValue(0.05).lower(0.95) / limits.criticalValue(0.05).value())
                .isCloseTo(0.64, within(0.005));
        assertThat(limits.criticalValue(0.05).upper(0.95) / limits.criticalValue(0.05).value())
                .isCloseTo(2.20, within(0.005));
        assertNot(BlankLimits.of(Moments.of(1), 1, 0), Reason.TOO_FEW_BLANKS);
        assertNot(BlankLimits.of(Moments.ofAll(1, 1), 1, 0), Reason.NO_SCATTER);
    }
}
