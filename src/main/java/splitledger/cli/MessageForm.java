package splitledger.cli;

/** How mistakes are told. */
enum MessageForm {
    /** In lines for people. */
    TEXT,

    /** As one JSON object a line, for programs. */
    JSON
}
