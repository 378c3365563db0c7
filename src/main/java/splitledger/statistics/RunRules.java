package splitledger.statistics;

import java.util.ArrayList;
import java.util.List;

/**
 * The classical rules for points on a chart with zones of one, two and three standard deviations
 * about its centre. A rule speaks at the point that completes its pattern. Average number of
 * in-control values between false signals, limits known and values normal: 370 for the first rule
 * alone, 92 for all four (Champ and Woodall, Technometrics 29 (1987) 393, from memory; a test
 * simulates them). Rules: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2, from memory.
 */
public final class RunRules {
    private RunRules() {}

    /** A rule. */
    public enum Rule {
        /** One point more than three standard deviations away. */
        BEYOND_THREE(1, 1, 3, "beyond the limits"),
        /** Two of three points in a row more than two away on the same side. */
        TWO_OF_THREE(2, 3, 2, "two of three in a row far out on one side"),
        /** Four of five points in a row more than one away on the same side. */
        FOUR_OF_FIVE(4, 5, 1, "four of five in a row off centre on one side"),
        /** Eight points in a row on the same side. */
        EIGHT_IN_A_ROW(8, 8, 0, "eight in a row on one side of the centre");

        private final int least;
        private final int among;
        private final double zone;
        private final String words;

        Rule(int least, int among, double zone, String words) {
            this.least = least;
            this.among = among;
            this.zone = zone;
            this.words = words;
        }

        /** In words. */
        public String words() {
            return words;
        }
    }

    /**
     * A rule that speaks.
     *
     * @param side 1 above the centre, -1 below
     */
    public record Signal(Rule rule, int side) {}

    /**
     * What each point completes.
     *
     * @param z deviations from the centre in standard deviations, in order of time; infinite ones
     *     count, NaN never does
     * @return as many lists as points, empty where no rule speaks
     */
    public static List<List<Signal>> of(double... z) {
        final List<List<Signal>> all = new ArrayList<>();
        for (int i = 0; i < z.length; i++) {
            final List<Signal> here = new ArrayList<>();
            for (Rule rule : Rule.values()) {
                for (int side = 1; side >= -1; side -= 2) {
                    if (completes(rule, side, z, i)) {
                        here.add(new Signal(rule, side));
                    }
                }
            }
            all.add(List.copyOf(here));
        }
        return List.copyOf(all);
    }

    private static boolean completes(Rule rule, int side, double[] z, int at) {
        if (!(side * z[at] > rule.zone)) {
            return false;
        }
        int count = 0;
        for (int j = Math.max(0, at - rule.among + 1); j <= at; j++) {
            if (side * z[j] > rule.zone) {
                count++;
            }
        }
        return count >= rule.least;
    }
}
