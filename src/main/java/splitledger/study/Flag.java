package splitledger.study;

/**
 * Something about the data that a reader must see: a repeated area, an ignored peak, a row left
 * out.
 *
 * @param place file and line; {@link Place#NONE} if it is about no single row
 * @param subject injection, compound or column it is about
 * @param what in words
 */
public record Flag(Place place, String subject, String what) {}
