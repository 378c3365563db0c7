package splitledger.history;

import java.util.List;
import java.util.Locale;

/**
 * What the laboratory decides about its charts.
 *
 * @param anewAfter words: work whose name holds one of them begins a stretch with limits of its own
 * @param base how many of the first values of a stretch set its limits, at least 4
 */
public record TrendOptions(List<String> anewAfter, int base) {
    /** Common practice is 20 to 25 values; no source. */
    public static final int USUAL_BASE = 20;

    /** With fewer values there are no limits. */
    public static final int LEAST_BASE = 4;

    public TrendOptions {
        anewAfter = List.copyOf(anewAfter);
        if (base < LEAST_BASE) {
            throw new IllegalArgumentException(
                    "base = " + base + ", must be at least " + LEAST_BASE);
        }
    }

    /** Limits run through all work. */
    public static TrendOptions usual() {
        return new TrendOptions(List.of(), USUAL_BASE);
    }

    /** Whether work begins a new stretch. */
    boolean isBoundary(History.Work work) {
        final String what = work.what().toLowerCase(Locale.ROOT);
        return anewAfter.stream().anyMatch(w -> what.contains(w.toLowerCase(Locale.ROOT)));
    }
}
