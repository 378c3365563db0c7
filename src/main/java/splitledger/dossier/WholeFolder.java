package splitledger.dossier;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import splitledger.base.FolderVault;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.base.Vault;

/** A folder of files of one kind, written whole or not at all. */
public final class WholeFolder {
    private WholeFolder() {}

    /**
     * By what the work of an earlier run is known.
     *
     * @param file a file that it always leaves
     * @param header how that file begins
     * @param others patterns of everything else that it may leave, with / between folders
     * @param words what it is, in words
     */
    public record Kind(String file, String header, List<String> others, String words) {
        public Kind {
            others = List.copyOf(others);
        }

        private boolean mayLeave(String name) {
            return name.equals(file) || others.stream().anyMatch(name::matches);
        }
    }

    /**
     * Says whether a folder may be written to, before any work is done.
     *
     * @throws ProblemException if something is there that must stay
     */
    public static void check(Path target, boolean replace, Kind kind)
            throws ProblemException, IOException {
        if (!Files.exists(target, LinkOption.NOFOLLOW_LINKS)) {
            return;
        }
        if (!Files.isDirectory(target)) {
            throw refused(target, "a file", "name another folder with --out");
        }
        if (DossierWriter.isEmpty(target)) {
            return;
        }
        if (!isOfKind(target, kind)) {
            throw refused(
                    target,
                    "a folder with other files",
                    "name another folder with --out; nothing in it was touched");
        }
        if (!replace) {
            throw refused(
                    target,
                    kind.words(),
                    "name another folder with --out, or give --replace to replace it");
        }
    }

    private static boolean isOfKind(Path target, Kind kind) throws IOException {
        final Path marked = target.resolve(kind.file());
        if (!Files.isRegularFile(marked, LinkOption.NOFOLLOW_LINKS)) {
            return false;
        }
        final byte[] header = kind.header().getBytes(StandardCharsets.UTF_8);
        try (InputStream in = Files.newInputStream(marked)) {
            if (!Arrays.equals(in.readNBytes(header.length), header)) {
                return false;
            }
        }
        try (Stream<Path> all = Files.walk(target)) {
            return all.filter(p -> !Files.isDirectory(p, LinkOption.NOFOLLOW_LINKS))
                    .map(p -> target.relativize(p).toString().replace('\\', '/'))
                    .allMatch(kind::mayLeave);
        }
    }

    /**
     * Writes.
     *
     * @param files by name, with / between folders
     * @param target see {@link #check}
     * @throws IOException if the disk or the folder does not take it; then all is as before
     */
    public static void write(Map<String, byte[]> files, Path target) throws IOException {
        final Path absolute = target.toAbsolutePath().normalize();
        final Path parent = absolute.getParent();
        if (parent == null) {
            throw new IOException("the files cannot be the root of a file system");
        }
        final Path existing = DossierWriter.firstExisting(parent);
        Files.createDirectories(parent);
        try (Aside aside = Aside.folder(parent, existing)) {
            final Vault vault = FolderVault.of(aside.path());
            for (Map.Entry<String, byte[]> file : files.entrySet()) {
                vault.write(file.getKey(), file.getValue());
            }
            DossierWriter.moveInto(aside.path(), absolute);
        }
    }

    private static ProblemException refused(Path target, String found, String hint) {
        return new ProblemException(
                new Problem(target.toString(), 0, "--out", found, "an empty or new folder", hint));
    }
}
