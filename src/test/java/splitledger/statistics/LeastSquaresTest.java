package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static splitledger.Digits.assertDigits;
import static splitledger.statistics.CertifiedSets.column;
import static splitledger.statistics.Outcomes.assertNot;
import static splitledger.statistics.Outcomes.value;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import splitledger.statistics.Outcome.Reason;

/**
 * Regressions of higher difficulty of the NIST Statistical Reference Datasets, 15 digits certified.
 * The digits demanded are what was reached, rounded down.
 */
class LeastSquaresTest {
    private static final double[] FILIP = {
        -1467.48961422980,
        -2772.17959193342,
        -2316.37108160893,
        -1127.97394098372,
        -354.478233703349,
        -75.1242017393757,
        -10.8753180355343,
        -1.06221498588947,
        -0.670191154593408E-01,
        -0.246781078275479E-02,
        -0.402962525080404E-04
    };

    private static final double[] FILIP_SD = {
        298.084530995537,
        559.779865474950,
        466.477572127796,
        227.204274477751,
        71.6478660875927,
        15.2897178747400,
        2.23691159816033,
        0.221624321934227,
        0.142363763154724E-01,
        0.535617408889821E-03,
        0.896632837373868E-05
    };

    private static final double[] LONGLEY = {
        -3482258.63459582,
        15.0618722713733,
        -0.358191792925910E-01,
        -2.02022980381683,
        -1.03322686717359,
        -0.511041056535807E-01,
        1829.15146461355
    };

    private static final double[] LONGLEY_SD = {
        890420.383607373,
        84.9149257747669,
        0.334910077722432E-01,
        0.488399681651699,
        0.214274163161675,
        0.226073200069370,
        455.478499142212
    };

    private static final double[] WAMPLER_SD = {
        2152.32624678170,
        2363.55173469681,
        779.343524331583,
        101.475507550350,
        5.64566512170752,
        0.112324854679312
    };

    /** Filip: a polynomial of degree 10; x is no exact double, which costs some digits. */
    @Test
    void thePolynomialOfFilip() {
        final LeastSquares found =
                value(LeastSquares.polynomial(column("Filip", 0), column("Filip", 1), 10));

        for (int k = 0; k <= 10; k++) {
            assertDigits(FILIP_DIGITS, FILIP[k], found.coefficients().get(k), "B" + k);
            assertDigits(FILIP_DIGITS, FILIP_SD[k], found.standardUncertainties().get(k), "sd" + k);
        }
        assertDigits(12, 0.334801051324544E-02, found.residualSd(), "residual sd");
        assertThat(found.degreesOfFreedom()).isEqualTo(71);
    }

    private static final double FILIP_DIGITS = 13;

    @Test
    void theSixRegressorsOfLongley() {
        final double[][] columns = new double[7][];
        columns[0] = CalibrationOracle.ones(16);
        for (int k = 1; k <= 6; k++) {
            columns[k] = column("Longley", k);
        }
        final LeastSquares found = value(LeastSquares.of(columns, column("Longley", 0)));

        for (int k = 0; k <= 6; k++) {
            assertDigits(14, LONGLEY[k], found.coefficients().get(k), "B" + k);
            assertDigits(14, LONGLEY_SD[k], found.standardUncertainties().get(k), "sd" + k);
        }
        assertDigits(14, 304.854073561965, found.residualSd(), "residual sd");
    }

    /** Wampler1 and 2 lie on their curves; 3 to 5 scatter 1, 100 and 10000 times as much. */
    @ParameterizedTest
    @CsvSource({"1, 1, 0", "2, 0.1, 0", "3, 1, 1", "4, 1, 100", "5, 1, 10000"})
    void thePolynomialsOfWampler(int set, double ratio, double scatter) {
        final LeastSquares found =
                value(LeastSquares.polynomial(column("Wampler", 0), column("Wampler", set), 5));

        for (int k = 0; k <= 5; k++) {
            // 0.1^k are no doubles in Wampler2's responses
            assertDigits(
                    set == 2 ? 13 : 14,
                    StrictMath.pow(ratio, k),
                    found.coefficients().get(k),
                    "B" + k);
            if (scatter > 0) {
                assertDigits(
                        14,
                        scatter * WAMPLER_SD[k],
                        found.standardUncertainties().get(k),
                        "sd" + k);
            }
        }
        if (scatter > 0) {
            assertDigits(14, scatter * 2360.14502379268, found.residualSd(), "residual sd");
        } else {
            assertThat(found.residualSd()).isLessThan(1e-11);
        }
    }

    @Test
    void dependentColumnsAndTooFewPointsSaySo() {
        final double[] x = {1, 2, 3, 4};

        assertNot(LeastSquares.polynomial(x, x, 3), Reason.TOO_FEW_POINTS);
        assertNot(
                LeastSquares.of(
                        new double[][] {x, Arrays.stream(x).map(v -> 2 * v).toArray()},
                        new double[] {1, 2, 3, 5}),
                Reason.NO_SPREAD_IN_X);
    }
}
