package splitledger.dossier;

import java.io.IOException;
import java.io.InputStream;
import java.util.Collections;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.base.CodePoints;
import splitledger.base.Digests;
import splitledger.base.Vault;

/** Notes the digest of whatever is written through it. Not safe for writers on several threads. */
final class NotingVault implements Vault {
    private final Vault vault;
    private final SortedMap<String, String> written = new TreeMap<>(CodePoints.ORDER);

    NotingVault(Vault vault) {
        this.vault = vault;
    }

    /** SHA-256 by name, in order of code points. */
    SortedMap<String, String> written() {
        return Collections.unmodifiableSortedMap(written);
    }

    @Override
    public InputStream open(String name) throws IOException {
        return vault.open(name);
    }

    @Override
    public void write(String name, byte[] bytes) throws IOException {
        vault.write(name, bytes);
        written.put(name, Digests.sha256(bytes));
    }

    @Override
    public boolean exists(String name) {
        return vault.exists(name);
    }
}
