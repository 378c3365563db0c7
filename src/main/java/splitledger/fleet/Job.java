package splitledger.fleet;

import java.io.IOException;
import splitledger.base.ProblemException;
import splitledger.base.Vault;

/**
 * One study of a run.
 *
 * @param name of its dossier, unique in the run
 * @param shown the protocol as tables of the run name it: its folder and file
 * @param source how its files are reached; asked for by the worker, so that a protocol that is not
 *     there stops no other study
 */
public record Job(String name, String shown, Source source) {

    /** Finds a study's files. */
    @FunctionalInterface
    public interface Source {
        /**
         * Where they are.
         *
         * @throws ProblemException if the protocol is not there or lies where it may not
         */
        Located find() throws ProblemException, IOException;
    }

    /**
     * A study's files.
     *
     * @param inputs where they are read from
     * @param protocol the protocol's name in there
     */
    public record Located(Vault inputs, String protocol) {}
}
