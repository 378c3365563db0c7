package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import splitledger.Oracle;
import splitledger.statistics.Outcome.Reason;

class EqualMeansTest {
    private static Outcome<EqualMeans> ofGroups(double[]... groups) {
        final double[] means = new double[groups.length];
        final List<EqualMeans.Part> parts = new ArrayList<>();
        for (int i = 0; i < groups.length; i++) {
            final Moments m = Moments.ofAll(groups[i]);
            means[i] = m.mean();
            final double[][] own = new double[groups.length][groups.length];
            own[i][i] = m.variance() / m.count();
            parts.add(new EqualMeans.Part(own, m.count() - 1.0));
        }
        return EqualMeans.of(means, parts);
    }

    /**
     * Miller and Miller, Statistics and Chemometrics for Analytical Chemistry, thiol in lysate
     * (data and |t| = 8.48 from memory); degrees of freedom and p by t.test() of R.
     */
    @Test
    void twoGroupsGiveTheSquareOfWelchsT() {
        final EqualMeans test =
                Outcomes.value(
                        ofGroups(
                                new double[] {1.84, 1.92, 1.94, 1.92, 1.85, 1.91, 2.07},
                                new double[] {2.81, 4.06, 3.62, 3.27, 3.27, 3.76}));

        assertThat(Math.sqrt(test.statistic())).isCloseTo(8.477239299, within(1e-8));
        assertThat(test.denominator()).isCloseTo(5.25282985, within(1e-7));
        assertThat(test.p()).isCloseTo(0.0002936543061, within(1e-12));
    }

    @Test
    void threeLevelsAgreeWithAnIndependentProgram() {
        final EqualMeans test =
                Outcomes.value(
                        ofGroups(
                                new double[] {0.91, 0.97, 0.94},
                                new double[] {0.985, 0.955, 0.99, 0.962},
                                new double[] {0.931, 0.948, 0.951, 0.94, 0.936}));

        assertThat(test.statistic()).isCloseTo(oracle("F"), within(1e-12));
        assertThat(test.numerator()).isEqualTo(oracle("numerator"));
        assertThat(test.denominator()).isCloseTo(oracle("denominator"), within(1e-12));
        assertThat(test.p()).isCloseTo(oracle("p"), within(1e-12));
    }

    private static double oracle(String quantity) {
        return Oracle.lines("/oracle/recovery.csv").stream()
                .map(line -> line.split(",", -1))
                .filter(cells -> cells[0].equals("levels") && cells[1].equals(quantity))
                .mapToDouble(cells -> Double.parseDouble(cells[2]))
                .findFirst()
                .orElseThrow();
    }

    /** Adding one error to all estimates alike changes nothing in how far they are apart. */
    @Test
    void whatAllShareAlikeDoesNotCount() {
        final double[] values = {1, 1.2, 0.9};
        final List<EqualMeans.Part> own = new ArrayList<>();
        for (int i = 0; i < 3; i++) {
            final double[][] one = new double[3][3];
            one[i][i] = 0.01;
            own.add(new EqualMeans.Part(one, 4));
        }
        final EqualMeans alone = Outcomes.value(EqualMeans.of(values, own));
        final double[][] all = {{1, 1, 1}, {1, 1, 1}, {1, 1, 1}};
        own.add(new EqualMeans.Part(all, 2));
        final EqualMeans together = Outcomes.value(EqualMeans.of(values, own));

        assertThat(together.statistic()).isCloseTo(alone.statistic(), within(1e-9));
        assertThat(together.p()).isCloseTo(alone.p(), within(1e-9));
    }

    @Test
    void oneEstimateOrNoScatterCannotBeCompared() {
        Outcomes.assertNot(
                EqualMeans.of(new double[] {1}, List.of()), Reason.TOO_FEW_LEVELS, "found 1");
        Outcomes.assertNot(EqualMeans.of(new double[] {1, 2}, List.of()), Reason.NO_SCATTER);
    }
}
