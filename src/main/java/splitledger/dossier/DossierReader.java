package splitledger.dossier;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import splitledger.base.FolderVault;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.base.Vault;
import splitledger.intake.StudyReader;
import splitledger.study.Study;

/** Opens a dossier that an evaluation left, if it is still what it was. */
public final class DossierReader {
    private DossierReader() {}

    /** Whether a folder holds a dossier. */
    public static boolean isDossier(Path folder) {
        return Files.isRegularFile(folder.resolve(DossierWriter.MANIFEST));
    }

    /**
     * The protocol in a dossier, after its digests were compared: every input and every file of
     * results must be there and unchanged.
     *
     * @param folder the dossier
     * @return the protocol's copy; its tables lie beside it as they did
     * @throws ProblemException if something is missing or was changed, naming each file, or if the
     *     dossier holds no protocol or several (that of a comparison)
     */
    public static Path protocol(Path folder) throws ProblemException, IOException {
        final Vault vault = FolderVault.of(folder);
        final String where = folder.resolve(DossierWriter.MANIFEST).toString();
        final Stated stated = Stated.read(where, vault);
        final List<Problem> problems =
                new ArrayList<>(stated.changedInputs(folder.toString(), vault));
        problems.addAll(stated.changedOutputs(folder.toString(), vault));
        if (stated.protocols().size() != 1) {
            problems.add(notOne(where, stated.protocols().size()));
        }
        if (!problems.isEmpty()) {
            throw new ProblemException(problems);
        }
        return folder.resolve(DossierWriter.INPUTS + stated.protocols().get(0));
    }

    /**
     * The study of a dossier as it was read, after its digests were compared.
     *
     * @param folder the dossier
     * @throws ProblemException as {@link #protocol}, or if this program cannot read the protocol
     */
    public static Study study(Path folder) throws ProblemException, IOException {
        requireDossier(folder);
        protocol(folder);
        final Vault vault = FolderVault.of(folder);
        final Stated stated = Stated.read(folder.resolve(DossierWriter.MANIFEST).toString(), vault);
        return study(folder, stated);
    }

    /** The study of the one protocol that a manifest names, from the copies in the dossier. */
    static Study study(Path folder, Stated stated) throws ProblemException, IOException {
        return StudyReader.read(
                FolderVault.of(folder.resolve(DossierWriter.INPUTS)), stated.protocols().get(0));
    }

    /** Refuses what is no dossier. */
    static void requireDossier(Path folder) throws ProblemException {
        if (!isDossier(folder)) {
            throw new ProblemException(
                    new Problem(
                            folder.toString(),
                            0,
                            "",
                            Files.isDirectory(folder)
                                    ? "a folder without " + DossierWriter.MANIFEST
                                    : "no such folder",
                            "the dossier of an evaluation",
                            "name the folder that 'splitledger evaluate --out' has written"));
        }
    }

    /** What to say where a dossier holds no protocol or several. */
    static Problem notOne(String manifest, int protocols) {
        return new Problem(
                manifest,
                0,
                "inputs",
                protocols + " protocols",
                "the dossier of one evaluation, with one protocol",
                "name a folder that 'splitledger evaluate' has written");
    }
}
