package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static splitledger.Digits.assertDigits;
import static splitledger.statistics.Outcomes.assertNot;
import static splitledger.statistics.Outcomes.value;

import org.junit.jupiter.api.Test;
import splitledger.Oracle;
import splitledger.statistics.Outcome.Reason;

class WeightEvidenceTest {

    /** Difference of restricted log-likelihoods by the general matrix formula in R. */
    @Test
    void fromPreparationsItIsTheRestrictedLikelihoodOfLevelMeans() {
        final WeightEvidence found = value(WeightEvidence.of(LineFitterTest.X, LineFitterTest.Y));
        final double expected = Oracle.number("evidence-preparations", "inverse-square-minus-none");

        assertThat(found.fromPreparations()).isTrue();
        assertThat(found.degreesOfFreedom()).isEqualTo(6);
        assertDigits(
                11,
                expected,
                found.logLikelihoodInverseSquare() - found.logLikelihoodNone(),
                "difference");
        assertThat(found.favoured()).isEqualTo(Weighting.INVERSE_SQUARE);
        assertDigits(10, StrictMath.exp(expected), found.ratio(), "ratio");
    }

    @Test
    void withoutRepeatedLevelsItIsThatOfTheResiduals() {
        final WeightEvidence found =
                value(
                        WeightEvidence.of(
                                new double[] {1, 2, 4, 7, 11, 16},
                                new double[] {3.2, 5.1, 9.9, 16.8, 26.1, 35.7}));

        assertThat(found.fromPreparations()).isFalse();
        assertThat(found.degreesOfFreedom()).isEqualTo(4);
        assertDigits(
                11,
                Oracle.number("evidence-residuals", "inverse-square-minus-none"),
                found.logLikelihoodInverseSquare() - found.logLikelihoodNone(),
                "difference");
    }

    @Test
    void anotherUnitOfTheAmountLeavesItAsItIs() {
        final double[] other =
                java.util.Arrays.stream(LineFitterTest.X).map(x -> 1000 * x).toArray();

        assertDigits(
                11,
                value(WeightEvidence.of(LineFitterTest.X, LineFitterTest.Y)).ratio(),
                value(WeightEvidence.of(other, LineFitterTest.Y)).ratio(),
                "ratio");
    }

    @Test
    void equalScatterAtAllLevelsSpeaksForNoWeights() {
        final double[] x = {1, 1, 10, 10, 100, 100};
        final double[] y = {1, 1.2, 10, 10.2, 100, 100.2};

        assertThat(value(WeightEvidence.of(x, y)).favoured()).isEqualTo(Weighting.NONE);
    }

    @Test
    void dataWithoutScatterOrWithTooFewPointsSaySo() {
        assertNot(
                WeightEvidence.of(new double[] {1, 1, 2, 2}, new double[] {1, 1, 3, 3}),
                Reason.NO_SCATTER);
        assertNot(
                WeightEvidence.of(new double[] {1, 2, 3, 4}, new double[] {1, 2, 3, 4}),
                Reason.NO_SCATTER);
        assertNot(
                WeightEvidence.of(new double[] {1, 2, 3}, new double[] {1, 2, 3.1}),
                Reason.TOO_FEW_POINTS);
    }
}
