package splitledger.propagation;

import java.util.Objects;

/**
 * One estimate of a variance, from which one or more roots take their size. Roots of one pool share
 * its degrees of freedom: Monte Carlo draws one chi-square for all of them (multivariate t).
 *
 * @param id unique name within an evaluation; orders pools
 * @param degreesOfFreedom {@code > 0}; positive infinity if the variance is taken as known
 * @param origin in words, where the variance comes from
 */
public record Pool(String id, double degreesOfFreedom, String origin) implements Comparable<Pool> {
    public Pool {
        Objects.requireNonNull(id, "id");
        Objects.requireNonNull(origin, "origin");
        if (!(degreesOfFreedom > 0)) {
            throw new IllegalArgumentException(
                    "degreesOfFreedom = " + degreesOfFreedom + ", must be > 0");
        }
    }

    /** A pool of known variance. */
    public static Pool known(String id, String origin) {
        return new Pool(id, Double.POSITIVE_INFINITY, origin);
    }

    @Override
    public int compareTo(Pool other) {
        return id.compareTo(other.id);
    }
}
