package splitledger.report;

/**
 * By which a study's pages are known: it stands on every sheet of paper and on the extract.
 *
 * @param program version of the program
 * @param revision of its source
 * @param digest study digest, 64 hexadecimal digits
 */
public record PaperStamp(String program, String revision, String digest) {}
