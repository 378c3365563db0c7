package splitledger.cli;

import java.util.List;
import picocli.CommandLine.Option;

/** The option with which a program that starts this one asks for messages it can read. */
final class MessagesOption {
    /** Its name. */
    static final String NAME = "--messages";

    @Option(
            names = NAME,
            paramLabel = "FORM",
            description =
                    "How mistakes are told on the error stream: text, or json for one object a line"
                            + " (file, row, column, found, expected, todo).")
    private MessageForm form = MessageForm.TEXT;

    MessageForm form() {
        return form;
    }

    /** What a command line asks for that could not be parsed. */
    static MessageForm asked(String[] args) {
        final List<String> all = List.of(args);
        final int at = all.indexOf(NAME);
        final boolean json =
                all.stream().anyMatch(a -> a.equalsIgnoreCase(NAME + "=json"))
                        || (at >= 0
                                && at + 1 < all.size()
                                && all.get(at + 1).equalsIgnoreCase("json"));
        return json ? MessageForm.JSON : MessageForm.TEXT;
    }
}
