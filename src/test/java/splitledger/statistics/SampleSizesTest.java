package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import java.util.OptionalInt;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import splitledger.Oracle;

/** Sizes of studies against published tables, an independent program, and simulation. */
class SampleSizesTest {
    private static final Map<String, Double> R = new TreeMap<>();

    static {
        for (String line : Oracle.lines("/oracle/sizes.csv")) {
            final String[] cells = line.split(",", -1);
            if (!cells[2].equals("value")) {
                R.put(cells[0] + "," + cells[1], Double.parseDouble(cells[2]));
            }
        }
    }

    private static double number(String key) {
        final Double found = R.get(key);
        if (found == null) {
            throw new IllegalArgumentException("no number " + key);
        }
        return found;
    }

    private static int whole(String key) {
        return (int) Math.rint(number(key));
    }

    /** JCGM 100:2008, table E.1, whole percent; from memory. */
    @ParameterizedTest(name = "{0} observations: {1} %")
    @CsvSource({"2, 76", "3, 52", "4, 42", "5, 36", "10, 24", "20, 16", "30, 13", "50, 10"})
    void theSpreadOfAStandardDeviationIsThatOfThePublishedTable(int n, int percent) {
        assertThat(100 * SampleSizes.spreadOfSd(n - 1.0)).isCloseTo(percent, within(0.5));
    }

    /**
     * Sizes of two-period crossover studies, margins 0.80 and 1.25, power 0.8, each test at 0.05,
     * true ratio 0.95: Diletti, Hauschke, Steinijans, Int. J. Clin. Pharmacol. 29 (1991) 1, from
     * memory. The standard error is sd(log) sqrt(2/n) with n - 2 degrees of freedom.
     */
    @ParameterizedTest(name = "coefficient of variation {0} %: {1}")
    @CsvSource({"15, 12", "17.5, 16", "20, 20", "22.5, 24", "25, 28", "27.5, 34", "30, 40"})
    void equivalenceNeedsTheSizesOfThePublishedTable(double percent, int wanted) {
        final double cv = percent / 100;
        final double sd = StrictMath.sqrt(StrictMath.log1p(cv * cv));
        int n = 4;
        while (crossover(sd, n) < 0.8) {
            n += 2;
        }

        assertThat(n).isEqualTo(wanted);
    }

    private static double crossover(double sd, int n) {
        final double margin = StrictMath.log(1.25);
        return EquivalencePower.of(
                -margin, margin, StrictMath.log(0.95), sd * Math.sqrt(2.0 / n), n - 2.0, 0.05);
    }

    /** Parameters as in the script beside the numbers. */
    @ParameterizedTest(name = "case {0}")
    @CsvSource({
        "tost-1, -0.1, 0.1, 0, 0.03, 10, 0.05",
        "tost-2, -0.1, 0.1, 0.02, 0.05, 4, 0.05",
        "tost-3, -0.05, 0.08, 0.01, 0.02, 30, 0.025",
        "tost-4, -0.1, 0.1, 0, 0.08, 6, 0.05"
    })
    void powerOfEquivalenceIsThatOfTheIndependentProgram(
            String name, double low, double high, double d, double u, double df, double risk) {
        assertThat(EquivalencePower.of(low, high, d, u, df, risk))
                .isCloseTo(number(name + ",power"), within(2e-7));
    }

    @ParameterizedTest(name = "difference {0}")
    @CsvSource({"0.5", "1", "2"})
    void sizesAndPowerOfADifferenceAreThoseOfTheIndependentProgram(String d) {
        final double difference = Double.parseDouble(d);
        final int n = whole("difference-" + d + ",n");

        assertThat(SampleSizes.forDifference(1, difference, 0.05, 0.9)).hasValue(n);
        assertThat(SampleSizes.powerOfDifference(1, difference, n, 0.05))
                .isCloseTo(number("difference-" + d + ",power"), within(1e-9));
    }

    @Test
    void sizesOfMeansAndStandardDeviationsAreThoseFoundByCounting() {
        for (String w : new String[] {"0.3", "0.5", "1"}) {
            assertThat(SampleSizes.forMean(1, Double.parseDouble(w), 0.95))
                    .hasValue(whole("mean-" + w + ",n"));
        }
        for (String f : new String[] {"1.2", "1.5", "2"}) {
            assertThat(SampleSizes.forSd(Double.parseDouble(f), 0.95))
                    .hasValue(whole("sd-" + f + ",df"));
        }
    }

    @Test
    void whatCannotBeReachedIsEmptyAndNonsenseIsRefused() {
        assertThat(SampleSizes.forMean(1, 1e-6, 0.95)).isEqualTo(OptionalInt.empty());
        assertThat(EquivalencePower.needed(-0.01, 0.01, 0, 1, 0.05, 0.9, 50)).isEmpty();
        assertThatThrownBy(() -> SampleSizes.forSd(1, 0.95)).hasMessageContaining("factor = 1");
        assertThatThrownBy(() -> SampleSizes.forMean(Double.NaN, 1, 0.95))
                .hasMessageContaining("sd = NaN");
    }

    @ParameterizedTest(name = "{0} blanks")
    @CsvSource({"5", "10", "20"})
    void theDetectionLimitIsThatOfTheIndependentProgram(int n) {
        assertThat(SampleSizes.detectionLimit(1, n, 1, 0.05, 0.05))
                .isCloseTo(number("blanks-" + n + ",limit"), within(1e-8));
    }

    /** 2000 simulated studies; the band is 4 standard errors of the share. */
    @Test
    void asManyStudiesAsPromisedFindTheWantedDetectionLimit() {
        final SampleSizes.Risks risks = new SampleSizes.Risks(0.05, 0.05, 0.8);
        final int n = SampleSizes.blanks(1, 4.2, 1, risks, 10, 200).orElseThrow();
        final double promised = SampleSizes.chanceOfLimit(1, 4.2, n, 1, risks);
        final RandomStream random = RandomStream.of(14, 1);
        final int studies = 2000;
        int kept = 0;
        final double factor = SampleSizes.detectionLimit(1, n, 1, 0.05, 0.05);
        for (int i = 0; i < studies; i++) {
            double sum = 0;
            double squares = 0;
            for (int k = 0; k < n; k++) {
                final double x = random.nextNormal();
                sum += x;
                squares += x * x;
            }
            final double s = Math.sqrt((squares - sum * sum / n) / (n - 1));
            kept += factor * s <= 4.2 ? 1 : 0;
        }

        assertThat(promised).isBetween(0.8, 0.9);
        assertThat((double) kept / studies)
                .isCloseTo(promised, within(4 * Math.sqrt(promised * (1 - promised) / studies)));
        assertThat(SampleSizes.chanceOfLimit(1, 4.2, n - 1, 1, risks)).isLessThan(0.8);
    }

    /** 4000 simulated checks; the band is 4 standard errors of the share. */
    @Test
    void asManyChecksAsPromisedShowEquivalence() {
        final int n = EquivalencePower.needed(-0.1, 0.1, 0.02, 0.05, 0.05, 0.8, 100).orElseThrow();
        final double u = 0.05 * Math.sqrt(2.0 / n);
        final double df = 2.0 * n - 2;
        final double power = EquivalencePower.of(-0.1, 0.1, 0.02, u, df, 0.05);
        final double t = Quantiles.t(0.95, df);
        final RandomStream random = RandomStream.of(14, 2);
        int shown = 0;
        for (int i = 0; i < 4000; i++) {
            final double d = 0.02 + u * random.nextNormal();
            final double half = t * u * Math.sqrt(random.nextChiSquare(df) / df);
            shown += d - half > -0.1 && d + half < 0.1 ? 1 : 0;
        }

        assertThat(power).isGreaterThanOrEqualTo(0.8);
        assertThat(shown / 4000.0)
                .isCloseTo(power, within(4 * Math.sqrt(power * (1 - power) / 4000)));
    }

    @Test
    void powerGoesToTheNormalLawWithManyDegreesOfFreedom() {
        assertThat(EquivalencePower.of(-1, 1, 0.1, 0.3, 1e6, 0.05))
                .isCloseTo(
                        EquivalencePower.of(-1, 1, 0.1, 0.3, Double.POSITIVE_INFINITY, 0.05),
                        within(1e-5));
    }
}
