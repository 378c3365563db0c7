/**
 * The virtual inlet: from a design file to tables as a data system and a bench would leave them,
 * and to the values behind them, which no real laboratory ever knows. Start at {@link
 * splitledger.virtual.Simulation}; an injection is made in {@link splitledger.virtual.VirtualInlet}
 * out of small parts, one cause each; what a design may hold is in {@link
 * splitledger.virtual.Design}, {@link splitledger.virtual.Effects} and {@link
 * splitledger.virtual.Plan}, what is true of it in {@link splitledger.virtual.Truth}.
 *
 * <p>House rules: pure and seeded. Every effect of every injection has a stream of random numbers
 * of its own, named after it ({@link splitledger.virtual.Streams}), so that a result depends
 * neither on the order of evaluation nor on what else the design holds. Every parameter has a unit
 * and a stated basis. May use {@code intake} (its YAML reader), {@code study}, {@code inlet},
 * {@code propagation}, {@code statistics}.
 */
package splitledger.virtual;
