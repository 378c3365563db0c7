package splitledger.cli;

import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import splitledger.base.ProblemException;
import splitledger.dossier.DossierReader;
import splitledger.dossier.OpenDossier;

/**
 * One side of a comparison as it was named: a protocol, a dossier's folder, or a packed dossier,
 * whose files are then called as if the archive were a folder.
 *
 * @param anchor the nearest folder on the disk that holds its protocol
 * @param protocol real path of its protocol, that of an archive followed by the name in it
 * @param packed the archive; empty if it is none
 */
record ComparedStudy(Path anchor, Path protocol, Optional<Packed> packed) implements Closeable {

    /**
     * A packed dossier.
     *
     * @param folder what its inputs are called as a folder
     */
    record Packed(OpenDossier dossier, Path folder) {}

    /**
     * Finds it.
     *
     * @param named as typed
     * @throws ProblemException if it is neither, or a dossier that is not what it was
     */
    static ComparedStudy of(Path named) throws ProblemException, IOException {
        if (!OpenDossier.isArchive(named)) {
            final Path protocol =
                    ProtocolFile.present(
                            DossierReader.isDossier(named) ? DossierReader.protocol(named) : named,
                            "a protocol file, or a dossier with its manifest.json, or its archive");
            return new ComparedStudy(folderOf(protocol), protocol, Optional.empty());
        }
        final OpenDossier dossier = OpenDossier.of(named);
        try {
            final Path archive = named.toRealPath();
            final String protocol = DossierReader.protocol(dossier, named.toString());
            final Path folder = archive.resolve("inputs");
            return new ComparedStudy(
                    folderOf(archive),
                    folder.resolve(protocol),
                    Optional.of(new Packed(dossier, folder)));
        } catch (ProblemException | IOException e) {
            dossier.close();
            throw e;
        }
    }

    private static Path folderOf(Path file) throws IOException {
        final Path folder = file.getParent();
        if (folder == null) {
            throw new IOException("'" + file + "' stands in no folder");
        }
        return folder;
    }

    @Override
    public void close() throws IOException {
        if (packed.isPresent()) {
            packed.get().dossier().close();
        }
    }
}
