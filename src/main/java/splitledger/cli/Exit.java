package splitledger.cli;

/**
 * How a command ended, as the shell sees it. Scripts rely on these numbers: they never change their
 * meaning. Where one command handles several studies, the worst one counts; a larger code is worse.
 */
public enum Exit {
    /** Done; nothing to object to. */
    DONE(0),

    /** Done, and a requirement is not met or not shown, or a comparison found a difference. */
    CRITERION_NOT_MET(1),

    /**
     * Input, command or environment is wrong; the message says what to do; nothing is left behind.
     */
    BAD_INPUT(2),

    /** A fault of the program itself. */
    FAULT(3);

    private final int code;

    Exit(int code) {
        this.code = code;
    }

    /**
     * The number for the shell.
     *
     * @return 0, 1, 2 or 3
     */
    public int code() {
        return code;
    }

    /**
     * The worse of two ends, for a command that handles several studies.
     *
     * @param other the other end
     * @return whichever of the two has the larger code
     */
    public Exit worse(Exit other) {
        return other.code > code ? other : this;
    }
}
