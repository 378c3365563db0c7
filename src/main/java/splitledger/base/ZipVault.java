package splitledger.base;

import java.io.ByteArrayInputStream;
import java.io.Closeable;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Collections;
import java.util.Deque;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.zip.CRC32;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipFile;

/**
 * A zip archive as a {@link Vault} that is read where it lies: nothing is unpacked to the disk, and
 * one file at a time stands in memory. Every file is unpacked once when the archive is opened, so
 * that one that is damaged or unpacks to more than it should is met at the door.
 */
public final class ZipVault implements Vault, Closeable {
    /** Most files of an archive. */
    static final int FILES = 20_000;

    /** Most bytes of one file, unpacked. */
    static final long FILE_BYTES = 1L << 30;

    /** Most bytes of all files, unpacked. */
    static final long ALL_BYTES = 4L << 30;

    /** How many times larger than packed a file may be, from {@link #SUSPECT_BYTES} on. */
    static final long RATIO = 200;

    /** Unpacked bytes from which {@link #RATIO} counts. */
    static final long SUSPECT_BYTES = 8L << 20;

    private static final int BUFFER = 1 << 16;
    private static final String COPY = "bring a whole copy of the archive, or name the folder";
    private static final String ASK =
            "this is not an archive that this program packed: ask where it comes from";

    private final ZipFile zip;
    private final SortedSet<String> names;
    private final String root;

    private ZipVault(ZipFile zip, SortedSet<String> names, String root) {
        this.zip = zip;
        this.names = Collections.unmodifiableSortedSet(names);
        this.root = root;
    }

    /**
     * Opens an archive.
     *
     * @throws ProblemException if it is no zip archive, is damaged, holds a name that leads out of
     *     it or stands there twice, or is or unpacks to more than it may
     * @throws IOException if the file cannot be read
     */
    public static ZipVault open(Path archive) throws ProblemException, IOException {
        final String name = archive.toString();
        final ZipFile zip;
        try {
            zip = new ZipFile(archive.toFile());
        } catch (ZipException | IllegalArgumentException e) {
            throw refused(name, "", "no zip archive, or a damaged one", "a zip archive", COPY);
        }
        try {
            return new ZipVault(zip, checked(name, zip), "");
        } catch (ProblemException | IOException | RuntimeException e) {
            zip.close();
            throw e;
        }
    }

    /** Names of all files, with {@code /} between folders, in order. */
    public SortedSet<String> names() {
        return names;
    }

    /**
     * A folder of this archive as a vault of its own, from which no name leads out. Closing either
     * closes both.
     *
     * @param folder with {@code /} at its end; empty for all
     */
    public ZipVault below(String folder) {
        return new ZipVault(zip, names, root + folder);
    }

    @Override
    public InputStream open(String name) throws IOException {
        return new ByteArrayInputStream(read(name));
    }

    @Override
    public byte[] read(String name) throws IOException {
        final String full = root + normal(name);
        final ZipEntry entry = names.contains(full) ? zip.getEntry(full) : null;
        if (entry == null) {
            throw new NoSuchFileException(zip.getName() + "/" + full);
        }
        try (InputStream in = zip.getInputStream(entry)) {
            return in.readNBytes(Math.toIntExact(entry.getSize()));
        }
    }

    @Override
    public void write(String name, byte[] bytes) throws IOException {
        throw new IOException("'" + name + "' cannot be written into an archive");
    }

    @Override
    public boolean exists(String name) {
        try {
            return names.contains(root + normal(name));
        } catch (IOException outside) {
            return false;
        }
    }

    @Override
    public void close() throws IOException {
        zip.close();
    }

    /** The name without steps up and down again. */
    private static String normal(String name) throws IOException {
        final Deque<String> parts = new ArrayDeque<>();
        for (String part : name.split("/", -1)) {
            if (part.equals("..")) {
                if (parts.pollLast() == null) {
                    throw new IOException("'" + name + "' leads outside the folder");
                }
            } else if (!part.isEmpty() && !part.equals(".")) {
                parts.addLast(part);
            }
        }
        return String.join("/", parts);
    }

    private static SortedSet<String> checked(String archive, ZipFile zip)
            throws ProblemException, IOException {
        if (zip.size() > FILES) {
            throw refused(archive, "", zip.size() + " files", "at most " + FILES + " files", ASK);
        }
        final SortedSet<String> names = new TreeSet<>(CodePoints.ORDER);
        long all = 0;
        for (ZipEntry entry : Collections.list(zip.entries())) {
            final String name = entry.getName();
            if (!isInside(name)) {
                throw refused(
                        archive, name, "a name that leads out of the archive", "names in it", ASK);
            }
            if (!names.add(name)) {
                throw refused(archive, name, "the name twice", "every name once", ASK);
            }
            all += entry.getSize();
            checkSize(archive, entry, all);
        }
        for (ZipEntry entry : Collections.list(zip.entries())) {
            checkContent(archive, zip, entry);
        }
        names.removeIf(name -> name.endsWith("/"));
        return names;
    }

    /** Relative, without steps up, without what other systems take for a root. */
    private static boolean isInside(String name) {
        final String path = name.endsWith("/") ? name.substring(0, name.length() - 1) : name;
        if (path.matches("[A-Za-z]:.*") || path.chars().anyMatch(c -> c < ' ' || c == '\\')) {
            return false;
        }
        for (String part : path.split("/", -1)) {
            if (part.isEmpty() || part.equals(".") || part.equals("..")) {
                return false;
            }
        }
        return true;
    }

    private static void checkSize(String archive, ZipEntry entry, long all)
            throws ProblemException {
        final long size = entry.getSize();
        if (size < 0 || size > FILE_BYTES || all > ALL_BYTES) {
            throw refused(
                    archive,
                    entry.getName(),
                    size + " bytes unpacked, " + all + " with those before it",
                    "at most " + FILE_BYTES + " bytes, " + ALL_BYTES + " in all",
                    ASK);
        }
        if (size > SUSPECT_BYTES && size > RATIO * entry.getCompressedSize()) {
            throw refused(
                    archive,
                    entry.getName(),
                    "a file that unpacks to more than " + RATIO + " times its size",
                    "a file that does not",
                    ASK);
        }
    }

    /** Unpacks without keeping it: as many bytes as told and the right ones. */
    private static void checkContent(String archive, ZipFile zip, ZipEntry entry)
            throws ProblemException, IOException {
        final CRC32 sum = new CRC32();
        final byte[] buffer = new byte[BUFFER];
        long size = 0;
        try (InputStream in = zip.getInputStream(entry)) {
            for (int n = in.read(buffer); n >= 0; n = in.read(buffer)) {
                sum.update(buffer, 0, n);
                size += n;
                if (size > entry.getSize()) {
                    break;
                }
            }
        } catch (EOFException | ZipException e) {
            size = -1;
        }
        if (size != entry.getSize() || sum.getValue() != entry.getCrc()) {
            throw refused(
                    archive,
                    entry.getName(),
                    "a damaged file: other bytes than the archive says",
                    "the bytes that were packed",
                    COPY);
        }
    }

    private static ProblemException refused(
            String archive, String name, String found, String expected, String hint) {
        return new ProblemException(new Problem(archive, 0, name, found, expected, hint));
    }
}
