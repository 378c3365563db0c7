/**
 * Physics of the split inlet: viscosity of carrier gases, flow through an open column, hold-up
 * time, split ratio in both conventions, volume of the vapour, residence time, use of gas.
 * Everything in SI units, pressures absolute; start at {@link splitledger.inlet.SplitInlet}.
 * Equations are text that is propagated, so that every value carries the uncertainties of what went
 * in. No files, no tables.
 */
package splitledger.inlet;
