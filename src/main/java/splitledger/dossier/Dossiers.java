package splitledger.dossier;

import java.io.IOException;
import java.util.Optional;
import splitledger.base.ProblemException;
import splitledger.base.Vault;
import splitledger.study.Evaluation;

/** A place that holds dossiers by name, on whatever file system it lies. */
public interface Dossiers {
    /**
     * Says whether a dossier may be written under this name.
     *
     * @throws ProblemException if something is there that must stay
     */
    void check(String name) throws ProblemException, IOException;

    /**
     * Writes a dossier, all of it or nothing.
     *
     * @param inputs where its input files are read from
     * @return its study digest
     * @throws IOException if the place does not take it
     */
    String write(Evaluation evaluation, Vault inputs, String name)
            throws IOException, ProblemException;

    /**
     * What an earlier run left under a name, if it is whole and nothing has changed since.
     *
     * @param inputs where the study's files are read from
     * @param protocol its protocol in there
     */
    Optional<Shelf.Kept> kept(Vault inputs, String protocol, String name) throws IOException;
}
