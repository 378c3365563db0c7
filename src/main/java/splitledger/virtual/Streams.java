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
        long hash = mixed(OFFSET, cause);
        for (String part : on) {
            hash = mixed(hash, part);
        }
        return RandomStream.of(seed, hash);
    }

    /** The first standard normal number of a stream. */
    double normal(String cause, String... on) {
        return of(cause, on).nextNormal();
    }

    private static long mixed(long hash, String text) {
        long h = hash;
        for (byte b : text.getBytes(StandardCharsets.UTF_8)) {
            h = (h ^ (b & 0xff)) * PRIME;
        }
        return (h ^ 0xff) * PRIME;
    }
}
