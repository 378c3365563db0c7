package splitledger.budget;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import splitledger.base.Digests;

/**
 * The seed of a budget depends on the evaluation's seed, compound, level and equation, and on
 * nothing else.
 */
final class Seeds {
    private Seeds() {}

    static long of(long seed, String compound, String level, String equation) {
        final String text = seed + "\n" + compound + "\n" + level + "\n" + equation;
        final String digest = Digests.sha256(text.getBytes(StandardCharsets.UTF_8));
        return ByteBuffer.wrap(HexFormat.of().parseHex(digest)).getLong();
    }
}
