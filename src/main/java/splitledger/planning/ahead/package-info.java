/**
 * Planning a study before its first injection: from standard deviations known beforehand and a
 * wanted figure to the cheapest design, its expected figures, its run order and the protocol that
 * will evaluate it. Start at {@link splitledger.planning.ahead.Planner}.
 *
 * <p>House rules: closed forms where they exist, draws from their laws to confirm; nothing goes
 * below the minima of {@link splitledger.evaluation.Minima}; every number that the laboratory did
 * not give is marked as such. Same plan file, same bytes.
 */
package splitledger.planning.ahead;
