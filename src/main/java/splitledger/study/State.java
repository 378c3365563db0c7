package splitledger.study;

/** What a cell of the area table says of its peak. */
public enum State {
    MEASURED(0, "measured"),
    NOT_DETECTED(1, "not-detected"),
    ABSENT(2, "absent"),
    BELOW_THRESHOLD(3, "below-threshold"),
    SATURATED(4, "saturated"),
    ABORTED(5, "aborted"),
    RE_INJECTED(6, "re-injected");

    private static final State[] ALL = values();

    private final byte index;
    private final String code;

    State(int index, String code) {
        this.index = (byte) index;
        this.code = code;
    }

    /** The name in files. */
    public String code() {
        return code;
    }

    /** A small number for columns of millions of states. */
    public byte index() {
        return index;
    }

    /** The state of such a number. */
    public static State of(byte index) {
        return ALL[index];
    }
}
