package splitledger.dossier;

import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

/**
 * A folder or file that is being written beside the place where it will stand. Whatever ends the
 * work before it was moved there, a fault or a user who stops the program, takes it away again.
 */
final class Aside implements Closeable {
    private static final String PREFIX = ".splitledger-";
    private static final int TRIES = 40;
    private static final long PAUSE = 25;

    private final Path path;
    private final Path upTo;
    private final Thread atTheEnd;

    private Aside(Path path, Path upTo) {
        this.path = path;
        this.upTo = upTo;
        atTheEnd = new Thread(this::deleteStubbornly, "splitledger-aside");
        Runtime.getRuntime().addShutdownHook(atTheEnd);
    }

    /**
     * A new folder in a folder that is there.
     *
     * @param upTo the nearest folder that was there before; what was made between it and the parent
     *     goes as well if it stays empty
     */
    static Aside folder(Path parent, Path upTo) throws IOException {
        final Path name = Files.createTempDirectory(parent, PREFIX);
        Files.delete(name); // a temporary folder is closed to colleagues, a dossier is not
        return new Aside(Files.createDirectory(name), upTo);
    }

    /** A new empty file in a folder that is there. */
    static Aside file(Path parent) throws IOException {
        final Path name = Files.createTempFile(parent, PREFIX, ".tmp");
        Files.delete(name);
        return new Aside(Files.createFile(name), parent);
    }

    Path path() {
        return path;
    }

    /** Takes away what is still there. */
    @Override
    public void close() throws IOException {
        try {
            Runtime.getRuntime().removeShutdownHook(atTheEnd);
        } catch (IllegalStateException ending) {
            return; // the program is being stopped, and the thread is at work
        }
        takeAway();
    }

    private void takeAway() throws IOException {
        delete(path);
        Path p = path.getParent();
        while (p != null && !p.equals(upTo) && Files.isDirectory(p) && isEmpty(p)) {
            Files.delete(p);
            p = p.getParent();
        }
    }

    private static boolean isEmpty(Path folder) throws IOException {
        try (Stream<Path> entries = Files.list(folder)) {
            return entries.findAny().isEmpty();
        }
    }

    /** A writer may still be at work in it: tries again until nothing is left. */
    private void deleteStubbornly() {
        for (int i = 0; i < TRIES && Files.exists(path); i++) {
            try {
                takeAway();
            } catch (IOException busy) {
                try {
                    Thread.sleep(PAUSE);
                } catch (InterruptedException stop) {
                    return;
                }
            }
        }
    }

    /** Deletes a folder with all that is in it, or a file; what is not there is no fault. */
    static void delete(Path folder) throws IOException {
        final List<Path> inside;
        try (Stream<Path> all = Files.walk(folder)) {
            inside = all.sorted(Comparator.reverseOrder()).toList();
        } catch (NoSuchFileException gone) {
            return;
        }
        for (Path p : inside) {
            Files.deleteIfExists(p);
        }
    }
}
