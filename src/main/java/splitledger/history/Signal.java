package splitledger.history;

import splitledger.statistics.RunRules;

/**
 * Something that a point of a chart shows.
 *
 * @param kind what
 * @param side 1 above the centre, -1 below, 0 if neither
 * @param act whether it asks for action, or only to keep an eye on it
 */
record Signal(Kind kind, int side, boolean act) {

    /** What a point can show. */
    enum Kind {
        BEYOND("beyond-limits", "beyond the limits", true),
        AVERAGE("average", "average of the recent values beyond its limits", true),
        EIGHT("eight", "eight in a row on one side of the centre", true),
        TWO_OF_THREE("two-of-three", "two of three in a row far out on one side", false),
        FOUR_OF_FIVE("four-of-five", "four of five in a row off centre on one side", false),
        JUMP("jump", "a jump between two dossiers", false),
        STEP("step", "a step larger than three times its own uncertainty", false),
        DIFFERS("differs", "another value than all before, which were equal", false);

        private final String code;
        private final String words;
        private final boolean act;

        Kind(String code, String words, boolean act) {
            this.code = code;
            this.words = words;
            this.act = act;
        }

        /** The name in files. */
        String code() {
            return code;
        }

        /** In words. */
        String words() {
            return words;
        }

        /** The kind of a run rule. */
        static Kind of(RunRules.Rule rule) {
            return switch (rule) {
                case BEYOND_THREE -> BEYOND;
                case TWO_OF_THREE -> TWO_OF_THREE;
                case FOUR_OF_FIVE -> FOUR_OF_FIVE;
                case EIGHT_IN_A_ROW -> EIGHT;
            };
        }
    }

    /** A signal; one to the better side asks for no action. */
    static Signal of(Kind kind, int side, Watched watched) {
        return new Signal(kind, side, kind.act && watched.isWorse(side));
    }
}
