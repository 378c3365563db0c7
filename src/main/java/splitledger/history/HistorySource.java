package splitledger.history;

import java.io.IOException;
import splitledger.base.ProblemException;

/** Where the past of instruments is read from: a folder of dossiers, a table, a cluster. */
public interface HistorySource {
    /**
     * Reads it.
     *
     * @throws ProblemException if nothing can be told from it
     */
    History read() throws ProblemException, IOException;
}
