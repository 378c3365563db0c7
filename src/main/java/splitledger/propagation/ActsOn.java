package splitledger.propagation;

/** Which side of a comparison an effect acts on. */
public enum ActsOn {
    CALIBRANT("calibrant", "calibration"),
    SAMPLE("sample", "sample"),
    REFERENCE("reference", "reference"),
    BOTH("both", "calibration and sample alike");

    private final String code;
    private final String words;

    ActsOn(String code, String words) {
        this.code = code;
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
}
