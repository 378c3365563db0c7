package splitledger.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import splitledger.base.FolderVault;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.base.Vault;

/**
 * A protocol and the folder that its files must lie below.
 *
 * @param vault that folder
 * @param name of the protocol in it
 */
record ProtocolFile(Vault vault, String name) {

    /**
     * Finds a protocol that is there.
     *
     * @param protocol as typed
     * @param root as typed; without it the working folder if the protocol lies there, else the
     *     protocol's own folder
     */
    static ProtocolFile find(Path protocol, Optional<Path> root)
            throws ProblemException, IOException {
        return below(protocol, present(protocol, "a protocol file"), root);
    }

    /**
     * The real path of a file that must be there.
     *
     * @param wanted what it is, in words
     */
    static Path present(Path file, String wanted) throws ProblemException, IOException {
        if (!Files.isRegularFile(file)) {
            throw new ProblemException(
                    new Problem(
                            file.toString(),
                            0,
                            "",
                            Files.isDirectory(file) ? "a folder" : "no such file",
                            wanted,
                            "check the name"));
        }
        return file.toRealPath();
    }

    /** The same for a protocol that is still to be written. */
    static ProtocolFile at(Path protocol, Optional<Path> root)
            throws ProblemException, IOException {
        final Path absolute = protocol.toAbsolutePath().normalize();
        final Path folder = absolute.getParent();
        final Path file = absolute.getFileName();
        if (folder == null || file == null || Files.isDirectory(absolute)) {
            throw new ProblemException(
                    new Problem(
                            protocol.toString(),
                            0,
                            "--out",
                            "a folder",
                            "a name for the protocol",
                            "name a file in it, such as protocol.yaml"));
        }
        if (!Files.isDirectory(folder)) {
            throw new ProblemException(
                    new Problem(
                            protocol.toString(),
                            0,
                            "--out",
                            "a folder that is not there",
                            "a folder that is",
                            "make the folder first, or name another"));
        }
        return below(protocol, folder.toRealPath().resolve(file), root);
    }

    private static ProtocolFile below(Path typed, Path real, Optional<Path> root)
            throws ProblemException, IOException {
        final Path base = rootOf(real, root);
        if (!real.startsWith(base)) {
            throw new ProblemException(
                    new Problem(
                            typed.toString(),
                            0,
                            "--root",
                            "a protocol outside " + base,
                            "one below it",
                            "name a folder above both"));
        }
        return new ProtocolFile(FolderVault.of(base), slashed(base.relativize(real)));
    }

    private static Path rootOf(Path protocol, Optional<Path> root) throws IOException {
        if (root.isPresent()) {
            return root.get().toRealPath();
        }
        final Path here = Path.of("").toRealPath();
        final Path own = protocol.getParent();
        return protocol.startsWith(here) || own == null ? here : own;
    }

    /** A relative name with / between folders, as protocols write it on every system. */
    static String slashed(Path relative) {
        return relative.toString().replace('\\', '/');
    }
}
