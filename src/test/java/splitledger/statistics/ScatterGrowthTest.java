package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static splitledger.Digits.assertDigits;
import static splitledger.statistics.CalibrationOracle.X;
import static splitledger.statistics.CalibrationOracle.Y;

import org.junit.jupiter.api.Test;

class ScatterGrowthTest {
    private static final double[] ONES = CalibrationOracle.ones(18);

    @Test
    void theBoundaryLawIsHalfAChiSquare() {
        final ScatterGrowth found =
                ScatterGrowth.byBoundaryLaw(ScatterFitterTest.fit(MeanLaw.LINE, X, Y, ONES));

        assertDigits(8, CalibrationOracle.number("two-component-line", "growth-p"), found.p(), "p");
        assertThat(found.repetitions()).isZero();
    }

    @Test
    void simulatedResponsesAgreeOnGrowingScatter() {
        final ScatterGrowth found =
                ScatterGrowth.byBootstrap(MeanLaw.LINE, X, Y, ONES, RandomStream.of(21, 0), 199);

        assertThat(found.p()).isEqualTo(1.0 / 200);
    }

    /** Under the same scatter everywhere p is at most 0.1 in a tenth of all studies. */
    @Test
    void withoutGrowthTheProbabilityIsUniform() {
        final RandomStream stream = RandomStream.of(22, 0);
        final int studies = 200;
        int low = 0;
        for (int k = 0; k < studies; k++) {
            final double[] y = new double[X.length];
            for (int i = 0; i < y.length; i++) {
                y[i] = 2 * X[i] + 0.1 * stream.nextNormal();
            }
            if (ScatterGrowth.byBootstrap(MeanLaw.LINE, X, y, ONES, stream, 39).p() <= 0.1) {
                low++;
            }
        }
        final double standardError = Math.sqrt(0.1 * 0.9 / studies);
        assertThat((double) low / studies)
                .isBetween(0.1 - 3 * standardError, 0.1 + 3 * standardError);
    }
}
