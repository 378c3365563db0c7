/**
 * Whether responses follow the split ratio: exponents, what is kept at each ratio, the offset of
 * the convention, the effective ratio, and what a departure is consistent with. Start at {@link
 * splitledger.characteristic.split.SplitLinearity}; {@code SplitSetUps} finds the runs at one
 * ratio, {@code SplitFindings} and {@code SplitTogether} say what they give, {@code SplitDiagnosis}
 * what a departure looks like.
 *
 * <p>May use what {@code characteristic} may, its shared classes, and of {@code losses} the names
 * of what decomposes, which are left out. No files, no rounding.
 */
package splitledger.characteristic.split;
