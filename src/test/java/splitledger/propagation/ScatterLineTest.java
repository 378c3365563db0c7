package splitledger.propagation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static splitledger.Digits.assertDigits;
import static splitledger.statistics.Outcomes.value;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import splitledger.statistics.AmountPrediction;
import splitledger.statistics.InjectionShare;
import splitledger.statistics.LineFit;
import splitledger.statistics.LineFitter;
import splitledger.statistics.MeanLaw;
import splitledger.statistics.Outcome;
import splitledger.statistics.Quantiles;
import splitledger.statistics.RandomStream;
import splitledger.statistics.ScatterFit;
import splitledger.statistics.ScatterFitter;
import splitledger.statistics.ScatterLaw;

class ScatterLineTest {
    private static final double[] X = {1, 1, 2, 2, 5, 5, 10, 10, 20, 20, 50, 50};
    private static final double[] Y = {
        10.4, 11.5, 20.2, 21.6, 52.1, 50.2, 99.1, 103.2, 205.3, 197.4, 509, 493
    };
    private static final InjectionShare TWICE = new InjectionShare(0.8, 2, 12);

    private static ScatterFit fit(MeanLaw mean, ScatterLaw.Form form) {
        return value(ScatterFitter.withDefaults().withMean(mean).withForm(form).fit(X, Y));
    }

    private static ScatterLine estimated(MeanLaw mean) {
        return new ScatterLine(
                "cal", fit(mean, ScatterLaw.Form.BOTH), TWICE, false, 0.95, "mg/L", "pA s");
    }

    private static ScatterLine given() {
        final ScatterFit fit = fit(MeanLaw.LINE, ScatterLaw.Form.CONSTANT);
        return new ScatterLine("cal", fit, new InjectionShare(1, 1, 0), true, 0.95, "mg/L", "pA s");
    }

    /**
     * 400 simulated standard additions of which all amounts share an error of 5 %: the interval
     * covers the true content in 95 %, give or take 2.8 % (2.58 standard errors); without that
     * error far less.
     */
    @Test
    void theSharedErrorOfAdditionsIsCovered() {
        final double[] added = {0, 0, 1, 1, 2, 2, 3, 3, 4, 4};
        final double[] ones = new double[added.length];
        Arrays.fill(ones, 1);
        final Root stock = Given.root("stock");
        int covered = 0;
        int without = 0;
        for (int run = 0; run < 400; run++) {
            final RandomStream random = RandomStream.of(20260301, run);
            final double error = 0.05 * random.nextNormal();
            final double[] y = new double[added.length];
            for (int i = 0; i < y.length; i++) {
                y[i] = 10 * (2 + added[i] * (1 + error)) + 0.3 * random.nextNormal();
            }
            final ScatterFit fit =
                    value(
                            ScatterFitter.withDefaults()
                                    .withForm(ScatterLaw.Form.CONSTANT)
                                    .fit(added, y));
            final ScatterLine plain =
                    new ScatterLine(
                            "cal", fit, new InjectionShare(1, 1, 0), true, 0.95, "mg/L", "pA s");
            final List<Uncertain> amounts =
                    Arrays.stream(added)
                            .mapToObj(x -> Uncertain.of(x, "mg/L", stock, 0.05 * x))
                            .toList();
            covered +=
                    covers(plain.with(CurveParts.of(fit, ones, amounts, y)).byAddition()) ? 1 : 0;
            without += covers(plain.byAddition()) ? 1 : 0;
        }
        assertThat(covered / 400.0).isBetween(0.922, 0.978);
        assertThat(without / 400.0).isLessThan(0.85);
    }

    private static boolean covers(Outcome<AmountPrediction> found) {
        final AmountPrediction p = value(found);
        return p.lower() <= 2 && 2 <= p.upper();
    }

    @ParameterizedTest
    @ValueSource(doubles = {12, 101, 480})
    void withAGivenConstantScatterItIsTheUnweightedLine(double response) {
        final LineFit line = value(LineFitter.withDefaults().fit(X, Y));
        final WeightedLine plain =
                new WeightedLine(
                        "cal",
                        line,
                        "mg/L",
                        "pA s",
                        new Pool("cal", line.degreesOfFreedom(), "scatter"),
                        Optional.empty(),
                        1);
        final UncertainLine.Predicted a = value(plain.predict(response, 1, "P", 0.95));
        final UncertainLine.Predicted b = value(given().predict(response, 1, "P", 0.95));

        assertDigits(11, a.amount().value(), b.amount().value(), "x0");
        assertDigits(
                11, a.amount().standardUncertainty(), b.amount().standardUncertainty(), "u(x0)");
        assertDigits(11, a.exact().lower(), b.exact().lower(), "lower");
        assertDigits(11, a.exact().upper(), b.exact().upper(), "upper");
        assertThat(b.amount().degreesOfFreedom()).isCloseTo(10, within(1e-9));
        assertDigits(
                11,
                plain.intercept().covariance(plain.slope()),
                given().intercept().covariance(given().slope()),
                "covariance");
    }

    @ParameterizedTest
    @EnumSource
    void rootsCarryEveryCovarianceOfTheFit(MeanLaw mean) {
        final ScatterLine line = estimated(mean);
        for (int k = 0; k < mean.parameters(); k++) {
            for (int l = 0; l < mean.parameters(); l++) {
                assertDigits(
                        9,
                        line.fit().covariance(k, l),
                        line.coefficient(k).covariance(line.coefficient(l)),
                        "covariance " + k + " " + l);
            }
        }
        for (double x : new double[] {0.5, 7, 50}) {
            assertDigits(9, line.fit().meanVariance(x), line.at(x).variance(), "variance at " + x);
        }
    }

    /** One pool whose t is the predictor's factor at that amount. */
    @ParameterizedTest
    @EnumSource
    void anAmountHasTheUncertaintyAndTheFactorOfThePredictor(MeanLaw mean) {
        final ScatterLine line = estimated(mean);
        for (double response : new double[] {12, 101, 480}) {
            final AmountPrediction p = value(line.predictor().amount(response, line.share().of(3)));
            final UncertainLine.Predicted found = value(line.predict(response, 3, "P", 0.95));

            assertDigits(9, p.standardUncertainty(), found.amount().standardUncertainty(), "u(x0)");
            assertDigits(
                    8,
                    p.factor(),
                    Quantiles.coverageFactor(0.95, found.amount().degreesOfFreedom()),
                    "k");
            assertThat(found.exact().lower()).isEqualTo(p.lower());
            assertThat(found.exact().upper()).isEqualTo(p.upper());
        }
    }

    @Test
    void nearAnAmountItGivesTheSameAsReadingItOff() {
        final ScatterLine line = estimated(MeanLaw.LINE);
        final UncertainLine.Predicted found = value(line.predict(101, 2, "P", 0.95));
        final double x0 = found.amount().value();
        final UncertainLine near = line.near(x0, 2);
        final Uncertain again = near.amount(near.response(101, x0, 2, "P"), x0);

        assertDigits(12, found.amount().variance(), again.variance(), "variance");
        assertDigits(9, found.amount().degreesOfFreedom(), again.degreesOfFreedom(), "freedom");
        assertDigits(12, found.amount().variance(), found.amount().covariance(again), "shared");
    }

    @Test
    void moreInjectionsShrinkTheirOwnPartOfTheScatterOnly() {
        final ScatterLine line = estimated(MeanLaw.LINE);
        final double whole = line.scatter(10);
        // 1 + 0.8 (1/m - 1/2)
        assertDigits(12, 1.4 * whole, line.response(100, 10, 1, "P").variance(), "one injection");
        assertDigits(12, whole, line.response(100, 10, 2, "P").variance(), "two");
        assertDigits(12, 0.8 * whole, line.response(100, 10, 4, "P").variance(), "four");
    }

    /** A common relative error e leaves the intercept and moves the slope by -b e, exactly. */
    @ParameterizedTest
    @EnumSource(
            value = MeanLaw.class,
            names = {"LINE", "THROUGH_ORIGIN"})
    void aCommonErrorOfTheAmountsMovesTheSlopeAlone(MeanLaw mean) {
        final ScatterLine plain = estimated(mean);
        final Root stock =
                Root.normal(
                        "stock",
                        Pool.known("stock", "certificate"),
                        Effect.STANDARD_AMOUNT,
                        ActsOn.CALIBRANT,
                        "certificate");
        final List<Uncertain> amounts =
                Arrays.stream(X).mapToObj(x -> Uncertain.of(x, "mg/L", stock, 0.01 * x)).toList();
        final double[] shares = new double[X.length];
        Arrays.fill(shares, 1);
        final ScatterLine line = plain.with(CurveParts.of(plain.fit(), shares, amounts, Y));

        final double b = line.slope().value();
        assertDigits(9, -0.01 * b, line.slope().part(stock), "slope");
        assertThat(line.intercept().part(stock)).isCloseTo(0, within(1e-10));
        final Uncertain found = value(line.predict(101, 2, "P", 0.95)).amount();
        final Uncertain exact = value(plain.predict(101, 2, "P", 0.95)).amount();
        final double x0 = found.value();
        assertDigits(9, exact.variance() + 1e-4 * x0 * x0, found.variance(), "u^2");
        assertThat(value(line.predict(101, 2, "P", 0.95)).exact().standardUncertainty())
                .isCloseTo(found.standardUncertainty(), within(1e-9));
    }

    @Test
    void anotherCoverageThanItWasMadeForIsRefused() {
        final ScatterLine line = given();
        assertThatIllegalArgumentException()
                .isThrownBy(() -> line.predict(101, 1, "P", 0.99))
                .withMessageContaining("0.95");
    }
}
