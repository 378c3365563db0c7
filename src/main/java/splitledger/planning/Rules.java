package splitledger.planning;

import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.planning.CoverageRow.Standing;

/**
 * What coverage must be, for intervals of 95 %: between 93.5 and 96.5 % for quantities that say
 * where something is; at least 93.5 % for standard deviations, ratios of them, and whatever lies
 * near a boundary. The band is widened by what the number of studies leaves open (2.6 standard
 * errors of a share of 95 %, that is 99 %).
 */
final class Rules {
    /** Quantities that say where something is. */
    static final List<String> LOCATIONS =
            List.of(
                    "intercept",
                    "slope",
                    "quadratic",
                    "predicted-amount",
                    "amount-by-addition",
                    "back-calculated-deviation",
                    "sensitivity-ratio",
                    "matrix-effect",
                    "split-exponent",
                    "split-exponent-slope",
                    "response-kept",
                    "convention-offset",
                    "effective-split-ratio",
                    "relative-response",
                    "discrimination-per-100C",
                    "heavy-to-light-ratio",
                    "discrimination-factor",
                    "response-change",
                    "breakdown",
                    "apparent-rate",
                    "activation-energy",
                    "highest-inlet-temperature",
                    "unexplained-deficit",
                    "remaining-loss",
                    "recovery",
                    "result");

    private static final double LEAST = 0.935;
    private static final double MOST = 0.965;
    private static final double NOMINAL = 0.95;
    private static final double NORMAL_99 = 2.5758;
    private static final int ENOUGH = 100;

    /**
     * Quantities with an interval that the design has no truth for, each with the reason; the names
     * of conditions follow the name of the quantity.
     */
    static final SortedMap<String, String> WITHOUT_TRUTH =
            told(
                    "budget result level",
                    "a budget at a level is for a sample that nobody made",
                    "budget top-down-ratio level",
                    "which causes a list leaves out is no property of the laboratory alone",
                    "calibration back-calculated-deviation level",
                    "what a level deviates from the line is its own draw",
                    "calibration residual-sd",
                    "is that at the calibrants' mean amount",
                    "detection critical-value",
                    "each document defines its own",
                    "repeatability share-common-mode",
                    "discrimination that changes with every injection has no single share",
                    "repeatability difference-between factor",
                    "the difference of two analysts is their own draw",
                    "detection detection-limit",
                    "each document defines its own",
                    "detection quantification-limit",
                    "each document defines its own",
                    "detection method-detection-limit",
                    "its estimand is the scatter of the spikes that happened to be made",
                    "detection method-detection-limit form",
                    "as the limit itself",
                    "split-linearity largest-split-deviation",
                    "its bound holds for all settings at once, the truth of each is that of the response kept",
                    "discrimination onset-boiling-point",
                    "a smooth fall has no onset");

    /**
     * Quantities whose intervals do not keep what they promise, each with the sentence that says
     * so.
     */
    static final Map<String, String> TOLD =
            Map.of(
                    "intercept",
                    "The scatter at amount 0 is known from the lowest levels alone: with few"
                            + " preparations the intercept's interval covers 92 to 94 %.",
                    "breakdown",
                    "With three injections a temperature the interval of the breakdown covers 92 to 94 %"
                            + " at the lowest temperature, and too much at the highest.",
                    "slope",
                    "With one preparation a level the slope's interval covers 93 %.",
                    "predicted-amount",
                    "With two preparations a level the interval of an amount covers 90 to 92 % in the"
                            + " middle and at the top of the range.",
                    "result",
                    "The result of a sample at the lowest level covers 92 to 95 %, since the constant"
                            + " part of the scatter is known from few preparations.",
                    "signal-sd-constant",
                    "Where the constant part of the scatter can be given at all, one study in four, its"
                            + " interval covers 89 %: those are the studies in which it came out large.");

    private Rules() {}

    /** Names with their sentences, in turn. */
    private static SortedMap<String, String> told(String... inTurn) {
        final SortedMap<String, String> all = new TreeMap<>();
        for (int i = 0; i < inTurn.length; i += 2) {
            all.put(inTurn[i], inTurn[i + 1]);
        }
        return Collections.unmodifiableSortedMap(all);
    }

    static Standing standing(CoverageRow row) {
        if (row.estimates() < ENOUGH) {
            return Standing.FEW;
        }
        final double open =
                NORMAL_99 * Math.sqrt(NOMINAL * (1 - NOMINAL) / row.estimates())
                        - NORMAL_99 * Math.sqrt(NOMINAL * (1 - NOMINAL) / REFERENCE);
        final double slack = Math.max(0, open);
        if (row.coverage() < LEAST - slack) {
            return Standing.LOW;
        }
        return row.isLocation() && row.coverage() > MOST + slack ? Standing.HIGH : Standing.HOLDS;
    }

    /** Studies of the stored table, for which the band is meant as it stands. */
    private static final int REFERENCE = 10_000;
}
