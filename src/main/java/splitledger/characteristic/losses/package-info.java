/**
 * What decomposes or stays behind in the hot inlet: breakdown from parents and products, over inlet
 * temperatures the apparent rate and activation energy, and what is missing against the ladder
 * where products are not seen. Start at {@link splitledger.characteristic.losses.Losses}; {@code
 * LossRows} collects ratios, {@code LossBasis} says what they are measured against, {@code
 * LossLine} fits them over temperature, {@code LossDeficit} compares with the ladder.
 *
 * <p>May use what {@code characteristic} may, its shared classes, and {@code discrimination}, whose
 * ladder says what should have arrived. No files, no rounding.
 */
package splitledger.characteristic.losses;
