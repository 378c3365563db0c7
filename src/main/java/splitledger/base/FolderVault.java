package splitledger.base;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.LinkOption;
import java.nio.file.Path;

/**
 * A local folder as a {@link Vault}. Links are resolved before a name is judged to lie inside, so
 * that a link cannot lead out of the folder.
 */
public final class FolderVault implements Vault {
    private final Path root;

    private FolderVault(Path root) {
        this.root = root;
    }

    /**
     * The vault of a folder that exists.
     *
     * @throws IOException if the folder does not exist or cannot be resolved
     */
    public static FolderVault of(Path folder) throws IOException {
        return new FolderVault(folder.toRealPath());
    }

    /**
     * The vault of a folder that exists, by its name.
     *
     * @throws IOException if the folder does not exist or cannot be resolved
     */
    public static FolderVault of(String folder) throws IOException {
        return of(Path.of(folder));
    }

    @Override
    public InputStream open(String name) throws IOException {
        return Files.newInputStream(inside(name, true));
    }

    @Override
    public void write(String name, byte[] bytes) throws IOException {
        final Path path = inside(name, false);
        final Path parent = path.getParent();
        if (parent == null || path.equals(root)) {
            throw new IOException("'" + name + "' is the folder itself");
        }
        Path there = path;
        for (Path up = parent;
                !Files.exists(there, LinkOption.NOFOLLOW_LINKS) && up != null;
                up = up.getParent()) {
            there = up;
        }
        // before anything is made: a link may lead out, or to nothing (then this throws)
        if (!there.toRealPath().startsWith(root)) {
            throw outside(name);
        }
        Files.createDirectories(parent);
        Files.write(path, bytes);
    }

    @Override
    public boolean exists(String name) {
        try {
            return Files.isRegularFile(inside(name, true));
        } catch (IOException e) {
            return false;
        }
    }

    private Path inside(String name, boolean resolveLinks) throws IOException {
        final Path path = resolved(name);
        if (!path.startsWith(root)) {
            throw outside(name);
        }
        final Path real = resolveLinks ? path.toRealPath() : path;
        if (!real.startsWith(root)) {
            throw outside(name);
        }
        return real;
    }

    private Path resolved(String name) throws IOException {
        try {
            // an absolute name is none of this vault, even where it leads inside
            if (Path.of(name).isAbsolute() || name.startsWith("/") || name.matches("[A-Za-z]:.*")) {
                throw new IOException("'" + name + "' is no relative name");
            }
            return root.resolve(name).normalize();
        } catch (InvalidPathException e) {
            throw new IOException("'" + name + "' is no name of a file here", e);
        }
    }

    private static IOException outside(String name) {
        return new IOException("'" + name + "' leads outside the folder");
    }
}
