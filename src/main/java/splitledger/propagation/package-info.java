/**
 * How uncertainty moves: independent standardised {@link splitledger.propagation.Root roots},
 * estimates as sparse sums over them ({@link splitledger.propagation.Uncertain}), measurement
 * equations as one syntax tree ({@link splitledger.propagation.Expression}), on top the law of
 * propagation to first and second order, Monte Carlo, and their comparison; units as far as a bench
 * writes them. Start at {@code Uncertain}.
 *
 * <p>May use {@code statistics}. Estimates that share roots correlate by construction; nobody
 * writes a covariance by hand. No files, no tables, no state.
 */
package splitledger.propagation;
