package splitledger.report;

/**
 * What stands on every sheet of paper.
 *
 * @param program version of the program
 * @param revision of its source
 * @param digest study digest, 64 hexadecimal digits
 */
public record PaperStamp(String program, String revision, String digest) {}
