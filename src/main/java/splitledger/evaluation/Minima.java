package splitledger.evaluation;

/**
 * The fewest of everything with which a characteristic can answer. What a document asks for carries
 * its name; the rest is what the statistics need.
 */
public final class Minima {
    /** Levels of a calibration; ICH Q2(R2), from memory. */
    public static final int LEVELS = 5;

    /** Preparations a level, so that lack of fit can be told from scatter between preparations. */
    public static final int PREPARATIONS_A_LEVEL = 2;

    /** Blanks of a detection limit; fewer give a bound only. */
    public static final int BLANKS = 10;

    /** Low spiked preparations of the US method detection limit; 40 CFR 136 Appendix B. */
    public static final int SPIKED = 7;

    /** Days over which those are spread; 40 CFR 136 Appendix B. */
    public static final int SPIKED_DAYS = 3;

    /** Independent preparations of a precision study; ICH Q2(R2), from memory. */
    public static final int REPEATS = 6;

    /** Days, analysts or instruments, for the scatter between them. */
    public static final int GROUPS = 5;

    /** Split ratios, each set up twice. */
    public static final int SETTINGS = 4;

    /** Largest over smallest split ratio. */
    public static final double SPAN = 10;

    /** Members of a ladder. */
    public static final int MEMBERS = 6;

    /** Inlet temperatures. */
    public static final int TEMPERATURES = 5;

    /** Degrees Celsius that they span. */
    public static final double DEGREES = 80;

    /** Levels of a recovery, and preparations of each; ICH Q2(R2), from memory. */
    public static final int RECOVERY = 3;

    private Minima() {}
}
