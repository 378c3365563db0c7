package splitledger.characteristic.recovery;

import splitledger.propagation.Uncertain;
import splitledger.study.Rows;

/**
 * What one independent unit of the experiment says of the recovery, as a rule one preparation.
 *
 * @param level its level; empty if there is none
 * @param day empty if not told
 * @param amount amount added or certified, for figures
 * @param recovery with the causes that it shares with others; its own scatter is not in it
 * @param rows it rests on
 */
record RecoveryUnit(String level, String day, double amount, Uncertain recovery, Rows rows) {}
