package splitledger.base;

import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.time.LocalDateTime;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;

/**
 * Writes a zip archive that says nothing of when or where it was made: every entry bears the first
 * day that the format knows. The caller gives the entries in an order of its own that does not
 * depend on the machine; the compressed bytes may still differ between versions of Java.
 */
public final class StableZip implements Closeable {
    /** The first moment that the format can tell, without a time zone. */
    private static final LocalDateTime FIRST_DAY = LocalDateTime.of(1980, 1, 1, 0, 0);

    private final ZipOutputStream zip;

    /** An archive that goes to a stream, which {@link #close} closes. */
    public StableZip(OutputStream out) {
        zip = new ZipOutputStream(out);
    }

    /**
     * Adds an entry.
     *
     * @param name with {@code /} between folders
     * @param bytes the whole content
     * @throws IOException if it cannot be written, or the archive has the name already
     */
    public void add(String name, byte[] bytes) throws IOException {
        begin(name);
        zip.write(bytes);
        zip.closeEntry();
    }

    /**
     * Adds an entry from a stream, which is read to its end and not closed.
     *
     * @param name with {@code /} between folders
     * @throws IOException if it cannot be read or written, or the archive has the name already
     */
    public void add(String name, InputStream bytes) throws IOException {
        begin(name);
        bytes.transferTo(zip);
        zip.closeEntry();
    }

    private void begin(String name) throws IOException {
        final ZipEntry entry = new ZipEntry(name);
        entry.setTimeLocal(FIRST_DAY);
        zip.putNextEntry(entry);
    }

    @Override
    public void close() throws IOException {
        zip.close();
    }
}
