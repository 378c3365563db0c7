package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static splitledger.statistics.CalibrationOracle.X;
import static splitledger.statistics.CalibrationOracle.Y;
import static splitledger.statistics.Outcomes.value;

import org.junit.jupiter.api.Test;
import splitledger.statistics.ScatterLaw.Form;

class DetectionTrialTest {
    private static final double[] ONES = CalibrationOracle.ones(18);
    private static final int MANY = 10_000;

    private static ScatterFit constant() {
        return value(ScatterFitter.withDefaults().withForm(Form.CONSTANT).fit(X, Y));
    }

    private static DetectionTrial trial(ScatterFit fit, double share) {
        final LineLimits limits = value(LineLimits.of(fit, share, 0.95));
        return new DetectionTrial(
                fit,
                X,
                ONES,
                share,
                limits.criticalValue(0.05),
                value(limits.detectable(0.05, 0.05)).value());
    }

    /** Both risks were asked for as 5 %, and with the same scatter everywhere are exactly so. */
    @Test
    void theLimitsOfTheStandardHaveTheRisksTheyPromise() {
        final ErrorRates exact = trial(constant(), 1).exact();

        assertThat(exact.falsePositive().value()).isCloseTo(0.05, within(1e-9));
        assertThat(exact.falseNegative().value()).isCloseTo(0.05, within(1e-9));
    }

    @Test
    void simulationAgreesWithTheClosedForm() {
        final double standardError = Math.sqrt(0.05 * 0.95 / MANY);
        for (ScatterFit fit :
                new ScatterFit[] {constant(), ScatterFitterTest.fit(MeanLaw.LINE, X, Y, ONES)}) {
            final DetectionTrial trial = trial(fit, 0.5);
            final ErrorRates found = trial.wholeExperiment(MANY, RandomStream.of(11, 0), 0.95);
            final ErrorRates exact = trial.exact();

            assertThat(found.falsePositive().value())
                    .isCloseTo(exact.falsePositive().value(), within(4 * standardError));
            assertThat(found.falseNegative().value())
                    .isCloseTo(exact.falseNegative().value(), within(4 * standardError));
            assertThat(found.falsePositive().standardUncertainty())
                    .isCloseTo(standardError, within(0.2 * standardError));
        }
    }

    /** 3.3 s/b by another way: lines fitted anew by least squares, amounts compared with limits. */
    @Test
    void theWholeExperimentDoneStepByStepHasTheSameRates() {
        final ScatterFit fit = constant();
        final Limit limit = value(LineLimits.of(fit, 1, 0.95)).byScatter(3.3, 0);
        final DetectionTrial trial = new DetectionTrial(fit, X, ONES, 1, limit, limit.value());
        final RandomStream stream = RandomStream.of(12, 0);
        final double s = Math.sqrt(fit.law().constant());
        final int repetitions = 4000;
        int positives = 0;
        int negatives = 0;
        final double[] y = new double[X.length];
        for (int k = 0; k < repetitions; k++) {
            for (int i = 0; i < y.length; i++) {
                y[i] = fit.at(X[i]) + s * stream.nextNormal();
            }
            final LineFit line = LineFitterTest.fit(Weighting.NONE, X, y);
            final double threshold = 3.3 * line.residualSd() / line.slope();
            final double blank = fit.at(0) + s * stream.nextNormal();
            final double sample = fit.at(limit.value()) + s * stream.nextNormal();
            if ((blank - line.intercept()) / line.slope() > threshold) {
                positives++;
            }
            if ((sample - line.intercept()) / line.slope() <= threshold) {
                negatives++;
            }
        }
        final ErrorRates exact = trial.exact();
        final double fp = exact.falsePositive().value();
        final double fn = exact.falseNegative().value();

        assertThat((double) positives / repetitions)
                .isCloseTo(fp, within(4 * Math.sqrt(fp * (1 - fp) / repetitions)));
        assertThat((double) negatives / repetitions)
                .isCloseTo(fn, within(4 * Math.sqrt(fn * (1 - fn) / repetitions)));
        // an amount at the limit that decides is missed in about half of all cases
        assertThat(fn).isBetween(0.4, 0.5);
    }

    @Test
    void withThisCalibrationKeptTheRatesAreNormalTails() {
        final ScatterFit fit = constant();
        final DetectionTrial trial = trial(fit, 1);
        final ErrorRates found = trial.calibrationKept(RandomStream.of(13, 0), 0.95);
        final double z =
                trial.threshold().value() * fit.coefficient(1) / Math.sqrt(fit.law().constant());

        assertThat(found.falsePositive().value())
                .isCloseTo(Quantiles.tTail(z, Double.POSITIVE_INFINITY), within(1e-12));
        assertThat(found.falsePositive().lower()).isLessThan(found.falsePositive().value());
        assertThat(found.falsePositive().upper()).isGreaterThan(found.falsePositive().value());
        assertThat(found.falseNegative().standardUncertainty()).isBetween(0.005, 0.2);
    }

    @Test
    void theUncertaintyOfTheLawWidensTheMissesNotTheFalsePositives() {
        final ErrorRates found =
                trial(constant(), 1).wholeExperiment(MANY, RandomStream.of(14, 0), 0.95);

        // true scatter up to 1.5 times the fitted: an amount at the claimed limit is missed often
        assertThat(found.falseNegative().upper()).isBetween(0.15, 0.5);
        assertThat(found.falseNegative().lower()).isLessThan(0.01);
        assertThat(found.falsePositive().upper()).isLessThan(0.06);
    }

    @Test
    void onlyALineCanBeTried() {
        final ScatterFit curve = ScatterFitterTest.fit(MeanLaw.QUADRATIC, X, Y, ONES);

        assertThatIllegalArgumentException()
                .isThrownBy(() -> new DetectionTrial(curve, X, ONES, 1, new Limit(1, 16, 16), 2));
    }
}
