package splitledger.base;

import java.io.IOException;
import java.io.InputStream;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * A vault in which other vaults stand as folders: a name below such a folder is looked up there,
 * every other in the first vault.
 */
public final class JoinedVault implements Vault {
    private final Vault first;
    private final SortedMap<String, Vault> folders;

    /**
     * Joins vaults.
     *
     * @param folders vaults by the names of their folders, with {@code /} at the end
     */
    public JoinedVault(Vault first, Map<String, ? extends Vault> folders) {
        this.first = first;
        this.folders = new TreeMap<>(folders);
    }

    @Override
    public InputStream open(String name) throws IOException {
        final Optional<String> folder = folder(name);
        return folder.isPresent()
                ? in(folder.get()).open(name.substring(folder.get().length()))
                : first.open(name);
    }

    @Override
    public void write(String name, byte[] bytes) throws IOException {
        final Optional<String> folder = folder(name);
        if (folder.isPresent()) {
            in(folder.get()).write(name.substring(folder.get().length()), bytes);
        } else {
            first.write(name, bytes);
        }
    }

    @Override
    public boolean exists(String name) {
        final Optional<String> folder = folder(name);
        return folder.isPresent()
                ? in(folder.get()).exists(name.substring(folder.get().length()))
                : first.exists(name);
    }

    private Optional<String> folder(String name) {
        return folders.keySet().stream().filter(name::startsWith).findFirst();
    }

    private Vault in(String folder) {
        return folders.getOrDefault(folder, first);
    }
}
