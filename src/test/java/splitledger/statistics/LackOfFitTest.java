package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static splitledger.Digits.assertDigits;
import static splitledger.statistics.Outcomes.assertNot;
import static splitledger.statistics.Outcomes.value;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import splitledger.Oracle;
import splitledger.statistics.Outcome.Reason;

class LackOfFitTest {
    private static Outcome<LackOfFit> test(Weighting weighting, double[] x, double[] y) {
        return LackOfFit.of(LineFitterTest.fit(weighting, x, y), x, y);
    }

    @Test
    void isTestedAgainstPreparations() {
        // worked by hand: means of preparations (10, 11) (19.5, 20.5) (31, 32)
        final LackOfFit found =
                value(
                        test(
                                Weighting.NONE,
                                new double[] {1, 1, 2, 2, 3, 3},
                                new double[] {10, 11, 19.5, 20.5, 31, 32}));

        assertThat(found.f()).isCloseTo(2.667, within(0.0005));
        assertThat(found.numerator()).isEqualTo(1);
        assertThat(found.denominator()).isEqualTo(3);
        assertThat(found.p()).isCloseTo(0.201, within(0.0005));
    }

    @Test
    void onePreparationALevelCannotTestLinearity() {
        // worked by hand
        assertNot(
                test(Weighting.NONE, new double[] {1, 2, 3, 4}, new double[] {1, 2, 2.9, 4.1}),
                Reason.ONE_PREPARATION_A_LEVEL,
                "injections cannot test linearity");
    }

    @Test
    void twoLevelsCannotTestLinearity() {
        assertNot(
                test(Weighting.NONE, new double[] {1, 1, 2, 2}, new double[] {1, 1.1, 2, 2.1}),
                Reason.TOO_FEW_LEVELS,
                "3 levels, found 2");
    }

    @Test
    void preparationsThatAgreeExactlyGiveNoScatterToTestAgainst() {
        assertNot(
                test(
                        Weighting.NONE,
                        new double[] {1, 1, 2, 2, 3, 3},
                        new double[] {1, 1, 2, 2, 4, 4}),
                Reason.NO_SCATTER);
    }

    /** anova() of R between line and level means, weights 1/x^p. */
    @ParameterizedTest
    @EnumSource
    void comparisonOfModelsInR(Weighting weighting) {
        final String name = "line-weights-" + weighting.power();
        final LackOfFit found = value(test(weighting, LineFitterTest.X, LineFitterTest.Y));

        assertDigits(11, Oracle.number(name, "lack-of-fit-F"), found.f(), "F");
        assertDigits(11, Oracle.number(name, "lack-of-fit-p"), found.p(), "p");
    }
}
