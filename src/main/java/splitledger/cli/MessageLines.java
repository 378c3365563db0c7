package splitledger.cli;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import splitledger.base.Problem;

/** Problems as lines that a program can read. */
final class MessageLines {
    private MessageLines() {}

    /**
     * One JSON object in one line: {@code file}, {@code row} (null if it concerns the whole file),
     * {@code column} (heading, or keys of the protocol joined by dots), {@code found}, {@code
     * expected}, {@code todo}.
     */
    static String json(Problem problem) {
        final ObjectNode line = JsonNodeFactory.instance.objectNode();
        line.put("file", problem.file());
        if (problem.row() > 0) {
            line.put("row", problem.row());
        } else {
            line.putNull("row");
        }
        return line.put("column", problem.column())
                .put("found", problem.found())
                .put("expected", problem.expected())
                .put("todo", problem.hint())
                .toString();
    }

    /** A problem that no file has. */
    static Problem ofCommand(String found, String expected, String todo) {
        return new Problem("", 0, "", found, expected, todo);
    }
}
