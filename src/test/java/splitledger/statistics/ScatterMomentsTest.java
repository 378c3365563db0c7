package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static splitledger.Digits.assertDigits;
import static splitledger.statistics.Outcomes.assertNot;
import static splitledger.statistics.PrecisionSets.oracle;

import java.math.BigDecimal;
import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import splitledger.statistics.Outcome.Reason;

class ScatterMomentsTest {

    /** Mean squares and components by aov in R; the data as named in {@link PrecisionSets}. */
    @Test
    void publishedDataSets() {
        final ScatterMoments dye = PrecisionSets.dyestuff().moments();
        assertDigits(13, 11271.5, dye.meanSquare(0), "MS of batches");
        assertDigits(13, 2451.25, dye.meanSquare(1), "MS of yields");
        assertDigits(13, 1764.05, dye.raw(0), "batches");
        assertDigits(13, 1527.5, dye.mean(), "mean");
        assertThat(dye.meanVariance().sd()).isCloseTo(19.38, within(0.005));
        assertDigits(12, 5, dye.meanVariance().degreesOfFreedom(), "df of the mean");

        final ScatterMoments laboratories = PrecisionSets.laboratories().moments();
        assertDigits(9, 0.3780427778, laboratories.meanSquare(0), "MS of laboratories");
        assertDigits(9, 0.01703333333, laboratories.meanSquare(1), "MS of batches");
        assertDigits(9, 0.006297222222, laboratories.meanSquare(2), "MS of duplicates");
        assertDigits(9, 0.06016824074, laboratories.raw(0), "laboratories");
        assertDigits(9, 0.005368055556, laboratories.raw(1), "batches");

        final ScatterMoments waste = PrecisionSets.waste().moments();
        assertDigits(9, 9.897177083, waste.raw(0), "deliveries");
        assertDigits(9, 6.048229167, waste.raw(1), "batches");
        assertDigits(9, 4.2725, waste.raw(2), "tests");
    }

    /**
     * Three groups of two, worked by hand: mean squares 200 (2 df) and 2 (3 df), so 99 between with
     * variance (2 200^2/2 + 2 2^2/3)/4 = 10000.667; F 100 has the upper tail (1 + 200/3)^-1.5.
     */
    @Test
    void threePairsWorkedByHand() {
        final ScatterMoments found = PrecisionSets.oneWay(2, 10, 12, 20, 22, 30, 32).moments();
        final double spread = (40000 + 8.0 / 3) / 4;

        final ScatterComponent between = found.component(0, 0.95);
        assertDigits(12, 99, between.variance(), "between");
        assertDigits(12, Math.sqrt(spread), between.standardUncertainty(), "its uncertainty");
        assertDigits(12, 2 * 99 * 99 / spread, between.degreesOfFreedom(), "its df");
        assertDigits(12, 3, found.component(1, 0.95).degreesOfFreedom(), "df within");
        final ScatterComponent both = found.sum(new double[] {1, 1}, 0.95);
        assertDigits(12, 101, both.variance(), "sum");
        assertDigits(12, 2 * 101 * 101 / spread, both.degreesOfFreedom(), "its df");
        assertDigits(12, spread, found.spread(new double[] {1, 0}), "variance of the estimate");
        assertDigits(12, -2.0 * 4 / 3 / 2, found.covariance(0, 1), "covariance of both");
        assertThat(found.meanSquares()).containsExactly(new double[] {200, 2}, within(1e-12));
        assertDigits(12, 200.0 / 6, found.meanVariance().variance(), "variance of the mean");
        assertDigits(12, 2, found.meanVariance().degreesOfFreedom(), "its df");
        assertDigits(12, 3, found.denominatorDf(0), "df of the denominator");
        assertDigits(9, 1 - StrictMath.pow(1 + 200.0 / 3, -1.5), found.lowerTail(0), "tail");
    }

    /** Groups with the same mean: nothing between, and the mean has the scatter within, 490/3. */
    @Test
    void groupsThatAgreeTooWellLeaveTheScatterWithin() {
        final ScatterMoments found = PrecisionSets.oneWay(2, 10, 30, 12, 28, 11, 29).moments();

        assertDigits(12, -245.0 / 3, found.raw(0), "between");
        assertThat(found.variance(0)).isZero();
        assertThat(found.lowerTail(0)).isZero();
        assertDigits(12, 490.0 / 18, found.meanVariance().variance(), "variance of the mean");
        assertDigits(12, 2, found.meanVariance().degreesOfFreedom(), "its df");
        assertThat(found.component(0, 0.95).degreesOfFreedom()).isEqualTo(2);
    }

    @Test
    void aSumNeedsAWeightForEveryComponent() {
        final ScatterMoments found = PrecisionSets.dyestuff().moments();

        assertThatThrownBy(() -> found.sum(new double[] {1}, 0.95))
                .isInstanceOf(IllegalArgumentException.class);
    }

    /** Batch variance -1.3219 (aov in R): kept raw, counted as 0, and bounded above. */
    @Test
    void aNegativeEstimateIsKeptAndCountedAsZero() {
        final ScatterMoments found = PrecisionSets.dyestuff2().moments();
        final ScatterComponent batch = found.component(0, 0.95);

        assertDigits(9, -1.321912768, batch.raw(), "raw");
        assertThat(batch.variance()).isZero();
        assertThat(batch.lower()).isZero();
        assertThat(batch.upper()).isPositive();
        assertThat(batch.degreesOfFreedom()).isEqualTo(5);
        assertThat(found.sum(new double[] {1, 1}, 0.95).variance()).isEqualTo(found.variance(1));
    }

    /** pf(0.55777, 5, 24) in R. */
    @Test
    void aSmallMeanSquareHasTheLowerTailOfF() {
        final ScatterMoments found = PrecisionSets.dyestuff2().moments();
        assertDigits(10, 0.268900769363, found.lowerTail(0), "lower tail");
    }

    /** Worked by hand: var(day) 16, analyst 0, u(mean) = sqrt(MS day / 12) = sqrt(64 / 12). */
    @Test
    void crossedFactorsWorkedByHand() {
        final ScatterMoments found = PrecisionSets.sameForBothAnalysts().moments();

        assertThat(found.raw(0)).isCloseTo(16, within(1e-12));
        assertThat(found.raw(1)).isCloseTo(0, within(1e-12));
        assertThat(found.raw(2)).isCloseTo(-1, within(1e-12));
        assertThat(found.raw(3)).isCloseTo(2, within(1e-12));
        assertThat(found.mean()).isEqualTo(101);
        assertThat(found.meanVariance().sd()).isCloseTo(2.3094, within(5e-5));
        assertThat(found.meanVariance().degreesOfFreedom()).isCloseTo(2, within(1e-9));
        // although every mean square below the analyst's is 0, 0 is not certain
        assertThat(found.component(1, 0.95).upper()).isGreaterThan(1);
    }

    /** One-way, unbalanced (3, 5, 4): n0 3.9167, between 3.574468 (by hand and in R). */
    @Test
    void unbalancedOneWay() {
        final double[] y = {507, 511, 509, 504, 506, 508, 505, 502, 510, 508, 506, 508};
        final PrecisionSets.Data data =
                new PrecisionSets.Data(
                        PrecisionSets.structure(
                                ScatterFactor.of("s", PrecisionSets.letters("aaabbbbbcccc"))),
                        y);
        final ScatterMoments found = data.moments();

        assertDigits(9, 3.916666667, data.design().expectedShare(0, 0), "n0");
        assertDigits(13, 18, found.meanSquare(0), "MS between");
        assertDigits(13, 4, found.meanSquare(1), "MS within");
        assertDigits(9, 3.574468085, found.raw(0), "between");
    }

    /** Expectations and covariances from projections of all rows, in R. */
    @ParameterizedTest
    @CsvSource({"precision-nested, 3", "precision-crossed, 5"})
    void unbalancedDataAgreeWithProjectionsOfAllRows(String name, int components) {
        final ScatterMoments found =
                (components == 3
                                ? PrecisionSets.unbalancedNested()
                                : PrecisionSets.unbalancedCrossed())
                        .moments();
        for (int k = 0; k < components; k++) {
            final int number = k + 1;
            assertThat(found.design().degreesOfFreedom(k)).isEqualTo(oracle(name, "df-" + number));
            assertDigits(11, oracle(name, "ms-" + number), found.meanSquare(k), "MS " + number);
            assertDigits(10, oracle(name, "raw-" + number), found.raw(k), "raw " + number);
            assertDigits(
                    10,
                    oracle(name, "moment-variance-" + number),
                    found.covariance(k, k),
                    "variance of " + number);
        }
    }

    /** 13 digits or more when the common leading digits are taken off before they cost any. */
    @ParameterizedTest
    @CsvSource({
        "1, 21, 0.21",
        "1000000, 201, 2.01",
        "1000000000000, 21, 0.21",
        "1000000000000, 201, 2.01",
        "1000000000000, 2001, 20.01"
    })
    void simonAndLesageReadAsDecimals(String leading, int readings, double between) {
        final int[] tenths = {4, 3, 5, 3, 5, 3, 5, 3, 5};
        final double[] y = new double[9 * readings];
        for (int i = 0; i < y.length; i++) {
            final int place = i % readings;
            final int off = place == 0 ? 0 : place % 2 == 1 ? -1 : 1;
            y[i] =
                    new BigDecimal(leading + "." + (tenths[i / readings] + off))
                            .subtract(new BigDecimal(leading))
                            .doubleValue();
        }
        final ScatterMoments found =
                new PrecisionSets.Data(
                                PrecisionSets.structure(
                                        PrecisionSets.factor("t", y.length, readings, 9)),
                                y)
                        .moments();

        assertDigits(13, between, found.meanSquare(0), "between, NIST StRD");
        assertDigits(13, 0.01, found.meanSquare(1), "within, NIST StRD");
    }

    @Test
    void anotherUnitAndAnotherZeroChangeNothingElse() {
        final PrecisionSets.Data data = PrecisionSets.unbalancedCrossed();
        final double[] moved = Arrays.stream(data.y()).map(v -> 8 * v - 512).toArray();
        final ScatterMoments found = data.moments();
        final ScatterMoments other = new PrecisionSets.Data(data.structure(), moved).moments();

        for (int k = 0; k < 5; k++) {
            assertDigits(11, 64 * found.raw(k), other.raw(k), "component " + k);
            assertDigits(
                    10,
                    64 * found.component(k, 0.9).upper(),
                    other.component(k, 0.9).upper(),
                    "upper end " + k);
        }
        assertDigits(
                11,
                64 * found.meanVariance().variance(),
                other.meanVariance().variance(),
                "variance of the mean");
    }

    @Test
    void whatCannotBeToldIsSaid() {
        final ScatterStructure structure =
                PrecisionSets.structure(PrecisionSets.factor("day", 4, 2, 2));
        final ScatterDesign design = Outcomes.value(ScatterDesign.of(structure, 4));

        assertNot(
                ScatterMoments.of(design, new double[] {1, 1, 2, 2}),
                Reason.NO_SCATTER,
                "injection");
        assertNot(
                ScatterDesign.of(PrecisionSets.structure(), 1),
                Reason.TOO_FEW_INJECTIONS,
                "1 rows");
        assertThatThrownBy(() -> ScatterMoments.of(design, new double[] {1, 2, 3}))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("responses: 3, must be 4");
        assertThatThrownBy(() -> ScatterMoments.of(design, new double[] {1, 2, 3, Double.NaN}))
                .hasMessageContaining("y[3] = NaN");
    }
}
