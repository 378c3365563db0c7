package splitledger.spark;

import java.io.Serializable;

/**
 * One study to be evaluated somewhere.
 *
 * @param name of its dossier
 * @param shown the protocol as tables of the run name it
 * @param protocol its whole address
 * @param wasThere whether something stood under the name when the run began
 */
record StudyWork(String name, String shown, String protocol, boolean wasThere)
        implements Serializable {}
