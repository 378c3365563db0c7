package splitledger.propagation;

import java.util.Objects;

/**
 * One independent cause of error, standardised to mean 0 and variance 1. Two roots with the same id
 * are the same cause.
 *
 * @param id unique name within an evaluation; orders roots
 * @param pool the variance estimate its size comes from
 * @param effect what makes the value uncertain
 * @param actsOn which side it acts on
 * @param shape distribution of the standardised cause (given its pool's variance)
 * @param source in words, where the size is stated or estimated
 */
public record Root(String id, Pool pool, Effect effect, ActsOn actsOn, Shape shape, String source)
        implements Comparable<Root> {
    public Root {
        Objects.requireNonNull(id, "id");
        Objects.requireNonNull(pool, "pool");
        Objects.requireNonNull(effect, "effect");
        Objects.requireNonNull(actsOn, "actsOn");
        Objects.requireNonNull(shape, "shape");
        Objects.requireNonNull(source, "source");
    }

    /** A normal root. */
    public static Root normal(String id, Pool pool, Effect effect, ActsOn actsOn, String source) {
        return new Root(id, pool, effect, actsOn, new Shape.Normal(), source);
    }

    @Override
    public int compareTo(Root other) {
        return id.compareTo(other.id);
    }
}
