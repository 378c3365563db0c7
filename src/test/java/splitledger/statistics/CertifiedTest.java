package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static splitledger.Digits.assertDigits;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Certified values of the NIST Statistical Reference Datasets, 15 digits each, as printed in the
 * institute's files. The digits demanded are what was reached, rounded down, and never more than
 * the readings themselves hold as doubles.
 */
class CertifiedTest {

    /** Norris, linear regression of lower difficulty, 36 points. */
    @Test
    void theLineOfNorris() {
        final LineFit line =
                Outcomes.value(
                        LineFitter.withDefaults()
                                .fit(
                                        CertifiedSets.column("Norris", 0),
                                        CertifiedSets.column("Norris", 1)));

        assertThat(line.points()).isEqualTo(36);
        assertThat(line.degreesOfFreedom()).isEqualTo(34);
        // the intercept is 0.26 below means of 428: three digits go
        assertDigits(12, -0.262323073774029, line.intercept(), "B0");
        assertDigits(14, 1.00211681802045, line.slope(), "B1");
        assertDigits(13, 0.232818234301152, Math.sqrt(line.interceptVariance()), "sd of B0");
        assertDigits(13, 0.429796848199937e-3, Math.sqrt(line.slopeVariance()), "sd of B1");
        assertDigits(13, 0.884796396144373, line.residualSd(), "residual sd");
        assertDigits(13, 26.6173985294224, line.residualSquares(), "residual sum of squares");
        assertDigits(14, 0.999993745883712, line.rSquared(), "R-squared");
        assertDigits(
                14,
                4255954.13232369,
                line.totalSquares() - line.residualSquares(),
                "regression sum of squares");
        assertDigits(13, 5436385.54079785, line.slopeT() * line.slopeT(), "F");
    }

    /** Resistivity of silicon (SiRstv) and atomic weight of silver (AtmWtAg). */
    @ParameterizedTest
    @CsvSource({
        // set, between MS, within MS, residual sd, df between, df within, digits of both
        "SiRstv,  1.27865654000000E-02, 1.08318280000000E-02, 1.04076068334656E-01, 4, 20, 12, 12",
        "AtmWtAg, 3.63834187500000E-09, 2.28155932971014E-10, 1.51048314446410E-05, 1, 46, 10, 10"
    })
    void oneWayAnalysesOfMeasuredData(
            String set,
            double between,
            double within,
            double sd,
            int betweenDf,
            int withinDf,
            double betweenDigits,
            double withinDigits) {
        final CertifiedSets.OneWay data = CertifiedSets.oneWay(set);
        final ScatterMoments found = data.scatter();

        assertThat(found.degreesOfFreedom(0)).isEqualTo(betweenDf);
        assertThat(found.degreesOfFreedom(1)).isEqualTo(withinDf);
        assertDigits(betweenDigits, between, found.meanSquare(0), "between");
        assertDigits(withinDigits, within, found.meanSquare(1), "within");
        assertDigits(withinDigits, sd, Math.sqrt(found.meanSquare(1)), "sd");
        assertReachesWhatTheDoublesHold(data, 13);
    }

    /**
     * Simon and Lesage's sets. 1.3 is not a double, but near enough for 14 digits. 1000000.3 as a
     * double is off by up to 6e-11, against a spread of 0.1: about 9 digits are left.
     * 1000000000000.3 is off by up to 6e-5: 3 digits are left, and no arithmetic on doubles can
     * find the others. What the doubles themselves hold is found to 13 digits in all nine.
     */
    @ParameterizedTest
    @CsvSource({
        // set, leading digits, readings, between MS (within MS is 0.01 in all), digits
        "SmLs01, 1, 21, 0.21, 13",
        "SmLs02, 1, 201, 2.01, 13",
        "SmLs03, 1, 2001, 20.01, 13",
        "SmLs04, 1000000, 21, 0.21, 9",
        "SmLs05, 1000000, 201, 2.01, 9",
        "SmLs06, 1000000, 2001, 20.01, 9",
        "SmLs07, 1000000000000, 21, 0.21, 3",
        "SmLs08, 1000000000000, 201, 2.01, 3",
        "SmLs09, 1000000000000, 2001, 20.01, 3"
    })
    void oneWayAnalysesOfSimonAndLesage(
            String set, String leading, int readings, double between, double digits) {
        final CertifiedSets.OneWay data = CertifiedSets.simonLesage(leading, readings);
        final ScatterMoments found = data.scatter();

        assertThat(found.degreesOfFreedom(0)).isEqualTo(8);
        assertThat(found.degreesOfFreedom(1)).isEqualTo(9 * (readings - 1));
        assertDigits(digits, between, found.meanSquare(0), set + " between");
        assertDigits(digits, 0.01, found.meanSquare(1), set + " within");
        assertReachesWhatTheDoublesHold(data, 13);
    }

    private static void assertReachesWhatTheDoublesHold(CertifiedSets.OneWay data, double digits) {
        final ScatterMoments found = data.scatter();
        final ExactScatter exact = ExactScatter.of(data.y(), data.treatment());
        assertDigits(digits, exact.within(), found.meanSquare(1), "within, exact");
        assertDigits(digits, exact.between(), found.meanSquare(0), "between, exact");
    }

    @ParameterizedTest
    @CsvSource({
        "Lottery, 218, 518.958715596330, 291.699727470969",
        "Lew, 200, -177.435000000000, 277.332168044316",
        "Mavro, 50, 2.00185600000000, 0.000429123454003053",
        "Michelso, 100, 299.852400000000, 0.0790105478190518"
    })
    void meansAndStandardDeviationsOfMeasuredData(String set, int n, double mean, double sd) {
        final double[] y = CertifiedSets.column(set, 0);

        assertThat(y).hasSize(n);
        assertDigits(14, mean, Moments.ofAll(y).mean(), set + " mean");
        // Mavro: a spread of 4e-4 on 2.0 leaves 12 digits, Michelso 0.08 on 300 as many
        assertDigits(12, sd, Moments.ofAll(y).sd(), set + " sd");
    }

    @Test
    void meanAndStandardDeviationOfTheDigitsOfPi() {
        final Moments found = Moments.ofAll(CertifiedSets.digitsOfPi());

        assertThat(found.count()).isEqualTo(5000);
        assertDigits(15, 4.53480000000000, found.mean(), "mean");
        assertDigits(14, 2.86733906028871, found.sd(), "sd");
    }

    /** NumAcc1 to NumAcc4; the standard deviations of 3 and 4 suffer from the readings alone. */
    @Test
    void meansAndStandardDeviationsMadeToBeDifficult() {
        final Moments one = Moments.ofAll(10000001, 10000003, 10000002);
        assertThat(one.mean()).isEqualTo(10000002);
        assertThat(one.sd()).isEqualTo(1);

        final Moments two = Moments.ofAll(CertifiedSets.accuracy("1"));
        assertDigits(15, 1.2, two.mean(), "NumAcc2 mean");
        assertDigits(14, 0.1, two.sd(), "NumAcc2 sd");

        final Moments three = Moments.ofAll(CertifiedSets.accuracy("1000000"));
        assertDigits(15, 1000000.2, three.mean(), "NumAcc3 mean");
        assertDigits(9, 0.1, three.sd(), "NumAcc3 sd");

        final Moments four = Moments.ofAll(CertifiedSets.accuracy("10000000"));
        assertDigits(15, 10000000.2, four.mean(), "NumAcc4 mean");
        assertDigits(8, 0.1, four.sd(), "NumAcc4 sd");
    }
}
