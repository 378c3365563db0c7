package splitledger.planning;

/**
 * What many simulated studies say of one quantity.
 *
 * @param condition as in findings
 * @param unit of {@code medianWidth}
 * @param estimates studies with value and two-sided interval
 * @param bounds studies with a bound only
 * @param nothing studies in which it was not estimable
 * @param coverage share of intervals that hold the truth; NaN without any
 * @param boundCoverage share of bounds that hold the truth; NaN without any
 * @param bias mean of (value - truth) / standard uncertainty; NaN without any
 * @param medianWidth of the intervals; NaN without any
 * @param verdicts criteria applied
 * @param wrong share of verdicts that the truth contradicts; NaN without any
 * @param undecided share of verdicts that were undecided or not shown; NaN without any
 */
public record CoverageRow(
        String characteristic,
        String compound,
        String condition,
        String quantity,
        String method,
        String unit,
        int estimates,
        int bounds,
        int nothing,
        double coverage,
        double boundCoverage,
        double bias,
        double medianWidth,
        int verdicts,
        double wrong,
        double undecided) {

    /** Whether it says where something is, rather than how wide or how small it is. */
    public boolean isLocation() {
        return Rules.LOCATIONS.contains(quantity);
    }

    /** Whether its coverage is what the rules want. */
    public Standing standing() {
        return Rules.standing(this);
    }

    /** How a coverage stands to the rules. */
    public enum Standing {
        /** Within the band. */
        HOLDS("holds"),
        /** Intervals are too narrow. */
        LOW("low"),
        /** Intervals are wider than they need to be. */
        HIGH("high"),
        /** Too few studies gave an interval to tell. */
        FEW("few");

        private final String code;

        Standing(String code) {
            this.code = code;
        }

        /** The name in files. */
        public String code() {
            return code;
        }
    }
}
