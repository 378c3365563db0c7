package splitledger.virtual;

import java.nio.charset.StandardCharsets;
import splitledger.statistics.RandomStream;

/**
 * Random streams by name. A draw belongs to a cause and to what it acts on ("stroke" of one
 * injection, "day" for one compound on one day); asked again, the same name gives the same numbers.
 * The name is hashed by FNV-1a of 64 bits (offset basis and prime from G. Fowler, L. C. Noll, K.-P.
 * Vo and D. Eastlake, RFC 9923; from memory).
 */
final class Streams {
    private static final long OFFSET = 0xcbf29ce484222325L;
    private static final long PRIME = 0x100000001b3L;

    private final long seed;

    Streams(long seed) {
        this.seed = seed;
    }

    /** The stream of a cause and of what it acts on. */
    RandomStream of(String cause, String... on) {
        return RandomStream.of(seed, name(cause, on));
    }

    /** The stream of a name that is one part longer. */
    RandomStream of(long name, byte[] part) {
        return RandomStream.of(seed, mixed(name, part));
    }

    /** The first standard normal number of a stream. */
    double normal(String cause, String... on) {
        return of(cause, on).nextNormal();
    }

    /** A relative deviation: 1 + scatter x standard normal; 1 where nothing scatters. */
    double factor(Parameter scatter, String cause, String... on) {
        final double fraction = scatter.fraction();
        return fraction == 0 ? 1 : 1 + fraction * normal(cause, on);
    }

    /** A name as a number; equal names give equal numbers. */
    static long name(String cause, String... on) {
        long hash = mixed(OFFSET, bytes(cause));
        for (String part : on) {
            hash = mixed(hash, bytes(part));
        }
        return hash;
    }

    /** A part of a name as it is hashed. */
    static byte[] bytes(String part) {
        return part.getBytes(StandardCharsets.UTF_8);
    }

    private static long mixed(long hash, byte[] text) {
        long h = hash;
        for (byte b : text) {
            h = (h ^ (b & 0xff)) * PRIME;
        }
        return (h ^ 0xff) * PRIME;
    }
}
