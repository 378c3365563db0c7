package splitledger.base;

import java.io.IOException;
import java.io.InputStream;

/**
 * A place that holds named bytes: a local folder, an archive or a cluster file system all look
 * alike through it.
 *
 * <p>Names are relative, written with {@code /}, and never leave the vault: a name that would climb
 * out is refused with an {@link IOException}.
 */
public interface Vault {

    /**
     * Opens a name for reading.
     *
     * @param name relative name with {@code /} between folders
     * @return a fresh stream; the caller closes it
     * @throws java.nio.file.NoSuchFileException if there is no such name
     * @throws IOException if it cannot be read or lies outside the vault
     */
    InputStream open(String name) throws IOException;

    /**
     * Writes a name whole, making its folders.
     *
     * @param name relative name with {@code /} between folders
     * @param bytes the whole content
     * @throws IOException if it cannot be written or lies outside the vault
     */
    void write(String name, byte[] bytes) throws IOException;

    /** Whether the name exists and can be opened. */
    boolean exists(String name);

    /**
     * Reads a name whole.
     *
     * @param name relative name
     * @return all its bytes
     * @throws IOException as {@link #open}
     */
    default byte[] read(String name) throws IOException {
        try (InputStream in = open(name)) {
            return in.readAllBytes();
        }
    }
}
