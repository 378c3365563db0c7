package splitledger.dossier;

import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import splitledger.base.FolderVault;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.base.Vault;
import splitledger.base.ZipVault;

/** A dossier to be read: its folder, or the archive it was packed into, which stays packed. */
public final class OpenDossier implements Closeable {
    private final Path place;
    private final Optional<ZipVault> packed;

    private OpenDossier(Path place, Optional<ZipVault> packed) {
        this.place = place;
        this.packed = packed;
    }

    /**
     * Opens a dossier; whether its files are what its manifest says is not asked yet.
     *
     * @param place its folder or its archive
     * @throws ProblemException if there is no dossier, or the archive is refused, see {@link
     *     ZipVault#open}
     */
    public static OpenDossier of(Path place) throws ProblemException, IOException {
        if (!Files.isRegularFile(place)) {
            DossierReader.requireDossier(place);
            return new OpenDossier(place, Optional.empty());
        }
        final ZipVault archive = ZipVault.open(place);
        try {
            return new OpenDossier(place, Optional.of(archive.below(root(place, archive))));
        } catch (ProblemException e) {
            archive.close();
            throw e;
        }
    }

    /** Whether a file is an archive by its name or its first bytes. */
    public static boolean isArchive(Path file) throws IOException {
        if (!Files.isRegularFile(file)) {
            return false;
        }
        if (file.toString().toLowerCase(Locale.ROOT).endsWith(DossierPack.ENDING)) {
            return true;
        }
        try (InputStream in = Files.newInputStream(file)) {
            return in.read() == 'P' && in.read() == 'K';
        }
    }

    /** The folder in the archive that the dossier is: the one that all files lie below. */
    private static String root(Path place, ZipVault archive) throws ProblemException {
        if (archive.exists(DossierWriter.MANIFEST)) {
            return "";
        }
        final List<String> roots =
                archive.names().stream()
                        .map(name -> name.substring(0, name.indexOf('/') + 1))
                        .distinct()
                        .toList();
        if (roots.size() == 1 && archive.exists(roots.get(0) + DossierWriter.MANIFEST)) {
            return roots.get(0);
        }
        throw new ProblemException(
                new Problem(
                        place.toString(),
                        0,
                        "",
                        "an archive without " + DossierWriter.MANIFEST + " of one dossier",
                        "the archive of one dossier",
                        "name the archive that 'splitledger evaluate --pack' has written"));
    }

    /** All its files. */
    Vault files() throws IOException {
        return packed.isPresent() ? packed.get() : FolderVault.of(place);
    }

    /** The copies of what was read. */
    public Vault inputs() throws IOException {
        return packed.isPresent()
                ? packed.get().below(DossierWriter.INPUTS)
                : FolderVault.of(place.resolve(DossierWriter.INPUTS));
    }

    /** Where the manifest stands, for messages. */
    String manifest() {
        return place.resolve(DossierWriter.MANIFEST).toString();
    }

    /** What the manifest states. */
    Stated stated() throws ProblemException, IOException {
        return Stated.read(manifest(), files());
    }

    @Override
    public void close() throws IOException {
        if (packed.isPresent()) {
            packed.get().close();
        }
    }
}
