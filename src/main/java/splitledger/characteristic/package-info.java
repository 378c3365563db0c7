/**
 * One class for each performance characteristic, listed in {@link
 * splitledger.characteristic.Catalogue}. Each answers one question from the rows its protocol block
 * chooses, says what it chose and why, and declares on its card every option it takes and every
 * quantity it gives. Start at {@link splitledger.characteristic.Characteristic}, then read the room
 * of the characteristic you came for: {@code calibration}, {@code precision}, {@code detection},
 * {@code split}, {@code discrimination}, {@code losses}, {@code recovery}, {@code maintenance}.
 *
 * <p>In a room the class that implements {@code Characteristic} decides the order of work; {@code
 * ...Card} holds its options and quantities, {@code ...Findings} turns fits into findings, {@code
 * ...Figures} into figure data. Here stand only the classes that several of them share.
 *
 * <p>May use {@code study}, {@code inlet}, {@code propagation}, {@code statistics}. Shared classes
 * know no characteristic; only the catalogue knows all. No files but its own resource of limits
 * that others set, no rounding.
 */
package splitledger.characteristic;
