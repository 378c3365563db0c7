package splitledger.virtual;

import java.util.List;

/**
 * Effects that a design may add to the plain inlet. A parameter that the design does not name has a
 * value without effect.
 */
public final class Effects {
    private Effects() {}

    /**
     * The share of a compound that stays in the hot needle, by boiling point; the same form as in
     * the inlet, without scatter.
     *
     * @param loss share far above the midpoint
     * @param midpoint boiling point of half that share, degC
     * @param width degC in which the share grows by the factor e, far below the midpoint
     */
    public record Needle(Parameter loss, Parameter midpoint, Parameter width) {}

    /** Which ratio a number is. */
    public enum Convention {
        /** (Vent + column flow) / column flow. */
        TOTAL_TO_COLUMN("total-to-column", 0),
        /** Vent flow / column flow. */
        VENT_TO_COLUMN("vent-to-column", 1);

        private final String code;
        private final double less;

        Convention(String code, double less) {
            this.code = code;
            this.less = less;
        }

        /** The name in files. */
        public String code() {
            return code;
        }

        /** The number of this convention for a ratio of total to column flow. */
        double of(double totalToColumn) {
            return totalToColumn - less;
        }

        /** What is to be added to the number to have the ratio of total to column flow. */
        double offset() {
            return less;
        }
    }

    /** Where the run list says how the split was set. */
    public enum Columns {
        RATIO("ratio"),
        RATIO_AND_FLOWS("ratio-and-flows"),
        FLOWS("flows");

        private final String code;

        Columns(String code) {
            this.code = code;
        }

        /** The name in files. */
        public String code() {
            return code;
        }

        boolean ratio() {
            return this != FLOWS;
        }

        boolean flows() {
            return this != RATIO;
        }
    }

    /**
     * The split as it is set, as it is told and as it acts.
     *
     * @param table which ratio the run list holds
     * @param protocol which one the protocol says that it holds
     * @param columns ratio, flows or both
     * @param meterGain relative error of the meter of the vent flow, one draw for the study
     * @param columnFlow relative error of the stated column flow, one draw for the study
     * @param exponent of the response in the true ratio, at {@code exponentAt}; 1 is ideal
     * @param exponentSlope its change per 100 degC of boiling point
     * @param exponentAt boiling point, degC
     * @param lowRatio ratio at which half of {@code lowDeviation} is lost
     * @param lowDeviation share of the response lost far below {@code lowRatio}: the part lost at
     *     the ratio r is deviation / (1 + (r / lowRatio)^4)
     * @param leak flow that leaves the inlet and is in no ratio that is told, in column flows
     */
    public record Split(
            Convention table,
            Convention protocol,
            Columns columns,
            Parameter meterGain,
            Parameter columnFlow,
            Parameter exponent,
            Parameter exponentSlope,
            Parameter exponentAt,
            Parameter lowRatio,
            Parameter lowDeviation,
            Parameter leak) {}

    /**
     * What levels are made of by dilution.
     *
     * @param name of the stock
     * @param levels made of it
     * @param mass relative error of the mass of a compound in it, one draw for each compound: it is
     *     the same in all its levels
     */
    public record Stock(String name, List<String> levels, Parameter mass) {
        public Stock {
            levels = List.copyOf(levels);
        }
    }

    /**
     * What goes wrong now and then, each by its probability.
     *
     * @param outliers of peaks that are measured badly
     * @param outlierSize by how much these are too high or too low, relative
     * @param missing of injections without a chromatogram
     * @param aborted of injections stopped before the last peak
     * @param reInjectedAs what is added to the label of the injection that replaces a stopped one;
     *     empty: none does
     * @param lostPreparations of numbered flasks that never reach the instrument
     */
    public record Mishaps(
            Parameter outliers,
            Parameter outlierSize,
            Parameter missing,
            Parameter aborted,
            String reInjectedAs,
            Parameter lostPreparations) {}
}
