/**
 * Simulated studies against the real evaluation: what the intervals and verdicts of this program
 * are worth where the truth is known. Start at {@link splitledger.planning.Coverage}; the
 * laboratories that are simulated are the design files among the resources of this room, named in
 * {@link splitledger.planning.Scenario}.
 *
 * <p>House rules: the harness knows no formula. It simulates tables, reads them as any table is
 * read, evaluates them, and compares findings with the truth of the simulation by their keys. Same
 * numbers for any number of threads. May use {@code virtual}, {@code evaluation}, {@code dossier},
 * {@code study} and what they use.
 */
package splitledger.planning;
