package splitledger.cli;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Comparator;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.virtual.Simulation;

/**
 * Writes a simulated data set into a folder: all of it, or nothing. Into a folder that holds files
 * already it goes only if an earlier simulation is there and may be replaced, and then nothing but
 * files of the simulation's own names is touched.
 */
final class SimulatedFolder {
    /** Real data have no table of true values. */
    private static final Mark SIMULATED =
            new Mark(
                    Simulation.TRUTH,
                    Simulation.TRUTH_HEADER,
                    "a data set of an earlier simulation");

    private SimulatedFolder() {}

    /**
     * Says whether a folder may be written to, before any work is done.
     *
     * @throws ProblemException if something is there that must stay
     */
    static void check(Path target, boolean replace) throws ProblemException, IOException {
        check(target, replace, SIMULATED);
    }

    /**
     * By what the work of an earlier run is known.
     *
     * @param file its name
     * @param header its first line
     * @param words what it is, in words
     */
    record Mark(String file, String header, String words) {}

    /** The same for files of another kind. */
    static void check(Path target, boolean replace, Mark mark)
            throws ProblemException, IOException {
        if (!Files.exists(target, LinkOption.NOFOLLOW_LINKS)) {
            return;
        }
        if (!Files.isDirectory(target)) {
            throw refused(target, "a file", "name another folder with --out");
        }
        if (isEmpty(target)) {
            return;
        }
        if (!isOurs(target, mark)) {
            throw refused(
                    target,
                    "a folder with other files",
                    "name another folder with --out; nothing in it was touched");
        }
        if (!replace) {
            throw refused(
                    target,
                    mark.words(),
                    "name another folder with --out, or give --replace to replace it;"
                            + " other files beside it stay as they are");
        }
    }

    private static boolean isOurs(Path target, Mark mark) throws IOException {
        final Path marked = target.resolve(mark.file());
        if (!Files.isRegularFile(marked, LinkOption.NOFOLLOW_LINKS)) {
            return false;
        }
        final byte[] header = mark.header().getBytes(StandardCharsets.UTF_8);
        try (InputStream in = Files.newInputStream(marked)) {
            return Arrays.equals(in.readNBytes(header.length), header);
        }
    }

    /**
     * Writes.
     *
     * @param files by name
     * @param target see {@link #check}
     * @throws IOException if the disk or the folder does not take it; then all is as before
     */
    static void write(Map<String, byte[]> files, Path target) throws IOException {
        final Path folder = target.toAbsolutePath().normalize();
        final Path parent = folder.getParent();
        if (parent == null) {
            throw new IOException("a data set cannot be the root of a file system");
        }
        final Deque<Undo> undo = new ArrayDeque<>();
        try {
            makeFolders(folder, undo);
            final Path aside = Files.createTempDirectory(folder, ".splitledger-");
            undo.push(() -> delete(aside));
            final Path made = Files.createDirectory(aside.resolve("new"));
            final Path old = Files.createDirectory(aside.resolve("old"));
            for (Map.Entry<String, byte[]> file : files.entrySet()) {
                Files.write(made.resolve(file.getKey()), file.getValue());
            }
            for (String name : files.keySet()) {
                final Path there = folder.resolve(name);
                if (Files.isDirectory(there, LinkOption.NOFOLLOW_LINKS)) {
                    throw new IOException(
                            "'" + there + "' is a folder, and a file of that name has to go there");
                }
                if (Files.exists(there, LinkOption.NOFOLLOW_LINKS)) {
                    Files.move(there, old.resolve(name));
                    undo.push(() -> Files.move(old.resolve(name), there));
                }
                Files.move(made.resolve(name), there);
                undo.push(() -> Files.delete(there));
            }
            delete(aside);
        } catch (IOException | RuntimeException e) {
            for (Undo step : undo) {
                try {
                    step.run();
                } catch (IOException more) {
                    e.addSuppressed(more);
                }
            }
            throw e;
        }
    }

    /** A step back. */
    private interface Undo {
        void run() throws IOException;
    }

    private static void makeFolders(Path folder, Deque<Undo> undo) throws IOException {
        if (Files.isDirectory(folder)) {
            return;
        }
        final Path parent = folder.getParent();
        if (parent != null) {
            makeFolders(parent, undo);
        }
        Files.createDirectory(folder);
        undo.push(() -> Files.delete(folder));
    }

    private static boolean isEmpty(Path folder) throws IOException {
        try (Stream<Path> entries = Files.list(folder)) {
            return entries.findAny().isEmpty();
        }
    }

    private static void delete(Path folder) throws IOException {
        final List<Path> inside;
        try (Stream<Path> all = Files.walk(folder)) {
            inside = all.sorted(Comparator.reverseOrder()).toList();
        }
        for (Path p : inside) {
            Files.delete(p);
        }
    }

    private static ProblemException refused(Path target, String found, String hint) {
        return new ProblemException(
                new Problem(target.toString(), 0, "--out", found, "an empty or new folder", hint));
    }
}
