package splitledger.dossier;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
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
     * @param dossier the dossier
     * @param place its name for messages
     * @return the protocol's name among {@link OpenDossier#inputs}
     * @throws ProblemException if something is missing or was changed, naming each file, or if the
     *     dossier holds no protocol or several (that of a comparison)
     */
    public static String protocol(OpenDossier dossier, String place)
            throws ProblemException, IOException {
        final Stated stated = dossier.stated();
        final List<Problem> problems =
                new ArrayList<>(stated.changedInputs(place, dossier.files()));
        problems.addAll(stated.changedOutputs(place, dossier.files()));
        if (stated.protocols().size() != 1) {
            problems.add(notOne(dossier.manifest(), stated.protocols().size()));
        }
        if (!problems.isEmpty()) {
            throw new ProblemException(problems);
        }
        return stated.protocols().get(0);
    }

    /**
     * The protocol's copy in the folder of a dossier, after its digests were compared; its tables
     * lie beside it as they did.
     *
     * @throws ProblemException as the other
     */
    public static Path protocol(Path folder) throws ProblemException, IOException {
        try (OpenDossier dossier = OpenDossier.of(folder)) {
            return folder.resolve(DossierWriter.INPUTS + protocol(dossier, folder.toString()));
        }
    }

    /**
     * The study of a dossier as it was read, after its digests were compared.
     *
     * @param place the dossier's folder or archive
     * @throws ProblemException as {@link #protocol}, or if this program cannot read the protocol
     */
    public static Study study(Path place) throws ProblemException, IOException {
        try (OpenDossier dossier = OpenDossier.of(place)) {
            return StudyReader.read(dossier.inputs(), protocol(dossier, place.toString()));
        }
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
                                    : "no such folder or archive",
                            "the dossier of an evaluation",
                            "name the folder that 'splitledger evaluate --out' has written, or"
                                    + " its archive"));
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
