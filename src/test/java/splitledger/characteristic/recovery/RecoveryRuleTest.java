package splitledger.characteristic.recovery;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Optional;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.statistics.Moments;

/** Significance of a recovery and both ways to treat it, against published examples. */
class RecoveryRuleTest {
    private static Root root(String id, double degreesOfFreedom) {
        return Root.normal(
                id,
                new Pool(id, degreesOfFreedom, "test"),
                Effect.PREPARATION,
                ActsOn.REFERENCE,
                "test");
    }

    private static RecoveryRule rule(double value, double sd, int n) {
        return new RecoveryRule(
                Uncertain.of(value, "1", root("own", n - 1.0), sd / Math.sqrt(n)), 0.95);
    }

    /**
     * EURACHEM/CITAC Guide CG 4, QUAM:2012, example A4 (from memory): mean recovery 0.90, standard
     * deviation 0.28, 42 recoveries; t = 2.315 above t(95 %, 41), for which the guide prints 2.021.
     */
    @Test
    void thePublishedRecoveryOfAResidueInBreadDiffersFromOne() {
        final RecoveryRule rule = rule(0.90, 0.28, 42);

        assertThat(rule.recovery().standardUncertainty()).isCloseTo(0.0432, within(5e-5));
        assertThat(rule.t()).isCloseTo(2.315, within(5e-4));
        assertThat(rule.factor()).isCloseTo(2.01954097, within(1e-8));
        assertThat(rule.isSignificant()).isTrue();
        assertThat(rule.words(Optional.empty()))
                .contains("= 2.31, above t = 2.02", "differs from 1; the same with k = 2");
    }

    /**
     * Miller and Miller, Statistics and Chemometrics for Analytical Chemistry, paired comparison of
     * paracetamol contents (from memory): mean difference 0.159, t = 0.88; p by t.test() of R.
     */
    @Test
    void aPublishedPairedComparisonShowsNoDifference() {
        final double[] one = {84.63, 84.38, 84.08, 84.41, 83.82, 83.55, 83.92, 83.69, 84.06, 84.03};
        final double[] two = {83.15, 83.72, 83.84, 84.20, 83.92, 84.16, 84.02, 83.60, 84.13, 84.24};
        final double[] shifted = new double[one.length];
        for (int i = 0; i < one.length; i++) {
            shifted[i] = 1 + one[i] - two[i];
        }
        final Moments m = Moments.ofAll(shifted);
        final RecoveryRule rule = rule(m.mean(), m.sd(), m.count());

        assertThat(rule.t()).isCloseTo(0.8821105399, within(1e-9));
        assertThat(rule.p()).isCloseTo(0.4006626577, within(1e-9));
        assertThat(rule.isSignificant()).isFalse();
        assertThat(rule.included("deviation").standardUncertainty())
                .isEqualTo(rule.recovery().standardUncertainty());
    }

    @Test
    void aDeviationThatIsNotCorrectedAddsHalfOfItself() {
        final Uncertain included = rule(0.90, 0.28, 42).included("deviation");

        assertThat(included.value()).isEqualTo(1);
        assertThat(included.variance()).isCloseTo(0.28 * 0.28 / 42 + 0.0025, within(1e-12));
    }

    /** Worked by hand: found 9.5 with u 0.1, certified 10 with u 0.2; 0.5 against 2 sqrt(0.05). */
    @Test
    void theGuideOfCertifiedMaterialsComparesWithTwiceBothUncertainties() {
        final TreeMap<Root, Double> parts = new TreeMap<>();
        parts.put(root("own", 5), 0.1 / 10);
        parts.put(root(ReferenceRecovery.ROOTS + "c", 1e9), 0.95 * 0.2 / 10);
        final RecoveryRule rule = new RecoveryRule(Uncertain.of(0.95, "1", parts), 0.95);

        assertThat(rule.comparison())
                .contains("difference 0.05 of the reference value against 2 u of both, 0.0447")
                .contains("differs");
    }

    @Test
    void rangesByMassFractionAreThoseOfTheNearestRow() {
        assertThat(RecoveryRange.of(0.012)).isEqualTo(new RecoveryRange(97, 103, 0.01));
        assertThat(RecoveryRange.of(1e-8)).isEqualTo(new RecoveryRange(60, 115, 1e-8));
        assertThat(RecoveryRange.of(1)).isEqualTo(new RecoveryRange(98, 102, 1));
        assertThat(RecoveryRange.of(0.01).words(0.95))
                .contains("97 to 103 %; observed 95 %, outside it");
    }
}
