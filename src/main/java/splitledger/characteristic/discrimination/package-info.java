/**
 * Whether the fraction that reaches the column depends on the boiling point: a ladder of members
 * that keep whole, the curve through it with its band, and factors for the targets. Start at {@link
 * splitledger.characteristic.discrimination.Discrimination}; {@code LadderRows} collects the
 * ladder, {@code DiscriminationModel} holds the fitted curve with its roots.
 *
 * <p>May use what {@code characteristic} may, and its shared classes; no other characteristic. No
 * files, no rounding.
 */
package splitledger.characteristic.discrimination;
