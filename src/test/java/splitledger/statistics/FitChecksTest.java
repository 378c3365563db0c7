package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static splitledger.Digits.assertDigits;
import static splitledger.statistics.CalibrationOracle.X;
import static splitledger.statistics.CalibrationOracle.Y;
import static splitledger.statistics.CalibrationOracle.number;
import static splitledger.statistics.Outcomes.assertNot;
import static splitledger.statistics.Outcomes.value;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.ScatterLaw.Form;

class FitChecksTest {

    private static FitChecks both() {
        final double[] ones = CalibrationOracle.ones(18);
        return FitChecks.of(ScatterFitterTest.fit(MeanLaw.LINE, X, Y, ones), X, Y, ones);
    }

    /** anova(), hatvalues() and cooks.distance() of R with the weights of the REML fit. */
    @Test
    void testsAndInfluencesAreThoseOfR() {
        final FitChecks checks = both();

        final LackOfFit fit = value(checks.lackOfFit());
        assertDigits(7, number("checks", "lack-of-fit-F"), fit.f(), "F");
        assertDigits(8, number("checks", "lack-of-fit-p"), fit.p(), "p");
        final LackOfFit curve = value(checks.curvature());
        // the gain is 1e-5 of what is left: digits go in the difference
        assertThat(curve.f()).isCloseTo(number("checks", "curvature-F"), within(1e-9));
        assertDigits(5, number("checks", "curvature-p"), curve.p(), "p");
        for (int i : new int[] {1, 8, 16}) {
            assertDigits(
                    8, number("checks", "leverage-" + i), checks.leverages()[i - 1], "leverage");
            assertDigits(
                    7, number("checks", "influence-" + i), checks.influences()[i - 1], "influence");
        }
        assertThat(Arrays.stream(checks.leverages()).sum()).isCloseTo(2, within(1e-12));
    }

    /** Preparation means 10 11, 19.5 20.5, 31 32 at 1 2 3; worked by hand. */
    @Test
    void lackOfFitIsJudgedAgainstPreparations() {
        final double[] x = {1, 1, 2, 2, 3, 3};
        final double[] y = {10, 11, 19.5, 20.5, 31, 32};
        final ScatterFit fit =
                value(ScatterFitter.withDefaults().withForm(Form.CONSTANT).fit(x, y));
        final LackOfFit found =
                value(FitChecks.of(fit, x, y, CalibrationOracle.ones(6)).lackOfFit());

        assertThat(found.f()).isCloseTo(2.667, within(5e-4));
        assertThat(found.p()).isCloseTo(0.201, within(5e-4));
        // level means 10.5, 20, 31.5 and the line 10.1667, 20.6667, 31.1667 through them
        assertThat(FitChecks.of(fit, x, y, CalibrationOracle.ones(6)).backCalculated())
                .hasEntrySatisfying(2.0, d -> assertThat(d).isCloseTo(-0.031746, within(1e-6)));
    }

    @Test
    void onePreparationALevelCannotTestLinearity() {
        final double[] x = {1, 2, 3, 4};
        final double[] y = {1, 2.1, 2.9, 4.2};
        final ScatterFit fit =
                value(ScatterFitter.withDefaults().withForm(Form.CONSTANT).fit(x, y));

        assertNot(
                FitChecks.of(fit, x, y, CalibrationOracle.ones(4)).lackOfFit(),
                Reason.ONE_PREPARATION_A_LEVEL);
    }

    /** Rank correlation and ratio by R; a permutation p of data without order is not small. */
    @Test
    void residualsWithoutATrendInRunOrder() {
        final RunOrder found =
                value(RunOrder.of(both().standardisedResiduals(), RandomStream.of(5, 0), 999));

        assertDigits(9, number("checks", "spearman"), found.correlation(), "rho");
        assertDigits(7, number("checks", "von-neumann"), found.ratio(), "ratio");
        assertThat(found.trendP()).isGreaterThan(0.5);
        assertThat(found.neighbourP()).isGreaterThan(0.9);
    }

    @Test
    void aDriftIsSeen() {
        final double[] drifting = {-2, -1.1, -1.3, -0.4, 0.1, -0.2, 0.7, 0.6, 1.5, 2.1};
        final RunOrder found = value(RunOrder.of(drifting, RandomStream.of(5, 0), 999));

        // ranks 1 3 2 4 6 5 8 7 9 10: rho = 1 - 6 * 6 / 990
        assertThat(found.correlation()).isCloseTo(1 - 36.0 / 990, within(1e-12));
        assertThat(found.trendP()).isLessThanOrEqualTo(0.002);
        assertThat(found.neighbourP()).isLessThanOrEqualTo(0.005);
        assertNot(
                RunOrder.of(new double[] {1, 2, 3, 4}, RandomStream.of(5, 0), 9),
                Reason.TOO_FEW_POINTS);
        assertNot(
                RunOrder.of(new double[] {1, 1, 1, 1, 1}, RandomStream.of(5, 0), 9),
                Reason.NO_SCATTER);
    }

    @Test
    void aSortedRunOfFiveIsAsRareAsItsPermutationsSay() {
        final RunOrder found =
                value(RunOrder.of(new double[] {1, 2, 3, 4, 5}, RandomStream.of(6, 0), 20000));

        // only the rising and the falling order reach |rho| = 1, and only these have steps of 1
        final double exact = 2.0 / 120;
        final double standardError = Math.sqrt(exact * (1 - exact) / 20000);
        assertThat(found.trendP()).isCloseTo(exact, within(4 * standardError));
        assertThat(found.neighbourP()).isCloseTo(exact, within(4 * standardError));
    }
}
