package splitledger.budget;

import java.util.Optional;
import java.util.SortedMap;
import splitledger.propagation.Unit;

/** What to say where an interval reaches below zero and the quantity cannot. */
final class BelowZero {
    private BelowZero() {}

    /**
     * The words; empty if there is nothing to say.
     *
     * @param unit of the result
     * @param amount whether the result comes from an amount found, and is one therefore
     */
    static String words(double value, double lower, String unit, boolean amount) {
        if (!(lower < 0) || !(amount || isAmount(unit))) {
            return "";
        }
        return value < 0
                ? "the value lies below 0, and an amount cannot: it is what the measurement gave, not an amount"
                : "the interval reaches below 0, and an amount cannot be negative: read its lower end as 0, and do"
                        + " not report the amount as shown to be above 0";
    }

    /** Masses, volumes, amounts of substance, and ratios of them written with a slash. */
    private static boolean isAmount(String unit) {
        final Optional<Unit> parsed = Unit.parse(unit);
        if (parsed.isEmpty() || unit.equals("1") || unit.isBlank()) {
            return false;
        }
        final SortedMap<String, Integer> powers = parsed.get().powers();
        if (powers.isEmpty()) {
            return unit.indexOf('/') > 0;
        }
        final int mass = powers.getOrDefault("kg", 0);
        final int substance = powers.getOrDefault("mol", 0);
        final int length = powers.getOrDefault("m", 0);
        final boolean nothingElse = powers.keySet().stream().allMatch(n -> "kg mol m".contains(n));
        return nothingElse
                && (mass == 1 || substance == 1 || (mass == 0 && substance == 0 && length == 3))
                && (length == 0 || length == -3 || length == 3);
    }
}
