package splitledger.intake;

import java.util.List;

/** The canonical names of columns. */
final class Columns {
    static final String INJECTION = "injection";
    static final String COMPOUND = "compound";
    static final String AREA = "area";
    static final String ORDER = "order";
    static final String PREPARATION = "preparation";
    static final String SPLIT_RATIO = "split_ratio";
    static final String AMOUNT = "amount";
    static final String ACQUIRED = "acquired";
    static final String DAY = "day";
    static final String BATCH = "batch";

    /** What is the matter with a row or its area; see {@link splitledger.study.State}. */
    static final String STATE = "state";

    /** Columns that hold numbers. */
    static final List<String> NUMBERS =
            List.of(
                    ORDER,
                    AMOUNT,
                    "amount_u",
                    SPLIT_RATIO,
                    "split_flow",
                    "column_flow",
                    "inlet_temperature",
                    "height",
                    "noise",
                    "retention",
                    "width",
                    AREA);

    /** Columns that hold labels. */
    static final List<String> LABELS =
            List.of(
                    INJECTION,
                    COMPOUND,
                    "series",
                    ACQUIRED,
                    PREPARATION,
                    "vial",
                    "level",
                    DAY,
                    "analyst",
                    "instrument",
                    "liner",
                    BATCH,
                    "matrix",
                    "occasion",
                    "integration");

    /** Columns that belong to one peak: never carried over to another compound. */
    static final List<String> OF_PEAK =
            List.of(
                    AREA,
                    AMOUNT,
                    "amount_u",
                    "height",
                    "noise",
                    "retention",
                    "width",
                    "integration");

    private Columns() {}

    /** Whether a name is one of the canonical ones. */
    static boolean isCanonical(String name) {
        return NUMBERS.contains(name) || LABELS.contains(name) || name.equals(STATE);
    }
}
