/**
 * What is found of what is there: from spikes, standard addition, a reference material and the
 * split against cold on-column injection, by level and pooled where levels agree. Start at {@link
 * splitledger.characteristic.recovery.Recovery}; each kind has a class of its own ({@code
 * SpikeRecovery}, {@code AdditionRecovery}, {@code ReferenceRecovery}, {@code TransferRecovery}),
 * {@code RecoveryPooling} joins levels and {@code RecoveryRule} says what follows for results.
 *
 * <p>May use what {@code characteristic} may, its shared classes, and of {@code calibration} what
 * the added amounts are worth. No files, no rounding.
 */
package splitledger.characteristic.recovery;
