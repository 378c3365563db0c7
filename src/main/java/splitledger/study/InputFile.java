package splitledger.study;

/**
 * A file that was read.
 *
 * @param role {@code protocol}, {@code area-table}, {@code run-list}, {@code compounds}, ...
 * @param name name in the vault it was read from
 * @param written the name as the protocol writes it
 * @param digest SHA-256 of its bytes
 */
public record InputFile(String role, String name, String written, String digest) {}
