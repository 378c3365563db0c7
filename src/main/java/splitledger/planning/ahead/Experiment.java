package splitledger.planning.ahead;

import java.util.List;
import java.util.Map;

/** A part of a study that answers one question, sized by a closed form of its own. */
sealed interface Experiment
        permits SplitExperiment, HeatExperiment, LadderExperiment, RecoveryExperiment {
    /** What is injected, one list of parts for each day on which it must be done. */
    List<List<Part>> days();

    /** Amounts of its levels, mg/L, by label and compound. */
    Map<String, Map<String, Double>> levels();

    /** Its lines under {@code characteristics} of the protocol. */
    String block();

    /** Compounds of the ladder that it needs. */
    default List<String> ladder() {
        return List.of();
    }

    /** Solutions that are made for it. */
    int solutions();

    /** What is expected of its figure; a figure in percent as a fraction. */
    Expected expected();

    /** The figure, as the protocol's quantities are called. */
    String figure();

    /** Compound whose figure it is. */
    String compound();

    /** Half width wanted; a figure in percent as a fraction. */
    double wanted();

    /** Unit in which the figure is shown. */
    String unit();

    /** Counts and settings with their reasons. */
    List<Setting> settings();

    /** Share of studies that find the wanted half width. */
    default double chance() {
        return expected().chance(wanted());
    }

    /**
     * A number of the design.
     *
     * @param why in words
     */
    record Setting(String quantity, double value, String unit, String why) {}

    /** What an experiment costs with days of its own. */
    static double cost(PlanFile file, int days, int solutions, int injections) {
        final PlanFile.Costs c = file.costs();
        return days * c.day() + solutions * c.preparation() + injections * c.injection();
    }

    static double square(double x) {
        return x * x;
    }
}
