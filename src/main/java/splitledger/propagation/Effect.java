package splitledger.propagation;

/**
 * What makes a value uncertain. The scatter effects are ordered by how much of the procedure they
 * repeat: a scatter seen under wider conditions contains the narrower ones ({@link #contains}).
 */
public enum Effect {
    INTEGRATION("integration", 1, "integration of the peak"),
    STROKE("stroke", 2, "injection (volume, split, detector)"),
    PREPARATION("preparation", 3, "preparation and injection"),
    DAY("day", 4, "days, analysts and instruments"),
    ANALYST("analyst", 4, "analysts"),
    INSTRUMENT("instrument", 4, "instruments"),
    SPLIT("split", 0, "split ratio"),
    DISCRIMINATION("discrimination", 0, "discrimination by boiling point"),
    LOSS("loss", 0, "loss in the inlet"),
    STANDARD_AMOUNT("standard-amount", 0, "amount of the standard"),
    REFERENCE_VALUE("reference-value", 0, "value taken from outside"),
    MATRIX("matrix", 0, "matrix"),
    MODEL("model", 0, "model");

    private final String code;
    private final int breadth;
    private final String words;

    Effect(String code, int breadth, String words) {
        this.code = code;
        this.breadth = breadth;
        this.words = words;
    }

    /** The name in files. */
    public String code() {
        return code;
    }

    /** The name on pages. */
    public String words() {
        return words;
    }

    /**
     * Whether this is scatter under conditions at least as wide as the other's, so that it already
     * holds the other.
     */
    public boolean contains(Effect other) {
        return breadth > 0 && other.breadth > 0 && breadth >= other.breadth;
    }
}
