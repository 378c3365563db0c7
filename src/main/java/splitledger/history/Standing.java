package splitledger.history;

/** How a chart stands at its last dossier; a later one is more urgent. */
enum Standing {
    TOO_FEW("too-few", "too few dossiers for limits"),
    QUIET("quiet", "nothing needs action"),
    EARLIER("earlier", "seen earlier, within the limits since"),
    WATCH("watch", "keep an eye on it"),
    ACT("act", "needs action");

    private final String code;
    private final String words;

    Standing(String code, String words) {
        this.code = code;
        this.words = words;
    }

    /** The name in files. */
    String code() {
        return code;
    }

    /** In words. */
    String words() {
        return words;
    }
}
