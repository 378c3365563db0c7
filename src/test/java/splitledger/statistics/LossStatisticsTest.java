package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static splitledger.Digits.assertDigits;

import java.util.Arrays;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import splitledger.Oracle;

/** Against R ({@code oracle/losses.csv}), published kinetics, and cases worked by hand. */
class LossStatisticsTest {
    private static final double[] X = {-0.21, -0.13, -0.04, 0.02, 0.14, 0.22};
    private static final double[] SCATTERED = {-1.03, -1.86, -2.49, -3.21, -4.28, -4.83};
    private static final double[] OFF = {0.001, -0.004, 0.006, -0.003, 0.011, -0.02};
    private static final double[] VARIANCES = {0.0004, 0.0006, 0.0009, 0.0016, 0.0049, 0.0121};
    private static final double R = 8.31446261815324;
    private static final Map<String, Double> NUMBERS = read();

    private static Map<String, Double> read() {
        final Map<String, Double> numbers = new TreeMap<>();
        Oracle.lines("/oracle/losses.csv").stream()
                .skip(1)
                .map(line -> line.split(",", -1))
                .forEach(c -> numbers.put(c[0] + "," + c[1], Double.parseDouble(c[2])));
        return numbers;
    }

    private static double oracle(String name, String quantity) {
        return NUMBERS.getOrDefault(name + "," + quantity, Double.NaN);
    }

    private static UnevenLine line(double[] x, double[] y, double[] variances) {
        final double[][] rows =
                Arrays.stream(x).mapToObj(v -> new double[] {1, v}).toArray(double[][]::new);
        return Outcomes.value(UnevenLine.fit(rows, y, variances));
    }

    private static void assertLine(String name, UnevenLine line) {
        assertThat(line.between()).as(name).isCloseTo(oracle(name, "between"), within(1e-9));
        assertDigits(9, oracle(name, "level"), line.coefficient(0), "level");
        assertDigits(9, oracle(name, "slope"), line.coefficient(1), "slope");
        assertDigits(8, oracle(name, "level-u"), Math.sqrt(line.covariance(0, 0)), "level-u");
        assertDigits(8, oracle(name, "slope-u"), Math.sqrt(line.covariance(1, 1)), "slope-u");
        assertDigits(7, oracle(name, "covariance"), line.covariance(0, 1), "covariance");
    }

    @Test
    void aLineWithScatterBetweenSettingsIsThatOfTheOracle() {
        assertLine("scattered", line(X, SCATTERED, VARIANCES));
    }

    @Test
    void aLineThatScattersLessThanItsPointsIsWeightedByThemAndScaledByItsResiduals() {
        final double[] y = new double[X.length];
        for (int i = 0; i < y.length; i++) {
            y[i] = -3.02 - 9.4 * X[i] + OFF[i];
        }
        assertLine("quiet", line(X, y, VARIANCES));
    }

    @Test
    void theTestOfCurvatureIsThatOfTheOracle() {
        final double[][] rows =
                Arrays.stream(X).mapToObj(v -> new double[] {1, v, v * v}).toArray(double[][]::new);
        final UnevenLine bent = Outcomes.value(UnevenLine.fit(rows, SCATTERED, VARIANCES));

        assertThat(bent.between()).isCloseTo(oracle("bent", "between"), within(1e-9));
        assertDigits(7, oracle("bent", "p"), bent.p(2), "p");
        assertDigits(8, oracle("bent", "covariance"), bent.covariance(0, 1), "covariance");
    }

    @Test
    void theWeightsOfAllValuesInACoefficientGiveThatCoefficient() {
        final UnevenLine line = line(X, SCATTERED, VARIANCES);

        for (int k = 0; k < 2; k++) {
            double sum = 0;
            for (int i = 0; i < X.length; i++) {
                sum += line.solution().get(k).get(i) * SCATTERED[i];
            }
            assertThat(sum).isCloseTo(line.coefficient(k), within(1e-12));
        }
    }

    @Test
    void twoValuesLeaveNoScatterAboutALine() {
        Outcomes.assertNot(
                UnevenLine.fit(
                        new double[][] {{1, 0}, {1, 1}}, new double[] {1, 2}, new double[] {1, 1}),
                Outcome.Reason.TOO_FEW_POINTS);
        Outcomes.assertNot(
                UnevenLine.fit(
                        new double[][] {{1, 0}, {1, 1}, {1, 2}}, new double[3], new double[3]),
                Outcome.Reason.NO_SCATTER);
    }

    @Test
    void whereALineCrossesAValueItsSetIsFiellers() {
        final UnevenLine line = line(X, SCATTERED, VARIANCES);
        final double k = Quantiles.coverageFactor(0.95, line.degreesOfFreedom());
        final CrossingRange range =
                CrossingRange.of(
                        z -> line.coefficient(0) - line.coefficient(1) * z + 2.9,
                        z ->
                                k
                                        * Math.sqrt(
                                                line.covariance(0, 0)
                                                        - 2 * z * line.covariance(0, 1)
                                                        + z * z * line.covariance(1, 1)),
                        -0.22,
                        0.21);

        assertThat(range.value().getAsDouble())
                .isCloseTo(oracle("crossing", "value"), within(1e-11));
        assertThat(range.lower().getAsDouble())
                .isCloseTo(oracle("crossing", "fieller-lower"), within(1e-10))
                .isCloseTo(oracle("crossing", "lower"), within(1e-10));
        assertThat(range.upper().getAsDouble())
                .isCloseTo(oracle("crossing", "fieller-upper"), within(1e-10));
    }

    /** h = x - 1 with k u = 0.5: the set is 0.5 to 1.5. */
    @Test
    void anEndOutsideTheRangeIsOpenAndNothingIsExtrapolated() {
        final CrossingRange cut = CrossingRange.of(x -> x - 1, x -> 0.5, 0.8, 3);
        assertThat(cut.value()).hasValue(1);
        assertThat(cut.lower()).isEmpty();
        assertThat(cut.upper().getAsDouble()).isCloseTo(1.5, within(1e-12));

        final CrossingRange above = CrossingRange.of(x -> x - 1, x -> 0.5, 0, 0.7);
        assertThat(above.value()).isEmpty();
        assertThat(above.below()).isFalse();
        assertThat(above.lower().getAsDouble()).isCloseTo(0.5, within(1e-12));
        assertThat(above.upper()).isEmpty();

        final CrossingRange far = CrossingRange.of(x -> x - 1, x -> 0.5, 2, 3);
        assertThat(far.below()).isTrue();
        assertThat(far.upper()).hasValue(2);
        assertThat(far.lower()).isEmpty();

        final CrossingRange notReached = CrossingRange.of(x -> x - 1, x -> 0.5, -1, 0.2);
        assertThat(notReached.lower()).hasValue(0.2);
        assertThat(notReached.upper()).isEmpty();
    }

    @Test
    void aVarianceOfTwoPartsAndItsDegreesOfFreedomAreThoseOfTheOracle() {
        final LevelVariance law =
                Outcomes.value(
                        LevelVariance.of(
                                new double[] {0.02, 0.04, 0.08, 0.14, 0.2, 0.24},
                                new double[] {1.1e-6, 0.7e-6, 1.9e-6, 2.2e-6, 5.1e-6, 4.4e-6},
                                new double[] {2, 2, 2, 3, 2, 2}));

        assertDigits(5, oracle("two-parts", "constant"), law.constant(), "constant");
        assertDigits(5, oracle("two-parts", "proportional"), law.proportional(), "proportional");
        assertDigits(5, oracle("two-parts", "df-0.02"), law.degreesOfFreedom(0.02), "df");
        assertDigits(5, oracle("two-parts", "df-0.14"), law.degreesOfFreedom(0.14), "df");
    }

    @Test
    void atOneLevelTheVarianceIsThePooledOneWithAllDegreesOfFreedom() {
        final LevelVariance law =
                Outcomes.value(
                        LevelVariance.of(
                                new double[] {0.1, 0.1}, new double[] {4, 1}, new double[] {2, 1}));

        assertThat(law.variance(0.1)).isCloseTo(3, within(1e-15));
        assertThat(law.degreesOfFreedom(0.1)).isCloseTo(3, within(1e-12));
        Outcomes.assertNot(
                LevelVariance.of(new double[] {0.1}, new double[] {0}, new double[] {0}),
                Outcome.Reason.TOO_FEW_INJECTIONS);
        Outcomes.assertNot(
                LevelVariance.of(new double[] {0.1}, new double[] {0}, new double[] {2}),
                Outcome.Reason.NO_SCATTER);
    }

    /** Rates as textbooks tabulate them, from memory; energies in kJ/mol. */
    private static void assertKinetics(
            double[] kelvin, double[] rates, double energy, double within, double exact, double u) {
        final double[] x = Arrays.stream(kelvin).map(t -> 1 / t).toArray();
        final double[] y = Arrays.stream(rates).map(StrictMath::log).toArray();
        final double[] same = new double[x.length];
        Arrays.fill(same, 1e-4);
        final UnevenLine line = line(x, y, same);
        final double found = -R * line.coefficient(1) / 1000;

        assertThat(found).isCloseTo(energy, within(within));
        // unweighted least squares in R
        assertDigits(7, exact, found, "activation energy");
        assertDigits(6, u, R / 1000 * Math.sqrt(line.covariance(1, 1)), "its uncertainty");
    }

    /** F. Daniels and E. H. Johnston, J. Am. Chem. Soc. 43 (1921) 53, as textbooks give it. */
    @Test
    void theDecompositionOfDinitrogenPentoxideIsFoundAsPublished() {
        assertKinetics(
                new double[] {273, 298, 308, 318, 328, 338},
                new double[] {7.87e-7, 3.46e-5, 1.35e-4, 4.98e-4, 1.5e-3, 4.87e-3},
                103,
                0.7,
                102.897859,
                0.4713285125);
    }

    /** A textbook's exercise, from memory: about 160 kJ/mol by graph. */
    @Test
    void theIsomerisationOfMethylIsonitrileIsFoundAsPublished() {
        assertKinetics(
                new double[] {462.85, 472.05, 503.45, 524.35},
                new double[] {2.52e-5, 5.25e-5, 6.30e-4, 3.16e-3},
                160,
                5,
                158.3913232,
                2.586187018);
    }

    /** A textbook's example, from memory: 189 kJ/mol. */
    @Test
    void theDecompositionOfAcetaldehydeIsFoundAsPublished() {
        assertKinetics(
                new double[] {700, 730, 760, 790, 810, 840, 910, 1000},
                new double[] {0.011, 0.035, 0.105, 0.343, 0.789, 2.17, 20, 145},
                189,
                1,
                188.3287741,
                2.834609339);
    }
}
