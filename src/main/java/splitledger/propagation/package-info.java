/**
 * How uncertainty moves: independent standardised {@link splitledger.propagation.Root roots},
 * estimates as sparse sums over them ({@link splitledger.propagation.Uncertain}), measurement
 * equations as one syntax tree ({@link splitledger.propagation.Expression}), the law of propagation
 * and Monte Carlo on top. Start at {@code Uncertain}.
 *
 * <p>May use {@code statistics}. Estimates that share roots correlate by construction; nobody
 * writes a covariance by hand. No files, no tables, no state.
 */
package splitledger.propagation;
