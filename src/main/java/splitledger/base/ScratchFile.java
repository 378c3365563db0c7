package splitledger.base;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * A file outside every vault, for a library that reads its configuration from a path and from
 * nothing else. No result ever stands in one.
 */
public final class ScratchFile {
    private ScratchFile() {}

    /**
     * Writes a new file into the system's temporary folder. It is deleted when the program ends.
     *
     * @param name ending of its name
     * @param bytes its content
     * @return its path
     * @throws IOException if the temporary folder cannot be written
     */
    public static String holding(String name, byte[] bytes) throws IOException {
        final Path file = Files.createTempFile("splitledger-", "-" + name);
        file.toFile().deleteOnExit();
        Files.write(file, bytes);
        return file.toString();
    }
}
