/**
 * Whether the inlet is as it was before maintenance: the change of every member with its
 * equivalence, and the injections the next check needs. Start at {@link
 * splitledger.characteristic.maintenance.Maintenance}; {@code MaintenanceRows} pairs before and
 * after, {@code OccasionScatter} says how much occasions differ when nothing was done.
 *
 * <p>May use what {@code characteristic} may, its shared classes, and of {@code precision} the
 * scatter between days. No files, no rounding.
 */
package splitledger.characteristic.maintenance;
