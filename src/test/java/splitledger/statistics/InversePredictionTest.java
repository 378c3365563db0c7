package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static splitledger.Digits.assertDigits;
import static splitledger.statistics.Outcomes.assertNot;
import static splitledger.statistics.Outcomes.value;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import splitledger.Oracle;
import splitledger.statistics.Outcome.Reason;

class InversePredictionTest {

    private static InversePrediction predict(LineFit line, double y0, double m) {
        return value(attempt(line, y0, m));
    }

    private static Outcome<InversePrediction> attempt(LineFit line, double y0, double m) {
        final double t = Quantiles.coverageFactor(0.95, line.degreesOfFreedom());
        return InversePrediction.of(line, y0, line.residualSd() * line.residualSd() / m, t);
    }

    @Test
    void fiveCalibrants() {
        // worked by hand
        final LineFit line =
                LineFitterTest.fit(
                        Weighting.NONE,
                        new double[] {1, 2, 3, 4, 5},
                        new double[] {10.1, 19.9, 30.2, 39.8, 50.1});
        final InversePrediction found = predict(line, 25, 1);
        final double t = Quantiles.coverageFactor(0.95, 3);

        assertThat(found.amount()).isCloseTo(2.497497, within(5e-7));
        assertThat(found.standardUncertainty()).isCloseTo(0.020926, within(5e-7));
        assertThat(found.amount() - t * found.standardUncertainty())
                .isCloseTo(2.430903, within(1e-6));
        assertThat(found.amount() + t * found.standardUncertainty())
                .isCloseTo(2.564092, within(1e-6));
        assertThat(found.lower()).isCloseTo(2.430709, within(1e-6));
        assertThat(found.upper()).isCloseTo(2.563923, within(1e-6));
    }

    @Test
    void aSlopeThatIsNotToldFromZeroGivesNoInterval() {
        // worked by hand: g = 484.3
        final LineFit line =
                LineFitterTest.fit(Weighting.NONE, new double[] {1, 2, 3}, new double[] {1, 3, 2});

        assertNot(attempt(line, 2, 1), Reason.UNBOUNDED_INTERVAL, "g = 484.3");
    }

    @Test
    void underProportionalScatterTheResponseAloneCanUnboundTheSet() {
        // b = 10, exact line: only the response scatters, relative sd 0.5, t = 3: 1.5 times the
        // amount
        final LineFit line = new LineFit(Weighting.INVERSE_SQUARE, 5, 3, 30, 5, 10, 10, 0, 0, 1000);

        // g of the whole: 9 * 25 / 100, not that of the slope, which is 0
        assertNot(InversePrediction.of(line, 25, 25, 3), Reason.UNBOUNDED_INTERVAL, "g = 2.25");
    }

    @Test
    void aSlopeOfZeroHasNoAmount() {
        final LineFit line =
                LineFitterTest.fit(
                        Weighting.NONE, new double[] {1, 2, 3, 4}, new double[] {1, 2, 2, 1});

        assertNot(attempt(line, 1.5, 1), Reason.NO_FINITE_VALUE);
    }

    /**
     * Miller and Miller, fluorimeter (see {@link LineFitterTest#fluorescenceCalibration}): printed
     * x0 and s(x0), from memory; limits by Fieller computed in R, no published value.
     */
    @ParameterizedTest
    @CsvSource({
        "2.9, 0.72, 0.26, 0.01899159311, 1.381572914",
        "13.5, 6.21, 0.24, 5.590607743, 6.825056394",
        "23, 11.13, 0.26, 10.46610635, 11.82158104"
    })
    void fluorescence(double y0, double x0, double s, double lower, double upper) {
        final InversePrediction found = predict(fluorimeter(), y0, 1);

        assertThat(found.amount()).isCloseTo(x0, within(0.005));
        assertThat(found.standardUncertainty()).isCloseTo(s, within(0.005));
        assertDigits(9, lower, found.lower(), "lower");
        assertDigits(9, upper, found.upper(), "upper");
    }

    @Test
    void fourReplicatesOfTheUnknown() {
        // the same book: m = 4
        final InversePrediction found = predict(fluorimeter(), 13.5, 4);

        assertThat(found.standardUncertainty()).isCloseTo(0.14, within(0.005));
        assertThat(Quantiles.coverageFactor(0.95, 5) * found.standardUncertainty())
                .isCloseTo(0.36, within(0.005));
    }

    private static LineFit fluorimeter() {
        return LineFitterTest.fit(
                Weighting.NONE,
                new double[] {0, 2, 4, 6, 8, 10, 12},
                new double[] {2.1, 5.0, 9.0, 12.6, 17.3, 21.0, 24.7});
    }

    /** Harvey, Modern Analytical Chemistry, example 5.12: three readings, from memory. */
    @Test
    void threeReadingsOfAnUnknown() {
        final double y0 = Moments.ofAll(29.32, 29.16, 29.51).mean();
        final InversePrediction found = predict(LineFitterTest.harvey(), y0, 3);

        assertThat(found.amount()).isCloseTo(0.241, within(0.0005));
        assertThat(found.standardUncertainty()).isCloseTo(0.0024, within(0.00005));
        assertThat(Quantiles.coverageFactor(0.95, 4) * found.standardUncertainty())
                .isCloseTo(0.007, within(0.0005));
    }

    /**
     * EURACHEM/CITAC guide QUAM:2012, example A5: cadmium, 5 levels in triplicate, two readings of
     * the sample. Printed values; the long ones as shown in public program documentation.
     */
    @Test
    void cadmiumOfTheGuide() {
        final double[] x = {
            0.1, 0.1, 0.1, 0.3, 0.3, 0.3, 0.5, 0.5, 0.5, 0.7, 0.7, 0.7, 0.9, 0.9, 0.9
        };
        final double[] y = {
            0.028, 0.029, 0.029, 0.084, 0.083, 0.081, 0.135, 0.131, 0.133, 0.180, 0.181, 0.183,
            0.215, 0.230, 0.216
        };
        final LineFit line = LineFitterTest.fit(Weighting.NONE, x, y);
        assertThat(line.intercept()).isCloseTo(0.0087, within(0.00005));
        assertThat(line.slope()).isCloseTo(0.2410, within(0.00005));
        assertThat(Math.sqrt(line.interceptVariance())).isCloseTo(0.0029, within(0.00005));
        assertThat(Math.sqrt(line.slopeVariance())).isCloseTo(0.0050, within(0.00005));
        assertThat(line.residualSd()).isCloseTo(0.005486, within(5e-7));

        final InversePrediction found = predict(line, (0.0712 + 0.0716) / 2, 2);
        assertThat(found.amount()).isCloseTo(0.26, within(0.005));
        assertThat(found.standardUncertainty()).isCloseTo(0.018, within(0.0005));
        assertDigits(12, 0.2601659751037, found.amount(), "c0");
        assertDigits(12, 0.01784461112558, found.standardUncertainty(), "u(c0)");
    }

    /** Roots found by bisection in R, for all three laws of scatter and m = 2. */
    @ParameterizedTest
    @EnumSource
    void endsFoundByBisection(Weighting weighting) {
        final LineFit line = LineFitterTest.fit(weighting, LineFitterTest.X, LineFitterTest.Y);
        final String name = "line-weights-" + weighting.power();
        for (String y0 : new String[] {"1.5", "12", "38"}) {
            final InversePrediction found = predict(line, Double.parseDouble(y0), 2);

            assertDigits(
                    10,
                    Oracle.number(name, "inverse-at-" + y0 + "-lower"),
                    found.lower(),
                    "lower at " + y0);
            assertDigits(
                    10,
                    Oracle.number(name, "inverse-at-" + y0 + "-upper"),
                    found.upper(),
                    "upper at " + y0);
        }
    }
}
