package splitledger.statistics;

import java.util.List;
import java.util.OptionalInt;
import org.apache.commons.math3.util.FastMath;

/**
 * Equivalence of two occasions on the logarithm, against a relative margin: the response stays
 * within 1 - margin and 1 + margin of what it was. Two one-sided tests (Schuirmann, J.
 * Pharmacokinet. Biopharm. 15 (1987) 657, from memory), each at the full risk; several members are
 * all equivalent only if each is (intersection-union, Berger, Technometrics 24 (1982) 295, from
 * memory), so that nothing is adjusted for their number.
 */
public final class LadderEquivalence {
    /** Injections an occasion beyond which none are asked for. */
    public static final int MOST = 200;

    private final double low;
    private final double high;
    private final double risk;

    /** A margin and a risk, both between 0 and 1. */
    public LadderEquivalence(double margin, double risk) {
        if (!(margin > 0 && margin < 1 && risk > 0 && risk < 0.5)) {
            throw new IllegalArgumentException(
                    "margin = " + margin + ", risk = " + risk + ", must lie between 0 and 1 (0.5)");
        }
        low = FastMath.log1p(-margin);
        high = FastMath.log1p(margin);
        this.risk = risk;
    }

    /** Change of a member's log response. */
    public record Change(double value, double standardUncertainty, double degreesOfFreedom) {}

    /** What all members together say. */
    public enum Decision {
        /** Every member is shown to be within the margin. */
        RESTORED,
        /** Some member is shown to be outside. */
        NOT_RESTORED,
        /** Neither is shown. */
        UNDECIDED
    }

    /** The larger of the two one-sided probabilities. */
    public double p(Change c) {
        if (!(c.standardUncertainty() > 0)) {
            return c.value() > low && c.value() < high ? 0 : 1;
        }
        return Math.max(
                Quantiles.tTail((c.value() - low) / c.standardUncertainty(), c.degreesOfFreedom()),
                Quantiles.tTail(
                        (high - c.value()) / c.standardUncertainty(), c.degreesOfFreedom()));
    }

    /** Whether a member is shown to be outside, the risk shared between {@code members}. */
    public boolean outside(Change c, int members) {
        final double half =
                c.standardUncertainty() > 0
                        ? Quantiles.t(1 - risk / (2.0 * members), c.degreesOfFreedom())
                                * c.standardUncertainty()
                        : 0;
        return c.value() - half > high || c.value() + half < low;
    }

    /** Decides. */
    public Decision decide(List<Change> changes) {
        if (!changes.isEmpty() && changes.stream().allMatch(c -> p(c) <= risk)) {
            return Decision.RESTORED;
        }
        return changes.stream().anyMatch(c -> outside(c, changes.size()))
                ? Decision.NOT_RESTORED
                : Decision.UNDECIDED;
    }

    /**
     * A lower bound of the probability that a member is shown to be within the margin when nothing
     * changed: 1 less both one-sided probabilities of missing it, by the noncentral t.
     *
     * @param sd of one injection, log response
     * @param occasionSd of an occasion, taken as known; 0 if it is left out
     * @param n injections an occasion, at least 2
     */
    public double power(double sd, double occasionSd, int n) {
        final double within = 2 * sd * sd / n;
        final double total = within + 2 * occasionSd * occasionSd;
        if (!(total > 0)) {
            return 1;
        }
        final double df = 2.0 * (n - 1) * (total / within) * (total / within);
        final double t = Quantiles.t(1 - risk, df);
        final double u = Math.sqrt(total);
        return Math.max(
                0,
                1
                        - NoncentralT.cumulative(t, df, -low / u)
                        - NoncentralT.cumulative(t, df, high / u));
    }

    /** Fewest injections an occasion for this power; empty if {@link #MOST} do not give it. */
    public OptionalInt needed(double sd, double occasionSd, double power) {
        for (int n = 2; n <= MOST; n++) {
            if (power(sd, occasionSd, n) >= power) {
                return OptionalInt.of(n);
            }
        }
        return OptionalInt.empty();
    }
}
