package splitledger.intake;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.PushbackInputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;

/** The one encoding of input files, and how to tell that a file has another. */
final class Utf8 {
    /** Longest byte order mark, in bytes. */
    static final int MARK_LENGTH = 3;

    private static final int BUFFER = 1 << 16;

    private Utf8() {}

    /** A decoder that refuses what is not UTF-8. */
    static CharsetDecoder strict() {
        return StandardCharsets.UTF_8
                .newDecoder()
                .onMalformedInput(CodingErrorAction.REPORT)
                .onUnmappableCharacter(CodingErrorAction.REPORT);
    }

    /**
     * Skips a byte order mark.
     *
     * @param bytes able to take back {@link #MARK_LENGTH} bytes
     * @return false if the mark is that of UTF-16
     */
    static boolean skipMark(PushbackInputStream bytes) throws IOException {
        final byte[] start = bytes.readNBytes(MARK_LENGTH);
        if (start.length == MARK_LENGTH
                && start[0] == (byte) 0xEF
                && start[1] == (byte) 0xBB
                && start[2] == (byte) 0xBF) {
            return true;
        }
        bytes.unread(start);
        return start.length < 2
                || !((start[0] == (byte) 0xFF && start[1] == (byte) 0xFE)
                        || (start[0] == (byte) 0xFE && start[1] == (byte) 0xFF));
    }

    /** The first line that is not UTF-8; 0 if all are. */
    static int firstBadLine(InputStream in) throws IOException {
        final ByteArrayOutputStream line = new ByteArrayOutputStream();
        final byte[] buffer = new byte[BUFFER];
        int number = 1;
        for (int n = in.read(buffer); n >= 0; n = in.read(buffer)) {
            for (int i = 0; i < n; i++) {
                if (buffer[i] != '\n') {
                    line.write(buffer[i]);
                    continue;
                }
                if (!isUtf8(line)) {
                    return number;
                }
                line.reset();
                number++;
            }
        }
        return isUtf8(line) ? 0 : number;
    }

    private static boolean isUtf8(ByteArrayOutputStream line) {
        try {
            strict().decode(ByteBuffer.wrap(line.toByteArray()));
            return true;
        } catch (CharacterCodingException e) {
            return false;
        }
    }
}
