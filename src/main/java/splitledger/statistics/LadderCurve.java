package splitledger.statistics;

/**
 * Shapes of a ladder's curve: log response against boiling point. Each is linear in its first one
 * or two coefficients; hinge and logistic have shape parameters beside them.
 */
public enum LadderCurve {
    /** The same response at every boiling point: a. */
    CONSTANT("constant", 1, 6, "the same response at every boiling point"),
    /** a + c (b - centre). */
    LINE("line", 2, 6, "a straight line over the boiling point"),
    /** a + c max(0, b - onset). */
    HINGE("hinge", 3, 10, "flat up to an onset, a straight line beyond it"),
    /** a + c / (1 + exp(-(b - midpoint) / width)). */
    LOGISTIC("logistic", 4, 14, "a smooth step over the boiling point");

    /** Members that must lie beyond an onset. */
    public static final int BEYOND_ONSET = 3;

    private final String code;
    private final int parameters;
    private final int members;
    private final String words;

    LadderCurve(String code, int parameters, int members, String words) {
        this.code = code;
        this.parameters = parameters;
        this.members = members;
        this.words = words;
    }

    /** The name in files. */
    public String code() {
        return code;
    }

    /** Number of parameters of the curve. */
    public int parameters() {
        return parameters;
    }

    /** Fewest members it is fitted to. */
    public int members() {
        return members;
    }

    /** The shape in words. */
    public String words() {
        return words;
    }
}
