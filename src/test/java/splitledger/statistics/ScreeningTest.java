package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static splitledger.Digits.assertDigits;
import static splitledger.statistics.Outcomes.assertNot;
import static splitledger.statistics.Outcomes.value;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import splitledger.statistics.Outcome.Reason;

class ScreeningTest {
    private static final double[] VENUS = {
        -1.4, -0.44, -0.3, -0.24, -0.22, -0.13, -0.05, 0.06, 0.1, 0.18, 0.2, 0.39, 0.48, 0.63, 1.01
    };

    /** Rosner, 1983: 54 values. */
    private static final double[] ROSNER = {
        -0.25, 0.68, 0.94, 1.15, 1.2, 1.26, 1.26, 1.34, 1.38, 1.43, 1.49, 1.49, 1.55, 1.56, 1.58,
        1.65, 1.69, 1.7, 1.76, 1.77, 1.81, 1.91, 1.94, 1.96, 1.99, 2.06, 2.09, 2.1, 2.14, 2.15,
        2.23, 2.24, 2.26, 2.35, 2.37, 2.4, 2.47, 2.54, 2.62, 2.64, 2.9, 2.92, 2.92, 2.93, 3.21,
        3.26, 3.3, 3.59, 3.68, 4.3, 4.64, 5.34, 5.42, 6.01
    };

    /** ISO 5725-2:1994, B.3, level 1 (creosote oil): 9 laboratories, duplicates; from memory. */
    private static final List<double[]> CREOSOTE =
            List.of(
                    new double[] {4.44, 4.39},
                    new double[] {4.03, 4.23},
                    new double[] {3.7, 3.7},
                    new double[] {4.1, 4.1},
                    new double[] {3.97, 4.04},
                    new double[] {3.75, 4.03},
                    new double[] {3.7, 3.8},
                    new double[] {3.91, 3.9},
                    new double[] {4.02, 4.07});

    /** ISO 5725-2:1994, tables 4 to 7, from memory; three digits as printed. */
    @ParameterizedTest
    @CsvSource({
        // values, G 5 %, G 1 %, pair 5 %, pair 1 %
        "5, 1.715, 1.764, 0.0090, 0.0018",
        "9, 2.215, 2.387, 0.1492, 0.0851",
        "20, 2.709, 3.001, 0.4391, 0.3585"
    })
    void criticalValuesOfGrubbs(int n, double g5, double g1, double pair5, double pair1) {
        assertThat(Grubbs.critical(n, 0.05)).isCloseTo(g5, within(0.001));
        assertThat(Grubbs.critical(n, 0.01)).isCloseTo(g1, within(0.001));
        assertThat(Grubbs.pairCritical(n, 0.05)).isCloseTo(pair5, within(0.0005));
        assertThat(Grubbs.pairCritical(n, 0.01)).isCloseTo(pair1, within(0.0005));
    }

    /** As above. */
    @ParameterizedTest
    @CsvSource({
        // groups, size, Cochran 5 %, 1 %, h 5 %, 1 %, k 5 %, 1 %
        "5, 2, 0.841, 0.928, 1.57, 1.72, 1.81, 2.05",
        "9, 2, 0.638, 0.754, 1.78, 2.13, 1.90, 2.29"
    })
    void criticalValuesOfCochranAndMandel(
            int groups,
            double size,
            double c5,
            double c1,
            double h5,
            double h1,
            double k5,
            double k1) {
        assertThat(GroupSpread.cochranCritical(groups, size, 0.05)).isCloseTo(c5, within(0.001));
        assertThat(GroupSpread.cochranCritical(groups, size, 0.01)).isCloseTo(c1, within(0.001));
        assertThat(GroupSpread.hCritical(groups, 0.05)).isCloseTo(h5, within(0.006));
        assertThat(GroupSpread.hCritical(groups, 0.01)).isCloseTo(h1, within(0.006));
        assertThat(GroupSpread.kCritical(groups, size, 0.05)).isCloseTo(k5, within(0.006));
        assertThat(GroupSpread.kCritical(groups, size, 0.01)).isCloseTo(k1, within(0.006));
    }

    /** Grubbs, 1950: G = 2.57 of the lowest of 15 readings of Venus; p agrees with G's limit. */
    @Test
    void oneOutlier() {
        final Grubbs.Suspect found = value(Grubbs.single(VENUS));

        assertDigits(9, 2.573737072, found.statistic(), "G");
        assertThat(found.rows()).containsExactly(0);
        assertDigits(8, found.statistic(), Grubbs.critical(15, found.p()), "G at its own p");
        assertNot(Grubbs.single(1, 2), Reason.TOO_FEW_POINTS, "2 values");
        assertNot(Grubbs.single(1, 1, 1), Reason.NO_SCATTER);
    }

    @Test
    void twoOutliersOnOneSide() {
        // worked by hand: without 9 and 10 the squares are 2, with them 74.8
        final Grubbs.Suspect found = value(Grubbs.pair(1, 10, 2, 9, 3));

        assertThat(found.rows()).containsExactly(1, 3);
        assertThat(found.statistic()).isCloseTo(2 / 70.0, within(1e-12));
        assertDigits(6, found.statistic(), Grubbs.pairCritical(5, found.p()), "ratio at its own p");
        assertNot(Grubbs.pair(1, 2, 3), Reason.TOO_FEW_POINTS, "4 are needed");
    }

    /** Three outliers (Rosner, 1983; deviates and limits from memory, a unit of the last place). */
    @Test
    void severalOutliersDoNotHideEachOther() {
        final Grubbs.Deviates found = value(Grubbs.deviates(ROSNER, 10, 0.05));
        final double[] deviates = {
            3.118, 2.942, 3.179, 2.810, 2.815, 2.848, 2.279, 2.310, 2.101, 2.067
        };
        final double[] limits = {
            3.158, 3.151, 3.143, 3.136, 3.128, 3.120, 3.111, 3.103, 3.094, 3.085
        };

        assertThat(found.outliers()).isEqualTo(3);
        assertThat(found.rows()).containsExactly(53, 52, 51);
        for (int i = 0; i < 10; i++) {
            assertThat(found.steps().get(i).deviate()).isCloseTo(deviates[i], within(0.001));
            assertThat(found.steps().get(i).critical()).isCloseTo(limits[i], within(0.001));
        }
    }

    /** C, h and k by R from the data above. */
    @Test
    void laboratoriesOfACollaborativeStudy() {
        final double[] variances =
                CREOSOTE.stream().mapToDouble(g -> Moments.ofAll(g).variance()).toArray();
        final GroupSpread.Largest largest = value(GroupSpread.cochran(variances, 2));
        final List<GroupSpread.Mandel> mandel = value(GroupSpread.mandel(CREOSOTE));

        assertDigits(9, 0.5664739884, largest.statistic(), "C");
        assertThat(largest.group()).isEqualTo(5);
        assertDigits(
                8,
                largest.statistic(),
                GroupSpread.cochranCritical(9, 2, largest.p()),
                "C at its own p");
        assertDigits(10, 1.94915485618032, mandel.get(0).h(), "h of laboratory 1");
        assertDigits(10, -1.12480873123449, mandel.get(6).h(), "h of laboratory 7");
        assertDigits(10, 2.25793398839598, mandel.get(5).k(), "k of laboratory 6");
        assertNot(GroupSpread.mandel(CREOSOTE.subList(0, 2)), Reason.TOO_FEW_LEVELS, "3 are");
    }

    /** lm(y ~ group + x) of R 4.2. */
    @Test
    void driftWithinDays() {
        final double[] y = {10.2, 10.1, 10.6, 10.9, 11.0, 20.3, 20.1, 20.9, 21.2, 21.1};
        final double[] x = {1, 2, 3, 4, 5, 11, 12, 13, 14, 15};
        final WithinSlope found =
                value(WithinSlope.of(y, x, PrecisionSets.factor("day", 10, 5, 2)));

        assertDigits(12, 0.255, found.slope(), "slope");
        assertDigits(12, 0.04777177887773128, found.standardUncertainty(), "its uncertainty");
        assertThat(found.degreesOfFreedom()).isEqualTo(7);
        assertDigits(11, 1.0782182172279738e-3, found.p(), "p");
        assertNot(
                WithinSlope.of(y, x, PrecisionSets.factor("day", 10, 1, 10)),
                Reason.TOO_FEW_POINTS);
        assertNot(
                WithinSlope.of(y, new double[10], WithinSlope.oneGroup(10)), Reason.NO_SPREAD_IN_X);
    }

    /** Carry-over of 2 % made into the responses comes out: a slope on the amount before. */
    @Test
    void carryOverIsTheSlopeOnTheAmountBefore() {
        final double[] before = {0, 100, 0, 1, 100, 1, 0, 1, 100};
        final double[] noise = {.01, -.01, 0, .01, 0, -.01, -.01, .01, 0};
        final double[] y = new double[9];
        for (int i = 0; i < 9; i++) {
            y[i] = 50 * (1 + i % 2) + 0.02 * before[i] + noise[i];
        }
        final WithinSlope found =
                value(WithinSlope.of(y, before, PrecisionSets.factor("level", 9, 1, 2)));

        assertThat(found.slope()).isCloseTo(0.02, within(3 * found.standardUncertainty()));
        assertThat(found.standardUncertainty()).isLessThan(0.001);
    }

    /** t of two samples of equal variance at every split, and acf, of R 4.2. */
    @Test
    void stepAndNeighbours() {
        final double[] x = {3.1, 3.4, 2.9, 3.3, 3.0, 3.2, 4.6, 4.4, 4.9, 4.5, 4.7, 4.4};
        final SeriesFlags.Step step = value(SeriesFlags.step(x));
        final SeriesFlags.Neighbours neighbours = value(SeriesFlags.neighbours(x));

        assertThat(step.before()).isEqualTo(6);
        assertThat(step.difference()).isCloseTo(4.583333 - 3.15, within(1e-6));
        assertDigits(9, 9 * 1.3473963371537173e-07, step.p(), "p, 9 splits");
        assertDigits(12, 0.6903302689819545, neighbours.lagOne(), "lag one");
        assertThat(neighbours.p()).isLessThan(0.05);
        assertThat(neighbours.effectiveCount()).isBetween(1.0, 6.0);
        assertThat(neighbours.inflation())
                .isCloseTo(Math.sqrt(12 / neighbours.effectiveCount()), within(1e-12));
        assertNot(SeriesFlags.step(1, 2, 3), Reason.TOO_FEW_POINTS, "6 are needed");
    }

    @Test
    void valuesInTurnAreNotAlike() {
        final double[] x = {1, 2, 1.1, 2.1, 0.9, 1.9, 1, 2.2, 1.2, 2};
        final SeriesFlags.Neighbours found = value(SeriesFlags.neighbours(x));

        assertThat(found.lagOne()).isNegative();
        assertThat(found.effectiveCount()).isEqualTo(10);
        assertThat(found.inflation()).isEqualTo(1);
    }

    /** Independent values raise either alarm at 5 % in no more than 5 % of 1000 series (+ 3 se). */
    @Test
    void alarmsOnIndependentValuesAreAsRareAsTheySay() {
        final RandomStream random = RandomStream.of(20260301, 1);
        int steps = 0;
        int alike = 0;
        for (int run = 0; run < 1000; run++) {
            final double[] x = new double[20];
            for (int i = 0; i < x.length; i++) {
                x[i] = random.nextNormal();
            }
            steps += value(SeriesFlags.step(x)).p() < 0.05 ? 1 : 0;
            alike += value(SeriesFlags.neighbours(x)).p() < 0.05 ? 1 : 0;
        }
        assertThat(steps).isLessThan(50 + 21);
        assertThat(alike).isBetween(50 - 21, 50 + 21);
    }

    /** Huber's second proposal on copper in flour and in wholemeal (AMC, 1989), by R (hubers). */
    @Test
    void robustMeans() {
        final RobustSpread abbey =
                value(
                        RobustSpread.of(
                                5.2, 6.5, 6.9, 7, 7, 7, 7.4, 8, 8, 8, 8, 8.5, 9, 9, 10, 11, 11, 12,
                                12, 13.7, 14, 14, 14, 16, 17, 17, 18, 24, 28, 34, 125));
        final RobustSpread chem =
                value(
                        RobustSpread.of(
                                2.9, 3.1, 3.4, 3.4, 3.7, 3.7, 2.8, 2.5, 2.4, 2.4, 2.7, 2.2, 5.28,
                                3.37, 3.03, 3.03, 28.95, 3.77, 3.4, 2.2, 3.5, 3.6, 3.7, 3.7));

        assertDigits(6, 11.7315169, abbey.mean(), "mean of abbey");
        assertDigits(6, 5.258492739, abbey.sd(), "sd of abbey");
        assertDigits(6, 3.205498082, chem.mean(), "mean of chem");
        assertDigits(6, 0.6736526001, chem.sd(), "sd of chem");
        assertThat(chem.pulledIn()).isEqualTo(2);
        assertNot(RobustSpread.of(1, 1, 1, 5), Reason.NO_SCATTER);
    }
}
