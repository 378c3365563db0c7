/**
 * Pure mathematics on arrays: moments, lines, nested analysis of variance, quantiles, random
 * streams. Start at {@link splitledger.statistics.LineFitter}.
 *
 * <p>House rules: arrays in, immutable records out; no files, clock, locale or static state;
 * nothing is rounded. Every public method states its formula, its source, its units, and what
 * happens with too few points, zero spread and NaN. Knows no chromatography. May use Commons Math
 * and Commons RNG core.
 */
package splitledger.statistics;
