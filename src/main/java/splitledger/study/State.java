package splitledger.study;

/** What a cell of the area table says of its peak. */
public enum State {
    MEASURED("measured"),
    NOT_DETECTED("not-detected"),
    ABSENT("absent"),
    BELOW_THRESHOLD("below-threshold"),
    SATURATED("saturated"),
    ABORTED("aborted"),
    RE_INJECTED("re-injected");

    private final String code;

    State(String code) {
        this.code = code;
    }

    /** The name in files. */
    public String code() {
        return code;
    }
}
