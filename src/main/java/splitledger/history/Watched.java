package splitledger.history;

import java.util.Arrays;
import java.util.Optional;

/** The quantities that are watched over time, in the order of the page. */
enum Watched {
    DISCRIMINATION(
            "discrimination",
            "discrimination-per-100C",
            "discrimination per 100 degC",
            Scale.PLAIN,
            0,
            "",
            Advice.INLET),
    HEAVY_TO_LIGHT(
            "discrimination",
            "heavy-to-light-ratio",
            "heavy-to-light ratio",
            Scale.LOGARITHM,
            0,
            "",
            Advice.INLET),
    BREAKDOWN(
            "losses",
            "breakdown",
            "breakdown in the inlet",
            Scale.SHARE,
            1,
            "response-corrected",
            Advice.SURFACES),
    REPEATABILITY(
            "repeatability",
            "rsd-repeatability",
            "scatter of repeats",
            Scale.SPREAD,
            1,
            "moments",
            Advice.SCATTER),
    INTERMEDIATE(
            "repeatability",
            "rsd-intermediate",
            "scatter over days and people",
            Scale.SPREAD,
            1,
            "moments",
            Advice.DAYS),
    DETECTION(
            "detection",
            "detection-limit",
            "detection limit",
            Scale.LOGARITHM,
            1,
            "ISO 11843-2",
            Advice.NOISE),
    STANDARD_AREA(
            StandardAreas.CHARACTERISTIC,
            StandardAreas.AREA,
            "area of the internal standard",
            Scale.LOGARITHM,
            0,
            "",
            Advice.AREA),
    STANDARD_SCATTER(
            StandardAreas.CHARACTERISTIC,
            StandardAreas.SPREAD,
            "scatter of the internal standard's area",
            Scale.LOGARITHM,
            1,
            "",
            Advice.SCATTER),
    MEMBER(
            "discrimination",
            "relative-response",
            "relative response of a member",
            Scale.LOGARITHM,
            0,
            "",
            Advice.INLET);

    private final String characteristic;
    private final String quantity;
    private final String words;
    private final Scale scale;
    private final int worse;
    private final String preferred;
    private final String advice;

    Watched(
            String characteristic,
            String quantity,
            String words,
            Scale scale,
            int worse,
            String preferred,
            String advice) {
        this.characteristic = characteristic;
        this.quantity = quantity;
        this.words = words;
        this.scale = scale;
        this.worse = worse;
        this.preferred = preferred;
        this.advice = advice;
    }

    /** What it is, if it is watched. */
    static Optional<Watched> of(String characteristic, String quantity) {
        return Arrays.stream(values())
                .filter(w -> w.characteristic.equals(characteristic))
                .filter(w -> w.quantity.equals(quantity))
                .findFirst();
    }

    /** In words. */
    String words() {
        return words;
    }

    /** On which scale it scatters evenly. */
    Scale scale() {
        return scale;
    }

    /** Whether a change to this side, 1 up or -1 down, makes it worse. */
    boolean isWorse(int side) {
        return worse == 0 || worse == side;
    }

    /**
     * The method to be preferred where several give as many values; empty for the first by name.
     */
    String preferred() {
        return preferred;
    }

    /** How to look further. */
    String advice() {
        return advice;
    }

    /** Whether a figure is drawn only if there is something to see. */
    boolean isDetail() {
        return this == MEMBER;
    }

    /** What to look at on the bench; common practice, no source. */
    private static final class Advice {
        static final String INLET =
                "Inject the ladder again. If it stays, look at liner and packing, septum, seal,"
                        + " position of the column in the inlet and inlet temperature; a change that"
                        + " grows with boiling point speaks for the inlet or a cold spot, one compound"
                        + " alone for the standard or its integration. After the work, 'splitledger"
                        + " compare' tells whether the inlet is as it was.";
        static final String SURFACES =
                "Inject a fresh solution of the labile compound, to tell the standard's age from the"
                        + " inlet. Then look at the liner's deactivation, packing, seal and inlet"
                        + " temperature; 'splitledger explain losses' tells what the temperature does.";
        static final String SCATTER =
                "Look at syringe, septum and split flow, and for leaks; then repeat six injections of"
                        + " one vial. Scatter shared by all peaks comes from volume, split or detector,"
                        + " scatter of one peak from its integration.";
        static final String DAYS =
                "Look which factor of the repeatability study has grown: days, people or"
                        + " preparations. The report of the dossier named shows their shares.";
        static final String NOISE =
                "Look at the blanks of the dossier named: baseline, bleed, contamination of liner,"
                        + " septum or solvent, and the integration of small peaks.";
        static final String AREA =
                "Look whether all peaks moved together: volume, split ratio, detector or a new"
                        + " internal-standard solution. Measure the split flow, and inject the old"
                        + " solution beside the new one.";

        private Advice() {}
    }
}
