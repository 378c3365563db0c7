package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import splitledger.statistics.Outcome.Computed;
import splitledger.statistics.Outcome.NotComputed;

/** The fit of responses to the split ratio. */
class RatioFitTest {
    private static final double[] RATIOS = {10, 20, 50, 100, 200};

    private static double[] responses(double offset) {
        final double[] z = new double[RATIOS.length];
        java.util.Arrays.setAll(z, i -> StrictMath.log(1000 / (RATIOS[i] + offset)));
        return z;
    }

    private static RatioFit fit(double... z) {
        return RatioFit.of(RATIOS, z, new double[] {1, 1, 1, 1, 1}, new int[5]);
    }

    /** Worked by hand: responses 1000/(r + 1). */
    @Test
    void responsesOfTheOtherConventionGiveItsExponentAndItsOffset() {
        final RatioFit fit = fit(responses(1));
        final var line = ((Computed<GeneralLeastSquares>) fit.line()).value();
        final var offset = ((Computed<RatioOffset>) RatioOffset.of(fit, 0.95)).value();

        assertThat(line.coefficients().get(0)).isCloseTo(0.970939, within(5e-7));
        assertThat(offset.value()).isCloseTo(1, within(1e-9));
    }

    @Test
    void whatIsKeptIsTheResponseTimesTheRatio() {
        final var levels =
                ((Computed<GeneralLeastSquares>)
                                fit(responses(1)).levels(List.of(10.0, 20.0, 100.0, 200.0)))
                        .value();

        assertThat(
                        levels.coefficients().stream()
                                .limit(4)
                                .map(c -> 100 * StrictMath.exp(c))
                                .toList())
                .satisfies(
                        kept -> {
                            assertThat(kept.get(0)).isCloseTo(92.727, within(5e-4));
                            assertThat(kept.get(1)).isCloseTo(97.143, within(5e-4));
                            assertThat(kept.get(2)).isCloseTo(100.990, within(5e-4));
                            assertThat(kept.get(3)).isCloseTo(101.493, within(5e-4));
                        });
    }

    /** Where the setting scatters not at all, a set-up counts by its number of injections. */
    @Test
    void meansOfMoreInjectionsWeighMore() {
        final double[] z = {-2.3, -3.1, -3.9, -4.55, -5.4};
        final RatioFit own =
                RatioFit.of(RATIOS, z, new double[] {1, 1, 1, 1, 1}, new int[5])
                        .weighted(1e6, 1, 2, 4, 2, 1);
        final RatioFit expected =
                RatioFit.of(RATIOS, z, new double[] {1, 0.5, 0.25, 0.5, 1}, new int[5]);

        assertSameLine(own, expected);
    }

    @Test
    void equalNumbersOfInjectionsNeedNoWeights() {
        final RatioFit fit = fit(responses(1));

        assertThat(fit.weighted(0.1, 3, 3, 3, 3, 3)).isSameAs(fit);
        assertThat(fit.weighted(Double.NaN, 1, 2, 3, 3, 3)).isSameAs(fit);
        assertThat(fit.weighted(0, 1, 2, 3, 3, 3)).isSameAs(fit);
    }

    /**
     * By construction: variances within set-ups that are exactly 1 + 8 (r/200)^2 are most likely
     * under that law (a likelihood of variances is highest where they agree with the sums of
     * squares).
     */
    @Test
    void scatterThatGrowsWithTheRatioIsFound() {
        final double[] z = {-2.3, -3.1, -3.9, -4.55, -5.4};
        final int[] injections = {3, 2, 4, 3, 2};
        final double[] squares = new double[z.length];
        final double[] variances = new double[z.length];
        for (int i = 0; i < z.length; i++) {
            final double law = 1 + 8 * (RATIOS[i] / 200) * (RATIOS[i] / 200);
            squares[i] = 0.01 * law * (injections[i] - 1);
            variances[i] = law / injections[i];
        }
        final RatioFit plain = fit(z);

        assertSameLine(
                plain.weightedByScatter(squares, injections),
                RatioFit.of(RATIOS, z, variances, new int[5]));
    }

    @Test
    void withoutRepeatedInjectionsNothingGrows() {
        final double[] z = {-2.3, -3.1, -3.9, -4.55, -5.4};

        assertSameLine(fit(z).weightedByScatter(new double[5], new int[] {1, 1, 1, 1, 1}), fit(z));
    }

    private static void assertSameLine(RatioFit own, RatioFit expected) {
        final var found = ((Computed<GeneralLeastSquares>) own.line()).value();
        final var other = ((Computed<GeneralLeastSquares>) expected.line()).value();
        for (int k = 0; k < other.coefficients().size(); k++) {
            assertThat(found.coefficients().get(k))
                    .isCloseTo(other.coefficients().get(k), within(1e-6));
        }
    }

    @Test
    void theIntervalOfTheOffsetEndsWhereTheSumOfSquaresIsTheLimit() {
        final double[] z = responses(0.4);
        for (int i = 0; i < z.length; i++) {
            z[i] += i % 2 == 0 ? 0.01 : -0.01;
        }
        final RatioFit fit = fit(z);
        final var offset = ((Computed<RatioOffset>) RatioOffset.of(fit, 0.95)).value();
        final double t = Quantiles.coverageFactor(0.95, 3);
        final double limit = offset.residualSquares() * (1 + t * t / 3);

        assertThat(fit.squaresAt(offset.lower())).isCloseTo(limit, within(1e-12));
        assertThat(fit.squaresAt(offset.upper())).isCloseTo(limit, within(1e-12));
        assertThat(offset.lower()).isLessThan(offset.value());
        assertThat(offset.upper()).isGreaterThan(offset.value());
    }

    @Test
    void aLevelOfItsOwnForEachDayLeavesTheExponentAlone() {
        final double[] z = {5, 4.31, 3.4, 2.69, 2.01, 5.7, 5.02, 4.08, 3.41, 2.69};
        final double[] shifted = z.clone();
        for (int i = 5; i < 10; i++) {
            shifted[i] += 3;
        }
        final double[] ratios = {10, 20, 50, 100, 200, 10, 20, 50, 100, 200};
        final double[] ones = {1, 1, 1, 1, 1, 1, 1, 1, 1, 1};
        final int[] days = {0, 0, 0, 0, 0, 1, 1, 1, 1, 1};
        final var one =
                ((Computed<GeneralLeastSquares>) RatioFit.of(ratios, z, ones, days).line()).value();
        final var other =
                ((Computed<GeneralLeastSquares>) RatioFit.of(ratios, shifted, ones, days).line())
                        .value();

        assertThat(other.coefficients().get(0)).isCloseTo(one.coefficients().get(0), within(1e-12));
        assertThat(other.uncertainty(1)).isCloseTo(one.uncertainty(1), within(1e-12));
        assertThat(one.degreesOfFreedom()).isEqualTo(7);
    }

    @Test
    void daysOfOneRatioEachTellNothing() {
        final RatioFit fit =
                RatioFit.of(
                        RATIOS,
                        responses(0),
                        new double[] {1, 1, 1, 1, 1},
                        new int[] {0, 1, 2, 3, 4});

        assertThat(fit.line()).isInstanceOf(NotComputed.class);
    }

    /** Worked by hand: the mean of equal variances with errors shared by all has the shared one. */
    @Test
    void aSharedErrorStaysInTheMean() {
        final double[][] rows = {{1}, {1}};
        final double[][] v = {{2, 1}, {1, 2}};
        final var fit =
                ((Computed<GeneralLeastSquares>)
                                GeneralLeastSquares.fit(rows, new double[] {1, 3}, v))
                        .value();

        assertThat(fit.coefficients().get(0)).isCloseTo(2, within(1e-12));
        assertThat(fit.unscaled().get(0).get(0)).isCloseTo(1.5, within(1e-12));
        assertThat(fit.residualSquares()).isCloseTo(2, within(1e-12));
    }
}
