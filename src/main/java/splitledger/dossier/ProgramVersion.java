package splitledger.dossier;

/**
 * Which program wrote a dossier.
 *
 * @param program version of the program
 * @param revision revision of its source; {@code unknown} outside a checkout
 */
public record ProgramVersion(String program, String revision) {}
