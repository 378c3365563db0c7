package splitledger.budget;

import splitledger.propagation.UncertainLine;

/**
 * What a relative precision leaves out at small amounts. A precision found at one amount is taken
 * in proportion; constant scatter (noise, integration) is not proportional, and below the amount
 * studied it is more than that factor says. Of the scatter that the calibrants show at an amount,
 * the part beyond the factor is kept, and no more than the constant part that the factor, scaled
 * down from the amount studied, misses: s0^2 (1 - (c / c_studied)^2).
 */
final class OwnScatter {
    private OwnScatter() {}

    /**
     * Share of the variance of an own result's scatter that stays, from 0 to 1.
     *
     * @param line of the compound
     * @param amount found
     * @param precision of the factor
     */
    static double beside(UncertainLine line, double amount, SpreadInput.Found precision) {
        final double slope = line.slopeAt(amount);
        final double whole = line.scatter(amount) / (slope * slope);
        if (!(whole > 0) || !(precision.studied() > amount)) {
            return 0;
        }
        final double held = precision.within() * amount;
        final double ratio = amount / precision.studied();
        final double constant = line.scatter(0) / (slope * slope) * (1 - ratio * ratio);
        return Math.max(0, Math.min(1, Math.min(constant, whole - held * held) / whole));
    }
}
