/**
 * What a response means: the line (or curve) of each compound through its preparations, the scatter
 * about it with a constant and a proportional part, checks of the line, amounts read off it,
 * standard additions, and lines of groups beside each other. Start at {@link
 * splitledger.characteristic.calibration.Calibration}; {@code CalibrationFit} fits one compound,
 * {@code CalibrationFindings} and {@code ScatterFindings} say what the fit gives, {@code
 * AmountErrors} knows what the calibrants' amounts themselves are worth.
 *
 * <p>May use what {@code characteristic} may, and its shared classes; no other characteristic. No
 * files, no rounding.
 */
package splitledger.characteristic.calibration;
