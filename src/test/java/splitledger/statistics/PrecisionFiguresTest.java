package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static splitledger.Digits.assertDigits;
import static splitledger.statistics.Outcomes.assertNot;
import static splitledger.statistics.Outcomes.value;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import splitledger.statistics.Outcome.Reason;

class PrecisionFiguresTest {

    /** Worked by hand; RSD 0.70 %, n = 6, B = 2.0 meets 0.848 %, with 0.437..1.717 % around it. */
    @ParameterizedTest
    @CsvSource({
        "2.0, 0.41, 0.59, 0.73, 0.85",
        "2.5, 0.52, 0.74, 0.92, 1.06",
        "3.0, 0.62, 0.89, 1.10, 1.27"
    })
    void limitsOfAreaRepeatability(double b, double three, double four, double five, double six) {
        final double[] limits = {three, four, five, six};
        for (int n = 3; n <= 6; n++) {
            assertThat(value(PrecisionFigures.areaRepeatabilityLimit(n, b)))
                    .isCloseTo(limits[n - 3], within(0.0051));
        }
        assertThat(value(PrecisionFigures.areaRepeatabilityLimit(6, 2)))
                .isCloseTo(0.848, within(0.0005));
        assertNot(PrecisionFigures.areaRepeatabilityLimit(7, b), Reason.NOT_DEFINED, "3 to 6");
    }

    private static ScatterComponent plain(double sd, double df, double coverage) {
        final VarianceEstimate s = new VarianceEstimate(sd * sd, df);
        final double low = s.sdLower(coverage);
        final double high = s.sdUpper(coverage);
        return new ScatterComponent(
                sd * sd, sd * sd, sd * sd * Math.sqrt(2 / df), df, low * low, high * high);
    }

    @Test
    void aRelativeStandardDeviationKeepsItsChiSquareIntervalUnderACertainMean() {
        final PrecisionFigures.Relative found =
                value(PrecisionFigures.relative(plain(0.7, 5, 0.95), 100, 0, 5, 0.95));

        assertThat(100 * found.value()).isCloseTo(0.70, within(1e-12));
        assertThat(100 * found.lower()).isCloseTo(0.437, within(0.0005));
        assertThat(100 * found.upper()).isCloseTo(1.717, within(0.0005));
    }

    /** Ratio of sd and mean of 8 normal values: 95 % of 2000 intervals hold it, + 3 se. */
    @Test
    void theIntervalWidensWithTheMean() {
        final ScatterComponent sd = plain(2, 7, 0.95);
        final double sharp = value(PrecisionFigures.relative(sd, 10, 1e-9, 7, 0.95)).upper();
        final double blunt = value(PrecisionFigures.relative(sd, 10, 1, 7, 0.95)).upper();
        assertThat(blunt).isGreaterThan(sharp);
        assertNot(
                PrecisionFigures.relative(sd, 10, 5, 7, 0.95),
                Reason.MEAN_NEAR_ZERO,
                "told from 0");

        final RandomStream random = RandomStream.of(7, 7);
        int held = 0;
        for (int run = 0; run < 2000; run++) {
            final double[] x = new double[8];
            for (int i = 0; i < 8; i++) {
                x[i] = 10 + 2 * random.nextNormal();
            }
            final Moments m = Moments.ofAll(x);
            final PrecisionFigures.Relative found =
                    value(
                            PrecisionFigures.relative(
                                    plain(m.sd(), 7, 0.95),
                                    m.mean(),
                                    m.sd() / Math.sqrt(8),
                                    7,
                                    0.95));
            held += found.lower() <= 0.2 && 0.2 <= found.upper() ? 1 : 0;
        }
        assertThat(held).isBetween(1900 - 30, 2000);
    }

    @Test
    void theRepeatabilityLimitTendsTo277() {
        assertThat(
                        PrecisionFigures.repeatabilityLimit(
                                new VarianceEstimate(1, Double.POSITIVE_INFINITY), 0.95))
                .isCloseTo(2.772, within(0.0005));
        assertThat(PrecisionFigures.repeatabilityLimit(new VarianceEstimate(4, 5), 0.95))
                .isCloseTo(2 * Math.sqrt(2) * 2.570582, within(1e-5));
    }

    /** Horwitz: 2 % for a pure substance, doubling each time the fraction falls by 100. */
    @Test
    void predictedStandardDeviations() {
        assertThat(PrecisionFigures.predictedSd(1)).isEqualTo(0.01);
        assertThat(PrecisionFigures.predictedSd(0.01) / 0.01).isCloseTo(0.04, within(0.0001));
        assertThat(PrecisionFigures.predictedSd(1e-6) / 1e-6).isCloseTo(0.16, within(0.001));
        assertThat(PrecisionFigures.predictedSd(1e-9) / 1e-9).isCloseTo(0.22, within(1e-12));
        assertThatThrownBy(() -> PrecisionFigures.predictedSd(2)).hasMessageContaining("2.0");
    }

    /** Student, 1908: ten persons, two drugs; t -4.0621, p 0.002833 as printed with the data. */
    @Test
    void aFactorWithTwoLabelsIsJudgedLikePairs() {
        final double[] y = {
            0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2, 1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5,
            1.6, 4.6, 3.4
        };
        final ScatterStructure structure =
                PrecisionSets.structure(
                        PrecisionSets.factor("drug", 20, 10, 2),
                        PrecisionSets.factor("person", 20, 1, 10));
        final GroupDifference found = value(GroupDifference.of(structure, "drug", y));

        assertDigits(12, -1.58, found.difference(), "difference");
        assertDigits(12, -4.06212768338204, found.difference() / found.standardUncertainty(), "t");
        assertDigits(12, 9, found.degreesOfFreedom(), "degrees of freedom");
        assertDigits(11, 0.0028328901973843, found.p(), "p");
        assertThat(found.error()).containsExactly("injection");
        assertDigits(10, 2.4598857632769824, 1.58 + found.halfWidth(0.95), "end");
    }

    @Test
    void anAnalystIsJudgedByWhatHeDoesOnDifferentDays() {
        // worked by hand: differences a - b of the days 1 3 2, mean 2, sd 1, u = 1/sqrt(3)
        final double[] y = {11, 13, 10, 12, 25, 23, 22, 20, 18, 16, 15, 15};
        final ScatterStructure structure =
                PrecisionSets.structure(
                        PrecisionSets.factor("day", 12, 4, 3),
                        PrecisionSets.factor("analyst", 12, 2, 2));
        final GroupDifference found = value(GroupDifference.of(structure, "analyst", y));

        assertThat(found.difference()).isCloseTo(2, within(1e-12));
        assertThat(found.standardUncertainty()).isCloseTo(1 / Math.sqrt(3), within(1e-12));
        assertThat(found.degreesOfFreedom()).isCloseTo(2, within(1e-9));
        assertThat(found.error()).containsExactly("day:analyst");
        assertNot(GroupDifference.of(structure, "day", y), Reason.TOO_FEW_LEVELS, "3 labels");
    }

    /** Worked by hand: 2 %, 2 %, correlation 0.9 or 0.3: the ratio scatters 0.894 or 2.366 %. */
    @ParameterizedTest
    @CsvSource({"0.9, 0.894", "0.3, 2.366"})
    void whatAnInternalStandardGains(double correlation, double percent) {
        // two residuals with exactly this correlation: orthogonal unit directions turned together
        final double[] one = {0.5, -0.5, 0.5, -0.5};
        final double[] two = {0.5, 0.5, -0.5, -0.5};
        final double[] standard = new double[4];
        final double[] analyte = new double[4];
        for (int i = 0; i < 4; i++) {
            analyte[i] = 0.02 * one[i];
            standard[i] =
                    0.02
                            * (correlation * one[i]
                                    + Math.sqrt(1 - correlation * correlation) * two[i]);
        }
        final InternalStandardGain found =
                value(InternalStandardGain.of(analyte, standard, 3, 0.95));

        assertThat(2 * found.ratio()).isCloseTo(percent, within(0.0005));
        assertThat(found.correlation()).isCloseTo(correlation, within(1e-12));
        assertThat(found.needed()).isCloseTo(0.5, within(1e-12));
        assertThat(found.ratio() < 1).isEqualTo(correlation > found.needed());
        assertThat(found.effect()).isEqualTo(InternalStandardGain.Effect.UNDECIDED);
    }

    /** The interval is exact: 2000 pairs of 12 correlated series, 95 % +- 3 se. */
    @Test
    void theGainLiesInItsIntervalAsOftenAsItSays() {
        final RandomStream random = RandomStream.of(11, 3);
        int held = 0;
        for (int run = 0; run < 2000; run++) {
            final double[] a = new double[12];
            final double[] s = new double[12];
            for (int i = 0; i < 12; i++) {
                final double shared = random.nextNormal();
                a[i] = shared + 0.5 * random.nextNormal();
                s[i] = 1.2 * shared + 0.3 * random.nextNormal();
            }
            final ScatterFactor all = WithinSlope.oneGroup(12);
            final InternalStandardGain found =
                    value(
                            InternalStandardGain.of(
                                    WithinSlope.centred(a, all),
                                    WithinSlope.centred(s, all),
                                    11,
                                    0.95));
            final double truth = Math.sqrt((0.04 + 0.25 + 0.09) / 1.25);
            held += found.lower() <= truth && truth <= found.upper() ? 1 : 0;
        }
        assertThat(held).isBetween(1900 - 30, 1900 + 30);
    }

    @Test
    void scatterAgainstLevelIsNamed() {
        final double[] levels = {1, 3, 10, 30, 100};
        final double[] df = {9, 9, 9, 9, 9};

        final LevelScatter flat =
                value(LevelScatter.of(levels, new double[] {4.4, 3.7, 4.1, 3.9, 4.2}, df));
        assertThat(flat.law()).isEqualTo(LevelScatter.Law.CONSTANT);
        assertThat(flat.constant()).isCloseTo(Math.sqrt(4.06), within(1e-12));
        assertThat(flat.proportional()).isZero();

        final double[] steep = {1.1e-4, 8.5e-4, 1.02e-2, 8.8e-2, 1.01};
        final LevelScatter grown = value(LevelScatter.of(levels, steep, df));
        assertThat(grown.law()).isEqualTo(LevelScatter.Law.PROPORTIONAL);
        assertThat(grown.sd(50)).isCloseTo(0.5, within(0.01));

        // s0 = 0.1, s1 = 0.01, exactly: both are found
        final double[] both = new double[5];
        for (int i = 0; i < 5; i++) {
            both[i] = 0.01 + 1e-4 * levels[i] * levels[i];
        }
        final LevelScatter two = value(LevelScatter.of(levels, both, df));
        assertThat(two.law()).isEqualTo(LevelScatter.Law.TWO_COMPONENTS);
        assertThat(two.constant()).isCloseTo(0.1, within(1e-9));
        assertThat(two.proportional()).isCloseTo(0.01, within(1e-10));
        assertThat(two.logLikelihoods()).hasSize(3);
        assertThat(two.logLikelihoods().get(2))
                .isGreaterThan(Math.max(two.logLikelihoods().get(0), two.logLikelihoods().get(1)));
        assertNot(
                LevelScatter.of(new double[] {2, 2}, new double[] {1, 1}, new double[] {3, 3}),
                Reason.TOO_FEW_LEVELS);
    }

    /** Three compounds of correlations 0.72, 0.63, 0.56: loadings 0.9, 0.8, 0.7 solve them. */
    @Test
    void sharesSolveTheCorrelationsOfThreeCompounds() {
        final double[] loadings = {0.9, 0.8, 0.7};
        // orthogonal directions of 16 rows: signs that change every row, and every 2, 4 and 8
        final List<double[]> residuals = new ArrayList<>();
        for (int c = 0; c < 3; c++) {
            final double own = Math.sqrt(1 - loadings[c] * loadings[c]);
            final double[] r = new double[16];
            for (int i = 0; i < 16; i++) {
                r[i] = loadings[c] * sign(i, 1) + own * sign(i, 2 << c);
            }
            residuals.add(r);
        }
        final SharedScatter found =
                value(
                        SharedScatter.of(
                                residuals,
                                new double[] {100, 200, 300},
                                15,
                                0.95,
                                100,
                                RandomStream.of(1, 1)));
        for (int c = 0; c < 3; c++) {
            assertThat(found.shares().get(c)).isCloseTo(loadings[c] * loadings[c], within(1e-6));
            assertThat(found.lower().get(c)).isLessThan(found.shares().get(c));
            assertThat(found.upper().get(c)).isGreaterThanOrEqualTo(found.shares().get(c));
        }
        // common parts 0.9 0.8 0.7 of equal scatter fall by 0.1 in 100 degrees about 0.8
        assertThat(found.growth()).isCloseTo(-0.1 / 100 / 0.8, within(1e-8));
        assertNot(
                SharedScatter.of(
                        residuals.subList(0, 2),
                        new double[0],
                        15,
                        0.95,
                        10,
                        RandomStream.of(1, 1)),
                Reason.TOO_FEW_LEVELS,
                "3 are needed");
    }

    private static double sign(int row, int period) {
        return row / period % 2 == 0 ? 1 : -1;
    }

    @Test
    void detrendingTakesLevelsAndDriftOff() {
        final ScatterFactor groups = PrecisionSets.factor("preparation", 8, 4, 2);
        final double[] order = {1, 2, 3, 4, 5, 6, 7, 8};
        final double[] y = {5.1, 5.2, 5.3, 5.4, 9.1, 9.2, 9.3, 9.4};

        for (double rest : SharedScatter.detrended(y, order, groups)) {
            assertThat(rest).isCloseTo(0, within(1e-12));
        }
    }

    /** Worked by hand: means 2 and 5, variance 2 with 2 df, u = sqrt(2 (1/2 + 1/2)). */
    @Test
    void twoCellsThatAreAllThereIsAreComparedByTheRowsWithinThem() {
        final ScatterStructure two = PrecisionSets.structure(PrecisionSets.factor("day", 4, 2, 2));
        final GroupDifference found =
                Outcomes.value(GroupDifference.of(two, "day", new double[] {1, 3, 4, 6}));
        assertThat(found.difference()).isCloseTo(-3, within(1e-12));
        assertThat(found.standardUncertainty()).isCloseTo(Math.sqrt(2), within(1e-12));
        assertThat(found.degreesOfFreedom()).isEqualTo(2);
    }
}
