package splitledger.base;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Collections;
import java.util.Enumeration;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;

/** The entries of a zip archive that this program made or was given whole. */
public final class ZipParts {
    private ZipParts() {}

    /**
     * All entries by name, in order of code points. The directory at the archive's end is read, for
     * which the archive stands in a temporary file meanwhile.
     *
     * @param archive the whole archive
     * @throws IOException if it is no archive, or the temporary folder cannot be written
     */
    public static SortedMap<String, byte[]> of(byte[] archive) throws IOException {
        final Path file = Files.createTempFile("splitledger-", ".zip");
        try {
            Files.write(file, archive);
            return read(file);
        } finally {
            Files.deleteIfExists(file);
        }
    }

    private static SortedMap<String, byte[]> read(Path file) throws IOException {
        final SortedMap<String, byte[]> parts = new TreeMap<>(CodePoints.ORDER);
        try (ZipFile zip = new ZipFile(file.toFile())) {
            final Enumeration<? extends ZipEntry> entries = zip.entries();
            while (entries.hasMoreElements()) {
                final ZipEntry entry = entries.nextElement();
                try (InputStream in = zip.getInputStream(entry)) {
                    parts.put(entry.getName(), in.readAllBytes());
                }
            }
        }
        return Collections.unmodifiableSortedMap(parts);
    }
}
