/**
 * What every room needs and no room owns: names that can be opened and written ({@link
 * splitledger.base.Vault}), one number writer ({@link splitledger.base.Numbers}), CSV and JSON
 * text, digests, and the words in which a user's mistake is told ({@link
 * splitledger.base.Problem}). Start at {@code Vault} and {@code Problem}.
 *
 * <p>May use the JDK alone. Knows nothing of chemistry or statistics.
 */
package splitledger.base;
