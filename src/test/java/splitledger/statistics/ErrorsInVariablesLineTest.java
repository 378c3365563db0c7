package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import splitledger.statistics.Outcome.Computed;
import splitledger.statistics.Outcome.NotComputed;

/** Straight lines with errors in both coordinates, against published values. */
class ErrorsInVariablesLineTest {
    private static final double[] X = {0, 0.9, 1.8, 2.6, 3.3, 4.4, 5.2, 6.1, 6.5, 7.4};
    private static final double[] Y = {5.9, 5.4, 4.4, 4.6, 3.5, 3.7, 2.8, 2.8, 2.4, 1.5};
    private static final double[] WX = {1000, 1000, 500, 800, 200, 80, 60, 20, 1.8, 1};
    private static final double[] WY = {1, 1.8, 4, 8, 20, 20, 70, 70, 100, 500};

    private static double[] u(double[] weights) {
        final double[] u = new double[weights.length];
        java.util.Arrays.setAll(u, i -> 1 / Math.sqrt(weights[i]));
        return u;
    }

    private static ErrorsInVariablesLine line(double[] x, double[] y, double[] ux, double[] uy) {
        return ((Computed<ErrorsInVariablesLine>)
                        ErrorsInVariablesLine.independent(x, y, ux, uy, new double[x.length]))
                .value();
    }

    /**
     * Pearson's data of 1901 with the weights of York 1966; values of York et al., Am. J. Phys. 72
     * (2004) 367; standard uncertainties by their formulas, not scaled by the residuals.
     */
    @Test
    void pearsonsDataWithYorksWeightsGiveThePublishedLine() {
        final ErrorsInVariablesLine line = line(X, Y, u(WX), u(WY));

        assertThat(line.intercept()).isCloseTo(5.47991022403, within(1e-11));
        assertThat(line.slope()).isCloseTo(-0.48053340745, within(1e-11));
        assertThat(line.interceptUncertainty()).isCloseTo(0.294970735, within(1e-9));
        assertThat(line.slopeUncertainty()).isCloseTo(0.0579850090, within(1e-10));
        assertThat(line.chiSquare() / line.degreesOfFreedom()).isCloseTo(1.483294149, within(1e-9));
        assertThat(line.chiSquare()).isCloseTo(11.86635, within(5e-6));
    }

    /** ISO/TS 28037:2010, clause 7: data and results from memory. */
    @Test
    void errorsOfBothCoordinatesAsInClauseSevenGiveItsResults() {
        final ErrorsInVariablesLine line =
                line(
                        new double[] {1.2, 1.9, 2.9, 4, 4.7, 5.9},
                        new double[] {3.4, 4.4, 7.2, 8.5, 10.8, 13.5},
                        new double[] {0.2, 0.2, 0.2, 0.2, 0.2, 0.2},
                        new double[] {0.2, 0.2, 0.2, 0.4, 0.4, 0.4});

        assertThat(line.intercept()).isCloseTo(0.5788, within(5e-5));
        assertThat(line.slope()).isCloseTo(2.1597, within(5e-5));
        assertThat(line.interceptUncertainty()).isCloseTo(0.4764, within(5e-5));
        assertThat(line.slopeUncertainty()).isCloseTo(0.1355, within(5e-5));
        assertThat(line.covariance()).isCloseTo(-0.0577, within(5e-5));
        assertThat(line.chiSquare()).isCloseTo(2.743, within(5e-4));
    }

    /** ISO/TS 28037:2010, clause 6.3: data and results from memory. */
    @Test
    void errorsOfTheOrdinateAloneGiveTheWeightedLine() {
        final double[] x = {1, 2, 3, 4, 5, 6};
        final ErrorsInVariablesLine equal =
                line(
                        x,
                        new double[] {3.3, 5.6, 7.1, 9.3, 10.7, 12.1},
                        new double[6],
                        new double[] {0.5, 0.5, 0.5, 0.5, 0.5, 0.5});
        final ErrorsInVariablesLine unequal =
                line(
                        x,
                        new double[] {3.2, 4.3, 7.6, 8.6, 11.7, 12.8},
                        new double[6],
                        new double[] {0.5, 0.5, 0.5, 1, 1, 1});

        assertThat(equal.intercept()).isCloseTo(1.867, within(5e-4));
        assertThat(equal.slope()).isCloseTo(1.757, within(5e-4));
        assertThat(equal.interceptUncertainty()).isCloseTo(0.465, within(5e-4));
        assertThat(equal.slopeUncertainty()).isCloseTo(0.120, within(5e-4));
        assertThat(equal.covariance()).isCloseTo(-0.050, within(5e-4));
        assertThat(equal.chiSquare()).isCloseTo(1.665, within(5e-4));
        assertThat(unequal.intercept()).isCloseTo(0.885, within(5e-4));
        assertThat(unequal.slope()).isCloseTo(2.057, within(5e-4));
        assertThat(unequal.interceptUncertainty()).isCloseTo(0.530, within(5e-4));
        assertThat(unequal.slopeUncertainty()).isCloseTo(0.178, within(5e-4));
        assertThat(unequal.covariance()).isCloseTo(-0.082, within(5e-4));
        assertThat(unequal.chiSquare()).isCloseTo(4.131, within(5e-4));
    }

    /** An error that all ordinates share moves the line up and down: by hand. */
    @Test
    void anErrorSharedByAllOrdinatesGoesIntoTheInterceptAlone() {
        final double[] x = {1, 2, 3, 4};
        final double[] y = {2.1, 3.9, 6.2, 7.8};
        final double[][] own = new double[4][4];
        final double[][] shared = new double[4][4];
        for (int i = 0; i < 4; i++) {
            for (int k = 0; k < 4; k++) {
                own[i][k] = i == k ? 0.04 : 0;
                shared[i][k] = own[i][k] + 0.09;
            }
        }
        final double[][] none = new double[4][4];
        final var alone =
                ((Computed<ErrorsInVariablesLine>) ErrorsInVariablesLine.fit(x, y, none, none, own))
                        .value();
        final var together =
                ((Computed<ErrorsInVariablesLine>)
                                ErrorsInVariablesLine.fit(x, y, none, none, shared))
                        .value();

        assertThat(together.slope()).isCloseTo(alone.slope(), within(1e-12));
        assertThat(together.slopeUncertainty()).isCloseTo(alone.slopeUncertainty(), within(1e-12));
        assertThat(together.interceptUncertainty())
                .isCloseTo(
                        Math.sqrt(
                                alone.interceptUncertainty() * alone.interceptUncertainty() + 0.09),
                        within(1e-12));
    }

    @Test
    void twoPointsAndEqualAbscissasGiveNoLine() {
        final double[] one = {1, 1};
        final double[] three = {1, 1, 1};

        assertThat(ErrorsInVariablesLine.independent(one, one, one, one, new double[2]))
                .isInstanceOf(NotComputed.class);
        assertThat(ErrorsInVariablesLine.independent(three, three, three, three, new double[3]))
                .isInstanceOf(NotComputed.class);
    }
}
