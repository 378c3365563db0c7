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

    /** Columns that hold numbers. */
    static final List<String> NUMBERS =
            List.of(
                    ORDER,
                    "amount",
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
                    "acquired",
                    PREPARATION,
                    "vial",
                    "level",
                    "day",
                    "analyst",
                    "instrument",
                    "liner",
                    "batch",
                    "matrix",
                    "occasion",
                    "integration");

    /** Columns that belong to one peak: never carried over to another compound. */
    static final List<String> OF_PEAK =
            List.of(
                    AREA,
                    "amount",
                    "amount_u",
                    "height",
                    "noise",
                    "retention",
                    "width",
                    "integration");

    private Columns() {}

    /** Whether a name is one of the canonical ones. */
    static boolean isCanonical(String name) {
        return NUMBERS.contains(name) || LABELS.contains(name);
    }
}
