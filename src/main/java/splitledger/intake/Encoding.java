package splitledger.intake;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Optional;

/**
 * The encoding of a text file: by its byte order mark; without one UTF-16 where every other byte is
 * 0, UTF-8 where all bytes are of that form, else Windows-1252 where that has a character for every
 * byte.
 *
 * @param charset empty if it is none of them
 * @param words name and how it was told
 * @param badLine first line that is not UTF-8; 0 if all are
 */
record Encoding(Optional<Charset> charset, String words, int badLine) {
    private static final int BUFFER = 1 << 16;
    private static final int HALF = 2;
    private static final int FEW = 10;

    /** Opens the file from its start. */
    interface Source {
        InputStream open() throws IOException;
    }

    /** Looks at a whole file. */
    static Encoding of(Source file) throws IOException {
        final Utf8Check check = new Utf8Check();
        boolean windows = true;
        try (InputStream in = file.open()) {
            final byte[] buffer = new byte[BUFFER];
            int n = in.readNBytes(buffer, 0, BUFFER);
            final Optional<Encoding> early = atStart(Arrays.copyOf(buffer, n));
            if (early.isPresent()) {
                return early.get();
            }
            while (n > 0) {
                check.take(buffer, n);
                windows &= !check.isBad() || isWindows(buffer, n);
                n = in.readNBytes(buffer, 0, BUFFER);
            }
        }
        check.end();
        if (!check.isBad()) {
            return new Encoding(Optional.of(StandardCharsets.UTF_8), "UTF-8", 0);
        }
        final int line = line(file, check.passed());
        return windows
                ? new Encoding(
                        Optional.of(TableFormat.WINDOWS),
                        "Windows-1252 (line " + line + " is not UTF-8)",
                        line)
                : new Encoding(Optional.empty(), "", line);
    }

    /** The line of a byte. */
    private static int line(Source file, long before) throws IOException {
        int line = 1;
        int last = 0;
        try (InputStream in = new BufferedInputStream(file.open(), BUFFER)) {
            for (long i = 0; i < before; i++) {
                final int b = in.read();
                final boolean ends = b == '\r' || (b == '\n' && last != '\r');
                line += ends ? 1 : 0;
                last = b;
            }
        }
        return line;
    }

    private static Optional<Encoding> atStart(byte[] start) {
        if (startsWith(start, 0xFF, 0xFE)) {
            return marked(StandardCharsets.UTF_16LE, "UTF-16 (little-endian, by its mark)");
        }
        if (startsWith(start, 0xFE, 0xFF)) {
            return marked(StandardCharsets.UTF_16BE, "UTF-16 (big-endian, by its mark)");
        }
        final int[] zeros = new int[HALF];
        for (int i = 0; i < start.length; i++) {
            zeros[i % HALF] += start[i] == 0 ? 1 : 0;
        }
        final int most = start.length / HALF;
        if (zeros[0] + zeros[1] == 0) {
            return Optional.empty();
        }
        if (zeros[1] > most / HALF && zeros[0] < most / FEW) {
            return marked(StandardCharsets.UTF_16LE, "UTF-16 (little-endian, by its zero bytes)");
        }
        if (zeros[0] > most / HALF && zeros[1] < most / FEW) {
            return marked(StandardCharsets.UTF_16BE, "UTF-16 (big-endian, by its zero bytes)");
        }
        return Optional.of(new Encoding(Optional.empty(), "", 0));
    }

    private static Optional<Encoding> marked(Charset charset, String words) {
        return Optional.of(new Encoding(Optional.of(charset), words, 0));
    }

    private static boolean startsWith(byte[] bytes, int... start) {
        if (bytes.length < start.length) {
            return false;
        }
        for (int i = 0; i < start.length; i++) {
            if ((bytes[i] & 0xFF) != start[i]) {
                return false;
            }
        }
        return true;
    }

    private static boolean isWindows(byte[] bytes, int length) {
        for (int i = 0; i < length; i++) {
            final int b = bytes[i] & 0xFF;
            if (b == 0 || b == 0x81 || b == 0x8D || b == 0x8F || b == 0x90 || b == 0x9D) {
                return false;
            }
        }
        return true;
    }
}
