package splitledger.base;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.NoSuchFileException;
import java.util.Collections;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;

/** Named bytes that never touch a disk. Not safe for writers on several threads. */
public final class MemoryVault implements Vault {
    private final SortedMap<String, byte[]> files;

    /** A vault that holds these files. */
    public MemoryVault(Map<String, byte[]> files) {
        this.files = new TreeMap<>(files);
    }

    /** What it holds, by name in order. */
    public SortedMap<String, byte[]> files() {
        return Collections.unmodifiableSortedMap(files);
    }

    @Override
    public InputStream open(String name) throws IOException {
        return new ByteArrayInputStream(read(name));
    }

    @Override
    public byte[] read(String name) throws IOException {
        final byte[] bytes = files.get(name);
        if (bytes == null) {
            throw new NoSuchFileException(name);
        }
        return bytes.clone();
    }

    @Override
    public void write(String name, byte[] bytes) {
        files.put(name, bytes.clone());
    }

    @Override
    public boolean exists(String name) {
        return files.containsKey(name);
    }
}
