package splitledger.spark;

import java.io.File;
import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.NoSuchFileException;
import java.util.List;
import org.apache.hadoop.fs.ChecksumFileSystem;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import splitledger.base.Vault;

/**
 * A folder on any file system that Hadoop knows as a {@link Vault}. On the local one, links are
 * resolved before a name is read, as the vault of a local folder does.
 */
public final class HadoopVault implements Vault {
    private static final String LOCAL = "file";

    private final FileSystem files;
    private final Path root;

    /**
     * The vault of a folder.
     *
     * @param root absolute; need not exist if it is only written to
     */
    public HadoopVault(FileSystem files, Path root) {
        // no checksum files beside a dossier's own: they are no part of it, and refuse names with :
        this.files = files instanceof ChecksumFileSystem sums ? sums.getRawFileSystem() : files;
        this.root = files.makeQualified(root);
    }

    @Override
    public InputStream open(String name) throws IOException {
        final Path path = inside(name);
        if (!files.exists(path)) {
            throw new NoSuchFileException(name);
        }
        requireInside(name, path);
        try {
            return files.open(path);
        } catch (FileNotFoundException e) {
            final NoSuchFileException gone = new NoSuchFileException(name);
            gone.initCause(e);
            throw gone;
        }
    }

    @Override
    public void write(String name, byte[] bytes) throws IOException {
        final Path path = inside(name);
        if (path.equals(root)) {
            throw new IOException("'" + name + "' is the folder itself");
        }
        Path there = path;
        while (!files.exists(there) && !there.equals(root) && there.getParent() != null) {
            there = there.getParent();
        }
        if (files.exists(there) && files.exists(root)) {
            requireInside(name, there);
        }
        try (OutputStream out = files.create(path, true)) {
            out.write(bytes);
        }
    }

    @Override
    public boolean exists(String name) {
        try {
            final Path path = inside(name);
            if (!files.exists(path)) {
                return false;
            }
            requireInside(name, path);
            return files.getFileStatus(path).isFile();
        } catch (IOException e) {
            return false;
        }
    }

    private Path inside(String name) throws IOException {
        if (name.startsWith("/") || name.matches("[A-Za-z][A-Za-z0-9+.-]*:.*")) {
            throw new IOException("'" + name + "' is no relative name");
        }
        int depth = 0;
        Path path = root;
        for (String part : List.of(name.split("/"))) {
            if (part.equals("..")) {
                depth--;
                path = path.getParent();
            } else if (!part.isEmpty() && !part.equals(".")) {
                depth++;
                path = new Path(path, new Path(null, null, part));
            }
            if (depth < 0 || path == null) {
                throw outside(name);
            }
        }
        return path;
    }

    private void requireInside(String name, Path path) throws IOException {
        if (LOCAL.equals(path.toUri().getScheme())) {
            final java.nio.file.Path real = new File(path.toUri().getPath()).toPath().toRealPath();
            if (!real.startsWith(new File(root.toUri().getPath()).toPath().toRealPath())) {
                throw outside(name);
            }
        }
    }

    private static IOException outside(String name) {
        return new IOException("'" + name + "' leads outside the folder");
    }
}
