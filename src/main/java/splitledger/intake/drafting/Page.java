package splitledger.intake.drafting;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;

/**
 * Writes a protocol line by line, in one of two forms: for people, with questions and reasons; or
 * on trial, with an answer put in for every question, to see whether the tables can be read so.
 */
final class Page {
    private static final int WIDTH = 100;
    private static final Pattern PLAIN =
            Pattern.compile("(?:\\.\\./)*[\\p{L}_(][\\p{L}\\p{Nd}_ ./()*+-]*");
    private static final Pattern WORDS_OF_YAML =
            Pattern.compile("(?i)true|false|null|yes|no|on|off|ask|\\.nan|\\.inf");

    private final boolean trial;
    private final StringBuilder text = new StringBuilder();
    private final List<String> questions = new ArrayList<>();

    Page(boolean trial) {
        this.trial = trial;
    }

    /** A line as it stands. */
    Page line(int indent, String line) {
        text.append("  ".repeat(indent)).append(line).append('\n');
        return this;
    }

    /** A key with a text. */
    Page put(int indent, String key, String value) {
        return line(indent, key + ": " + quoted(value));
    }

    /** A remark, broken into lines. */
    Page note(int indent, String remark) {
        final String start = "  ".repeat(indent) + "#";
        StringBuilder line = new StringBuilder(start);
        for (String word : List.of(printable(remark).split(" +", -1))) {
            if (line.length() + 1 + word.length() > WIDTH && line.length() > start.length()) {
                text.append(line).append('\n');
                line = new StringBuilder(start);
            }
            line.append(' ').append(word);
        }
        text.append(line).append('\n');
        return this;
    }

    /** An example that a remark shows, in one line. */
    Page example(int indent, String line) {
        return line(indent, "#   " + printable(line));
    }

    /**
     * A key whose value only the laboratory knows.
     *
     * @param answer what stands there on trial; empty: the key is left out then
     */
    Page ask(int indent, String key, String question, String answer) {
        questions.add(question);
        if (!trial) {
            return line(indent, key + ": " + doubleQuoted("ASK " + question));
        }
        return answer.isEmpty() ? this : line(indent, key + ": " + answer);
    }

    /** An empty line. */
    Page gap() {
        text.append('\n');
        return this;
    }

    /** How many questions there are. */
    int questions() {
        return questions.size();
    }

    String text() {
        return text.toString();
    }

    /** A key with a list of texts, broken into lines. */
    Page putList(int indent, String key, Collection<String> texts) {
        final String whole = "  ".repeat(indent) + key + ": " + list(texts);
        if (whole.length() <= WIDTH) {
            text.append(whole).append('\n');
            return this;
        }
        StringBuilder line = new StringBuilder("  ".repeat(indent) + key + ": [");
        final String next = "  ".repeat(indent + 1);
        int left = texts.size();
        for (String one : texts) {
            final String item = quoted(one) + (--left > 0 ? "," : "]");
            final boolean first =
                    line.charAt(line.length() - 1) == '[' || line.toString().isBlank();
            if (line.length() + 1 + item.length() > WIDTH && !first) {
                text.append(line).append('\n');
                line = new StringBuilder(next).append(item);
            } else {
                line.append(first ? "" : " ").append(item);
            }
        }
        text.append(line).append('\n');
        return this;
    }

    /** A flow list of texts. */
    static String list(Collection<String> texts) {
        return texts.size() == 1
                ? quoted(texts.iterator().next())
                : "[" + String.join(", ", texts.stream().map(Page::quoted).toList()) + "]";
    }

    /** A text as a YAML scalar, quoted where it must be. */
    static String quoted(String value) {
        final boolean plain =
                PLAIN.matcher(value).matches()
                        && !value.endsWith(" ")
                        && !WORDS_OF_YAML.matcher(value).matches()
                        && !value.startsWith("ASK ");
        return plain ? value : doubleQuoted(value);
    }

    private static String doubleQuoted(String value) {
        final StringBuilder quoted = new StringBuilder("\"");
        for (int i = 0; i < value.length(); i++) {
            final char c = value.charAt(i);
            if (c == '"' || c == '\\') {
                quoted.append('\\').append(c);
            } else if (Character.isISOControl(c) || c == '\u2028' || c == '\u2029') {
                quoted.append(String.format(Locale.ROOT, "\\u%04x", (int) c));
            } else {
                quoted.append(c);
            }
        }
        return quoted.append('"').toString();
    }

    /** Without control characters: a cell of a table must not end a comment. */
    private static String printable(String text) {
        return text.replaceAll("[\\p{Cc}\\u2028\\u2029]+", " ");
    }
}
