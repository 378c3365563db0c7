package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static splitledger.Digits.assertDigits;
import static splitledger.statistics.PrecisionSets.oracle;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ScatterRemlTest {

    /** Printed in the documentation of mixed-model programs; from memory, half a last digit. */
    @Test
    void publishedDataSets() {
        final ScatterReml dye = PrecisionSets.dyestuff().reml();
        assertThat(dye.variance(0)).isCloseTo(1764, within(0.5));
        assertThat(dye.variance(1)).isCloseTo(2451, within(0.5));
        assertThat(-2 * dye.logLikelihood()).isCloseTo(319.65, within(0.005));

        final ScatterReml none = PrecisionSets.dyestuff2().reml();
        assertThat(none.variance(0)).isZero();
        assertThat(none.variance(1)).isCloseTo(13.81, within(0.005));

        final ScatterReml rail = PrecisionSets.rail().reml();
        assertThat(Math.sqrt(rail.variance(0))).isCloseTo(24.80547, within(5e-6));
        assertThat(Math.sqrt(rail.variance(1))).isCloseTo(4.020779, within(5e-7));
        assertThat(rail.logLikelihood()).isCloseTo(-61.0885, within(5e-5));

        final ScatterReml penicillin = PrecisionSets.penicillin().reml();
        assertThat(Math.sqrt(penicillin.variance(0))).isCloseTo(0.8467, within(5e-5));
        assertThat(Math.sqrt(penicillin.variance(1))).isCloseTo(1.9316, within(5e-5));
        assertThat(Math.sqrt(penicillin.variance(2))).isCloseTo(0.5499, within(5e-5));

        final ScatterReml laboratories = PrecisionSets.laboratories().reml();
        assertThat(Math.sqrt(laboratories.variance(0))).isCloseTo(0.24529, within(5e-6));
        assertThat(Math.sqrt(laboratories.variance(1))).isCloseTo(0.073267, within(5e-7));
        assertThat(Math.sqrt(laboratories.variance(2))).isCloseTo(0.079355, within(5e-7));
    }

    /** Worked by hand: the interaction and the analyst at 0, so 12/9 = 1.333 and (64 - 1.333)/4. */
    @Test
    void crossedFactorsWorkedByHand() {
        final ScatterReml found = PrecisionSets.sameForBothAnalysts().reml();

        assertThat(found.variance(0)).isCloseTo(15.666667, within(1e-6));
        assertThat(found.variance(1)).isZero();
        assertThat(found.variance(2)).isZero();
        assertThat(found.variance(3)).isCloseTo(1.333333, within(1e-6));
    }

    /** Dense matrices over all rows and general searches, in R. */
    @ParameterizedTest
    @CsvSource({"precision-nested, 3", "precision-crossed, 5"})
    void unbalancedDataAgreeWithDenseMatrices(String name, int components) {
        final ScatterReml found =
                (components == 3
                                ? PrecisionSets.unbalancedNested()
                                : PrecisionSets.unbalancedCrossed())
                        .reml();
        final double[][] covariance = found.covariance();
        assertDigits(11, oracle(name, "log-likelihood"), found.logLikelihood(), "likelihood");
        for (int k = 0; k < components; k++) {
            assertDigits(9, oracle(name, "variance-" + (k + 1)), found.variance(k), "variance");
            for (int l = 0; l <= k; l++) {
                assertDigits(
                        8,
                        oracle(name, "covariance-" + (k + 1) + "-" + (l + 1)),
                        covariance[k][l],
                        "covariance " + k + " " + l);
            }
        }
    }

    /** The profile searched by general means from three starts, and its ends by bisection, in R. */
    @Test
    void intervalOfASumAgreesWithAGeneralSearch() {
        final PrecisionSets.Data data = PrecisionSets.unbalancedNested();
        final ScatterComponent found = data.reml().sum(data.all(), 0.95);

        assertDigits(9, oracle("precision-nested", "sum"), found.variance(), "sum");
        assertDigits(6, oracle("precision-nested", "sum-lower"), found.lower(), "lower end");
        assertDigits(6, oracle("precision-nested", "sum-upper"), found.upper(), "upper end");
    }

    @Test
    void aSingleVarianceHasItsChiSquareInterval() {
        final double[] y = {10.1, 10.4, 9.8, 10.9, 10.3, 9.7};
        final PrecisionSets.Data data = new PrecisionSets.Data(PrecisionSets.structure(), y);
        final VarianceEstimate plain = new VarianceEstimate(Moments.ofAll(y).variance(), 5);
        final ScatterComponent reml = data.reml().sum(new double[] {1}, 0.9);
        final ScatterComponent moments = data.moments().component(0, 0.9);

        assertDigits(7, plain.sdLower(0.9), reml.sdLower(), "lower end, likelihood");
        assertDigits(7, plain.sdUpper(0.9), reml.sdUpper(), "upper end, likelihood");
        assertDigits(12, plain.sdLower(0.9), moments.sdLower(), "lower end, moments");
        assertDigits(12, plain.sdUpper(0.9), moments.sdUpper(), "upper end, moments");
        assertDigits(12, 5, reml.degreesOfFreedom(), "degrees of freedom");
    }

    @Test
    void inBalancedDataBothMethodsAgreeWhereNothingIsNegative() {
        final PrecisionSets.Data data = PrecisionSets.waste();
        for (int k = 0; k < 3; k++) {
            assertDigits(12, data.moments().raw(k), data.reml().variance(k), "component " + k);
            assertDigits(
                    11,
                    data.moments().covariance(k, k),
                    data.reml().covariance()[k][k],
                    "its variance");
        }
    }

    @Test
    void sharesOfTheVarianceAddUp() {
        final PrecisionSets.Data data = PrecisionSets.unbalancedCrossed();
        final ScatterReml found = data.reml();
        final ScatterComponent total = found.sum(data.all(), 0.95);
        double sum = 0;
        for (int k = 0; k < 5; k++) {
            sum += found.component(k, 0.95).shareOf(total);
        }
        assertDigits(13, 1, sum, "sum of shares");
    }

    @Test
    void aComponentLiesWithinItsInterval() {
        final ScatterReml found = PrecisionSets.unbalancedCrossed().reml();
        for (int k = 0; k < 5; k++) {
            final ScatterComponent c = found.component(k, 0.95);
            assertThat(c.lower()).isBetween(0.0, c.variance());
            assertThat(c.upper()).isGreaterThan(c.variance()).isFinite();
            assertThat(c.sdUncertainty()).isPositive();
        }
    }
}
