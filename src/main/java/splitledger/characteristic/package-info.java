/**
 * One class for each performance characteristic, listed in {@link
 * splitledger.characteristic.Catalogue}. Each answers one question from the rows its protocol block
 * chooses, says what it chose and why, and declares on its card every option it takes and every
 * quantity it gives. Start at {@link splitledger.characteristic.Characteristic}.
 *
 * <p>May use {@code study}, {@code inlet}, {@code propagation}, {@code statistics}. No files but
 * its own resource of limits that others set, no rounding.
 */
package splitledger.characteristic;
