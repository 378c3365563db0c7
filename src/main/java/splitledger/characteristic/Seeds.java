package splitledger.characteristic;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import splitledger.base.Digests;

/** Seeds of imagined repetitions: they depend on what is repeated and on nothing else. */
public final class Seeds {
    private static final String SERIES = "20260210";

    private Seeds() {}

    /**
     * The seed of one series of repetitions.
     *
     * @param names what is repeated, for instance compound and quantity
     */
    public static long of(String... names) {
        final String text = SERIES + "\n" + String.join("\n", names);
        final String digest = Digests.sha256(text.getBytes(StandardCharsets.UTF_8));
        return ByteBuffer.wrap(HexFormat.of().parseHex(digest)).getLong();
    }
}
