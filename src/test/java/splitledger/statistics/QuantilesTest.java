package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static splitledger.Digits.assertDigits;

import java.util.Map;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.apache.commons.statistics.distribution.FDistribution;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.apache.commons.statistics.distribution.TDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import splitledger.Oracle;

/** Quantiles against printed tables, against R and against Commons Statistics (1e-12 relative). */
class QuantilesTest {
    private static final double[] PROBABILITIES = {
        1e-12, 1e-8, 1e-4, 0.005, 0.025, 0.1, 0.3, 0.5, 0.6, 0.9, 0.975, 0.995, 0.9999, 1 - 1e-8
    };

    /** One-sided 99 % t table of 40 CFR 136, Appendix B (as printed in Wis. Adm. Code NR 252). */
    @ParameterizedTest
    @CsvSource({
        "6, 3.143",
        "7, 2.998",
        "8, 2.896",
        "9, 2.821",
        "10, 2.764",
        "15, 2.602",
        "20, 2.528",
        "25, 2.485",
        "30, 2.457",
        "60, 2.390",
        "12, 2.681",
        "Infinity, 2.326"
    })
    void theTableOfTheMethodDetectionLimit(double df, double printed) {
        assertThat(Quantiles.t(0.99, df)).isCloseTo(printed, within(0.0005 + 1e-9));
    }

    /** Table G.2 of JCGM 100:2008 (from memory): t for 95 % and 99 %. */
    @ParameterizedTest
    @CsvSource({
        "1, 12.71, 63.66",
        "2, 4.30, 9.92",
        "5, 2.57, 4.03",
        "16, 2.12, 2.92",
        "50, 2.01, 2.68",
        "Infinity, 1.960, 2.576"
    })
    void coverageFactorsOfTheGuide(double df, double at95, double at99) {
        assertThat(Quantiles.coverageFactor(0.95, df)).isCloseTo(at95, within(0.005));
        assertThat(Quantiles.coverageFactor(0.99, df)).isCloseTo(at99, within(0.005));
    }

    /** Factors of 40 CFR 136, Appendix B (from memory): limits of an MDL from 7 aliquots. */
    @Test
    void chiSquareFactorsOfTheMethodDetectionLimit() {
        assertThat(Math.sqrt(6 / Quantiles.chiSquare(0.975, 6))).isCloseTo(0.64, within(0.005));
        assertThat(Math.sqrt(6 / Quantiles.chiSquare(0.025, 6))).isCloseTo(2.20, within(0.005));
    }

    @Test
    void quantilesOfR() {
        for (String law : new String[] {"t", "chi-square"}) {
            for (double df : new double[] {0.5, 1, 2, 2.5, 3, 5.29, 6, 24.7, 30, 300, 1000}) {
                final String name = df == Math.rint(df) ? Long.toString((long) df) : "" + df;
                for (Map.Entry<String, Double> e : Oracle.all(law + "-" + name).entrySet()) {
                    final double p = Double.parseDouble(e.getKey());
                    final double found =
                            law.equals("t") ? Quantiles.t(p, df) : Quantiles.chiSquare(p, df);
                    assertDigits(12, e.getValue(), found, law + " of " + p + ", " + df);
                }
            }
        }
    }

    @Test
    void tailsOfFOfR() {
        for (double f : new double[] {0.1, 1, 4.6, 50}) {
            final String name = f == Math.rint(f) ? Long.toString((long) f) : "" + f;
            assertDigits(
                    12,
                    Oracle.number("F-tail-5-24", name),
                    Quantiles.fTail(f, 5, 24),
                    "F tail at " + f);
        }
        assertDigits(
                12,
                Oracle.number("F-tail-11-26", "30.30122052"),
                Quantiles.fTail(30.30122052, 11, 26),
                "a tail of 5e-12");
    }

    @Test
    void normalQuantilesOfAnotherLibrary() {
        final NormalDistribution law = NormalDistribution.of(0, 1);
        for (double p : PROBABILITIES) {
            assertClose(law.inverseCumulativeProbability(p), Quantiles.normal(p), "p = " + p);
        }
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.7, 1, 2, 3, 4.5, 8, 16.7, 30, 100, 299, 301, 1234.5, 1e6, 1e9})
    void studentQuantilesAndTailsOfAnotherLibrary(double df) {
        final TDistribution law = TDistribution.of(df);
        for (double p : PROBABILITIES) {
            // its upper quantiles are best asked for by the upper tail
            final double t =
                    p > 0.5
                            ? law.inverseSurvivalProbability(1 - p)
                            : law.inverseCumulativeProbability(p);
            assertClose(t, Quantiles.t(p, df), "p = " + p);
            assertClose(law.survivalProbability(t), Quantiles.tTail(t, df), "tail at " + t);
            assertClose(
                    2 * law.survivalProbability(Math.abs(t)),
                    Quantiles.tTwoSidedTail(t, df),
                    "both tails at " + t);
        }
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.5, 1, 2, 3, 4.5, 8, 16.7, 30, 100, 1234.5})
    void chiSquareQuantilesOfAnotherLibrary(double df) {
        final ChiSquaredDistribution law = ChiSquaredDistribution.of(df);
        for (double p : PROBABILITIES) {
            assertClose(
                    law.inverseCumulativeProbability(p), Quantiles.chiSquare(p, df), "p = " + p);
        }
    }

    @ParameterizedTest
    @CsvSource({"1, 3", "1, 34", "5, 24", "8, 180", "8, 18000", "2.5, 7.5"})
    void tailsOfFOfAnotherLibrary(double numerator, double denominator) {
        final FDistribution law = FDistribution.of(numerator, denominator);
        for (double f : new double[] {1e-6, 0.01, 0.5, 1, 2, 10, 100, 2001}) {
            final double expected = law.survivalProbability(f);
            if (expected > 1e-290) {
                assertClose(expected, Quantiles.fTail(f, numerator, denominator), "F = " + f);
            }
        }
        assertThat(Quantiles.fTail(0, numerator, denominator)).isEqualTo(1);
    }

    @Test
    void manyDegreesOfFreedomJoinTheNormalWithoutAStep() {
        assertThat(Quantiles.t(0.975, 1e15)).isCloseTo(Quantiles.normal(0.975), within(1e-14));
        assertDigits(12, Quantiles.t(0.975, 300), Quantiles.t(0.975, 300.000000001), "t at 300");
        assertThat(Quantiles.t(0.975, Double.POSITIVE_INFINITY)).isEqualTo(Quantiles.normal(0.975));
    }

    /** A half-width of 1.96 u with 3 or 8 degrees of freedom: worked by hand. */
    @Test
    void coverageOfAFactorThatIgnoresDegreesOfFreedom() {
        assertThat(1 - Quantiles.tTwoSidedTail(1.96, 3)).isCloseTo(0.855, within(0.0005));
        assertThat(1 - Quantiles.tTwoSidedTail(1.96, 8)).isCloseTo(0.914, within(0.0005));
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, 1, -0.1, 1.5, Double.NaN})
    void aProbabilityOutsideIsRefused(double p) {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> Quantiles.chiSquare(p, 3))
                .withMessageContaining("p = " + p);
        assertThatIllegalArgumentException().isThrownBy(() -> Quantiles.normal(p));
        assertThatIllegalArgumentException().isThrownBy(() -> Quantiles.t(p, 3));
    }

    private static void assertClose(double expected, double actual, String what) {
        if (Math.abs(expected) < 1e-14) {
            assertThat(actual).as(what).isCloseTo(expected, within(1e-14));
        } else {
            assertDigits(12, expected, actual, what);
        }
    }
}
