package splitledger.intake;

import java.util.Arrays;
import java.util.Set;
import java.util.TreeSet;

/**
 * Which areas of a compound repeat though chance does not explain it: with k areas within half a
 * percent of one, written in steps of q, about (k - 1) q / (1 % of the area) of them would equal it
 * by chance, and this must be below 1 in 1000 (our own rule, no source).
 */
final class ChanceRepeats {
    private static final double CHANCE = 0.001;
    private static final double WINDOW = 0.01;
    private static final int SAMPLE = 10_000;
    private static final int MOST_DECIMALS = 9;
    private static final double NEAR = 1e-9;

    private ChanceRepeats() {}

    /**
     * The values that occur more than once though chance does not explain it.
     *
     * @param areas of one compound; sorted in place
     */
    static Set<Double> suspects(double[] areas) {
        final double step = step(areas);
        Arrays.sort(areas);
        final Set<Double> suspects = new TreeSet<>();
        for (int i = 1; i < areas.length; i++) {
            if (areas[i] != areas[i - 1]) {
                continue;
            }
            final double size = Math.abs(areas[i]);
            final double most = CHANCE * WINDOW * size / step + 1;
            if (most < 2 || isCrowded(areas, i, most, size * WINDOW / 2)) {
                continue;
            }
            suspects.add(areas[i]);
        }
        return suspects;
    }

    /** Whether more than so many sorted values lie within a distance of one of them. */
    private static boolean isCrowded(double[] sorted, int at, double most, double distance) {
        int low = at;
        int high = at;
        while (high - low + 1 <= most) {
            if (low > 0 && sorted[at] - sorted[low - 1] <= distance) {
                low--;
            } else if (high + 1 < sorted.length && sorted[high + 1] - sorted[at] <= distance) {
                high++;
            } else {
                return false;
            }
        }
        return true;
    }

    /** The step in which areas are written: a power of ten, from the first of them. */
    private static double step(double[] areas) {
        int decimals = 0;
        double power = 1;
        for (int i = 0; i < Math.min(areas.length, SAMPLE); i++) {
            while (decimals < MOST_DECIMALS && !isWhole(areas[i] * power)) {
                decimals++;
                power *= 10;
            }
        }
        return 1 / power;
    }

    private static boolean isWhole(double value) {
        return Math.abs(value - Math.rint(value)) <= NEAR * Math.max(1, Math.abs(value));
    }
}
