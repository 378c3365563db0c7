/**
 * How injections, preparations, days, analysts and instruments agree: the scatter of each factor
 * with intervals by moments and by restricted likelihood, at one level and over levels, screened
 * rows, drift and carry-over, the scatter compounds share. Start at {@link
 * splitledger.characteristic.precision.Repeatability}, whose id in a protocol is {@code
 * repeatability}; {@code PrecisionLayouts} works a design out, {@code PrecisionFindings} says what
 * it gives, {@code Screening} flags rows.
 *
 * <p>May use what {@code characteristic} may, and its shared classes; no other characteristic. No
 * files, no rounding.
 */
package splitledger.characteristic.precision;
