package splitledger.study;

/** What a criterion says of a finding. */
public enum Verdict {
    INFORMATION("information", "no criterion"),
    MEETS("meets", "meets the requirement"),
    UNDECIDED("undecided", "undecided"),
    NOT_SHOWN("not-shown", "not shown"),
    FAILS("fails", "fails the requirement");

    private final String code;
    private final String words;

    Verdict(String code, String words) {
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
