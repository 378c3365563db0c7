package splitledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.util.FastMath;
import org.junit.jupiter.api.Test;
import splitledger.Oracle;
import splitledger.statistics.LadderEquivalence.Change;
import splitledger.statistics.LadderEquivalence.Decision;

class LadderEquivalenceTest {
    private static final LadderEquivalence FIVE_PERCENT = new LadderEquivalence(0.05, 0.05);

    private static double oracle(String name, String quantity) {
        return Oracle.lines("/oracle/ladder.csv").stream()
                .map(line -> line.split(",", -1))
                .filter(c -> c[0].equals(name) && c[1].equals(quantity))
                .mapToDouble(c -> Double.parseDouble(c[2]))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void twoOneSidedTestsHaveTheProbabilityOfTheOracle() {
        final Change change =
                new Change(oracle("welch", "change"), oracle("welch", "u"), oracle("welch", "df"));

        assertThat(FIVE_PERCENT.p(change)).isCloseTo(oracle("welch", "p"), within(1e-12));
    }

    @Test
    void powerIsThatOfTheOracle() {
        assertThat(FIVE_PERCENT.power(0.02, 0, 5)).isCloseTo(oracle("power", "n5"), within(1e-9));
        assertThat(FIVE_PERCENT.power(0.02, 0, 6)).isCloseTo(oracle("power", "n6"), within(1e-9));
        assertThat(FIVE_PERCENT.needed(0.02, 0, 0.9)).hasValue((int) oracle("power", "needed"));
    }

    @Test
    void scatterBetweenOccasionsCannotBeInjectedAway() {
        assertThat(FIVE_PERCENT.needed(0.01, 0.03, 0.9)).isEmpty();
    }

    @Test
    void theCaseOfEquivalenceWorkedByHandIsMet() {
        // deviation 0, u 0.0025, 3 degrees of freedom, margin 0.0066 (on the logarithm nearly so)
        final LadderEquivalence test = new LadderEquivalence(0.0066, 0.05);

        assertThat(test.p(new Change(0, 0.0025, 3))).isCloseTo(0.0388, within(4e-4));
        assertThat(test.p(new Change(-0.004, 0.0025, 3))).isCloseTo(0.187, within(2e-3));
        assertThat(test.decide(List.of(new Change(0, 0.0025, 3)))).isEqualTo(Decision.RESTORED);
        assertThat(test.decide(List.of(new Change(-0.004, 0.0025, 3))))
                .isEqualTo(Decision.UNDECIDED);
        assertThat(test.decide(List.of(new Change(0, 0.0001, 3), new Change(-0.02, 0.0025, 30))))
                .isEqualTo(Decision.NOT_RESTORED);
    }

    @Test
    void nothingIsRestoredWithoutAResponse() {
        assertThat(FIVE_PERCENT.decide(List.of())).isEqualTo(Decision.UNDECIDED);
    }

    /** One compound at the margin, all others unchanged: the worst case for a false "restored". */
    @Test
    void atTheMarginAFalseRestoredIsNoMoreLikelyThanItsRisk() {
        assertThat(restored(FastMath.log(0.95), 0, 4000, 6))
                .isLessThan(0.05 + 2.6 * Math.sqrt(0.05 * 0.95 / 4000));
    }

    @Test
    void atTheMarginWithScatterBetweenOccasionsItIsNoMoreLikelyEither() {
        assertThat(restored(FastMath.log(0.95), 0.01, 4000, 6))
                .isLessThan(0.05 + 2.6 * Math.sqrt(0.05 * 0.95 / 4000));
    }

    /** The bound of the power holds, and is not far below what is reached by one compound. */
    @Test
    void theShareOfUnchangedResponsesShownToBeUnchangedIsThePowerThatIsPromised() {
        final double promised = FIVE_PERCENT.power(0.02, 0, 6);
        final double reached = alone(6, 4000);

        assertThat(reached).isBetween(promised - 0.03, promised + 0.03);
    }

    private static double alone(int n, int studies) {
        int shown = 0;
        for (int s = 0; s < studies; s++) {
            final RandomStream random = RandomStream.of(77, s);
            if (FIVE_PERCENT.p(change(random, 0, 0, 0, 0.02, 0, n)) <= 0.05) {
                shown++;
            }
        }
        return shown / (double) studies;
    }

    private static double restored(double shift, double occasionSd, int studies, int n) {
        int restored = 0;
        for (int s = 0; s < studies; s++) {
            final RandomStream random = RandomStream.of(99, s);
            final double before = occasionSd * random.nextNormal();
            final double after = occasionSd * random.nextNormal();
            final List<Change> changes = new ArrayList<>();
            for (int member = 0; member < 3; member++) {
                changes.add(
                        change(
                                random,
                                member == 0 ? shift : 0,
                                before,
                                after,
                                0.01,
                                occasionSd,
                                n));
            }
            if (FIVE_PERCENT.decide(changes) == Decision.RESTORED) {
                restored++;
            }
        }
        return restored / (double) studies;
    }

    private static Change change(
            RandomStream random,
            double shift,
            double before,
            double after,
            double sd,
            double occasionSd,
            int n) {
        Moments a = Moments.of(before + sd * random.nextNormal());
        Moments b = Moments.of(shift + after + sd * random.nextNormal());
        for (int i = 1; i < n; i++) {
            a = a.with(Moments.of(before + sd * random.nextNormal()));
            b = b.with(Moments.of(shift + after + sd * random.nextNormal()));
        }
        final double va = a.variance() / n;
        final double vb = b.variance() / n;
        final double known = 2 * occasionSd * occasionSd;
        final double total = va + vb + known;
        return new Change(
                b.mean() - a.mean(),
                Math.sqrt(total),
                total * total / ((va * va + vb * vb) / (n - 1)));
    }
}
