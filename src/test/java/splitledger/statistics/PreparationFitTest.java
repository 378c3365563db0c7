package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static splitledger.Digits.assertDigits;
import static splitledger.statistics.CalibrationOracle.X;
import static splitledger.statistics.CalibrationOracle.Y;
import static splitledger.statistics.Outcomes.assertNot;
import static splitledger.statistics.Outcomes.value;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.ScatterLaw.Form;

class PreparationFitTest {

    @Test
    void equalNumbersOfInjectionsLeaveTheFitOfTheMeans() {
        final int[] counts = new int[18];
        Arrays.fill(counts, 2);
        final double[] squares = new double[18];
        Arrays.fill(squares, 0.001);
        final PreparationFit found =
                value(PreparationFit.of(ScatterFitter.withDefaults(), X, Y, squares, counts));
        final ScatterFit means =
                ScatterFitterTest.fit(MeanLaw.LINE, X, Y, CalibrationOracle.ones(18));

        assertThat(found.fit().law()).isEqualTo(means.law());
        assertThat(found.share().usual()).isCloseTo(2, within(1e-12));
        assertThat(found.share().degreesOfFreedom()).isEqualTo(18);
        assertThat(found.share().of(2)).isCloseTo(1, within(1e-12));
        assertThat(found.share().of(1)).isGreaterThan(1);
    }

    /** Variance of preparation 0.03, of injection 0.08; m0 of one, two, four is 12/7. */
    @Test
    void unequalNumbersOfInjectionsGiveBackTheScatterThatWasPutIn() {
        final RandomStream stream = RandomStream.of(31, 0);
        final int n = 900;
        final double[] x = new double[n];
        final double[] y = new double[n];
        final double[] squares = new double[n];
        final int[] counts = new int[n];
        for (int i = 0; i < n; i++) {
            x[i] = 1 + i % 10;
            counts[i] = new int[] {1, 2, 4}[i / 10 % 3];
            final double own = 5 + 3 * x[i] + Math.sqrt(0.03) * stream.nextNormal();
            final double[] injections = new double[counts[i]];
            for (int j = 0; j < counts[i]; j++) {
                injections[j] = own + Math.sqrt(0.08) * stream.nextNormal();
            }
            final Moments m = Moments.ofAll(injections);
            y[i] = m.mean();
            squares[i] = m.squares();
        }
        final PreparationFit found =
                value(
                        PreparationFit.of(
                                ScatterFitter.withDefaults().withForm(Form.CONSTANT),
                                x,
                                y,
                                squares,
                                counts));
        final double mean = 0.03 + 0.08 * 7 / 12;
        final double lambda = 0.08 / mean;

        assertDigits(10, 12.0 / 7, found.share().usual(), "m0");
        // relative standard errors sqrt(2/898) and sqrt(2/1200), and their sum in lambda
        assertThat(found.fit().law().constant()).isCloseTo(mean, within(4 * 0.0472 * mean));
        assertThat(found.share().lambda())
                .isCloseTo(lambda, within(4 * Math.hypot(0.0472, 0.0408) * lambda));
        assertThat(found.share().of(1)).isGreaterThan(found.share().of(4));
    }

    @Test
    void withOneInjectionEachNothingIsKnownOfInjections() {
        final int[] counts = new int[18];
        Arrays.fill(counts, 1);
        final PreparationFit found =
                value(
                        PreparationFit.of(
                                ScatterFitter.withDefaults(), X, Y, new double[18], counts));

        assertThat(found.share().degreesOfFreedom()).isZero();
        assertThat(found.share().lambda()).isZero();
    }

    @Test
    void aFitThatCannotBeMadeGivesItsReason() {
        assertNot(
                PreparationFit.of(
                        ScatterFitter.withDefaults(),
                        new double[] {1, 2, 3},
                        new double[] {1, 2, 3.1},
                        new double[3],
                        new int[] {1, 2, 1}),
                Reason.TOO_FEW_POINTS);
    }
}
