/**
 * Studies side by side: before and after a piece of work. Start at {@link
 * splitledger.history.Occasions}.
 */
package splitledger.history;
