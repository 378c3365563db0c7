package splitledger.dossier;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import splitledger.base.CsvRows;
import splitledger.base.Problem;
import splitledger.base.ProblemException;
import splitledger.base.Vault;
import splitledger.intake.StudyReader;
import splitledger.study.Study;

/**
 * What a dossier says, wherever it lies: a folder, an archive, another file system.
 *
 * @param study as it was read from the copies of its inputs
 * @param studyDigest of its inputs and results, as the manifest states it
 * @param results rows of results.csv, the header first
 */
public record DossierContents(Study study, String studyDigest, List<List<String>> results) {
    private static final String RESULTS = "results.csv";

    public DossierContents {
        results = List.copyOf(results);
    }

    /**
     * Opens a dossier after the digests of its inputs and of its table of results were compared;
     * reports and pictures may be missing.
     *
     * @param where its name for messages
     * @param vault the dossier, with its manifest at the top
     * @throws ProblemException if something is missing or was changed, or if it holds no protocol
     *     or several (that of a comparison)
     */
    public static DossierContents read(String where, Vault vault)
            throws ProblemException, IOException {
        final String manifest = where + "/" + DossierWriter.MANIFEST;
        final Stated stated = Stated.read(manifest, vault);
        final List<Problem> problems = new ArrayList<>(stated.changedInputs(where, vault));
        problems.addAll(stated.changed(where, vault, RESULTS));
        if (stated.protocols().size() != 1) {
            problems.add(DossierReader.notOne(manifest, stated.protocols().size()));
        }
        if (!problems.isEmpty()) {
            throw new ProblemException(problems);
        }
        final Study study = StudyReader.read(new InputsOf(vault), stated.protocols().get(0));
        return new DossierContents(
                study,
                stated.studyDigest(),
                CsvRows.of(new String(vault.read(RESULTS), StandardCharsets.UTF_8)));
    }

    /** The copies of the inputs under the names they had. */
    private record InputsOf(Vault dossier) implements Vault {
        @Override
        public java.io.InputStream open(String name) throws IOException {
            return dossier.open(DossierWriter.INPUTS + name);
        }

        @Override
        public void write(String name, byte[] bytes) throws IOException {
            throw new IOException("the inputs of a dossier are not written to");
        }

        @Override
        public boolean exists(String name) {
            return dossier.exists(DossierWriter.INPUTS + name);
        }
    }
}
