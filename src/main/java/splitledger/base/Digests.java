package splitledger.base;

import java.io.IOException;
import java.io.InputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/**
 * SHA-256 digests as 64 lower-case hexadecimal digits. They show that bytes changed, never who
 * wrote them.
 */
public final class Digests {
    private Digests() {}

    /** The digest of some bytes. */
    public static String sha256(byte[] bytes) {
        return HexFormat.of().formatHex(algorithm().digest(bytes));
    }

    /**
     * The digest of a stream, which is read to its end and not closed.
     *
     * @throws IOException if it cannot be read
     */
    public static String sha256(InputStream in) throws IOException {
        final MessageDigest digest = algorithm();
        final byte[] buffer = new byte[1 << 16];
        for (int n = in.read(buffer); n >= 0; n = in.read(buffer)) {
            digest.update(buffer, 0, n);
        }
        return HexFormat.of().formatHex(digest.digest());
    }

    private static MessageDigest algorithm() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }
}
