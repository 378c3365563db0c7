/**
 * Studies side by side: before and after a piece of work on the instrument. Start at {@link
 * splitledger.history.Occasions}, which makes one study of two; what the work asks to be checked
 * stands in {@link splitledger.history.Checks}.
 *
 * <p>May use {@code dossier}, {@code evaluation}, {@code study}.
 */
package splitledger.history;
