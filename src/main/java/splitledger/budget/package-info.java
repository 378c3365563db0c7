/**
 * Uncertainty budgets: takes the measurement equation apart, gives each symbol its value with its
 * roots, drops what would be counted twice, propagates to first order and by Monte Carlo, and says
 * where the uncertainty comes from. Start at {@link splitledger.budget.Budgets}.
 *
 * <p>May use {@code study}, {@code propagation}, {@code statistics}. Gets findings, never
 * characteristics.
 */
package splitledger.budget;
