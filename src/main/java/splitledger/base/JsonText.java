package splitledger.base;

import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Locale;

/**
 * Builds one JSON document with two-space indentation and the project's own number form. Calls must
 * follow the grammar: {@code key} before each value of an object, every {@code begin} with its
 * {@code end}. Infinite numbers are written as the string {@code "inf"}, since JSON has none.
 */
public final class JsonText {
    private enum Inside {
        OBJECT,
        ARRAY
    }

    private final StringBuilder text = new StringBuilder();
    private final Deque<Inside> open = new ArrayDeque<>();
    private boolean first = true;
    private boolean afterKey;

    /** Begins an object. */
    public JsonText beginObject() {
        return begin(Inside.OBJECT, '{');
    }

    /** Begins an array. */
    public JsonText beginArray() {
        return begin(Inside.ARRAY, '[');
    }

    /** Ends the innermost object or array. */
    public JsonText end() {
        final Inside inside = open.pop();
        if (!first) {
            newLine();
        }
        text.append(inside == Inside.OBJECT ? '}' : ']');
        first = false;
        return this;
    }

    /** Names the next value of the object. */
    public JsonText key(String name) {
        separate();
        quote(name);
        text.append(": ");
        afterKey = true;
        return this;
    }

    /** Writes a string. */
    public JsonText value(String value) {
        separate();
        quote(value);
        return this;
    }

    /** Writes a number. */
    public JsonText value(double value) {
        separate();
        if (Double.isInfinite(value)) {
            quote(Numbers.text(value));
        } else {
            text.append(Numbers.text(value));
        }
        return this;
    }

    /** Writes true or false. */
    public JsonText value(boolean value) {
        separate();
        text.append(value);
        return this;
    }

    /** Writes null. */
    public JsonText nothing() {
        separate();
        text.append("null");
        return this;
    }

    /**
     * Writes an array of numbers on one line; NaN (a gap in a drawn line) becomes null, infinity
     * the string {@code "inf"}.
     */
    public JsonText numbers(double[] values) {
        separate();
        text.append('[');
        for (int i = 0; i < values.length; i++) {
            if (i > 0) {
                text.append(", ");
            }
            if (Double.isInfinite(values[i])) {
                quote(Numbers.text(values[i]));
            } else {
                text.append(Double.isNaN(values[i]) ? "null" : Numbers.text(values[i]));
            }
        }
        text.append(']');
        return this;
    }

    /** The document as UTF-8 bytes with a final line feed. */
    public byte[] bytes() {
        if (!open.isEmpty()) {
            throw new IllegalStateException("an object or array is still open");
        }
        return (text + "\n").getBytes(StandardCharsets.UTF_8);
    }

    private JsonText begin(Inside inside, char mark) {
        separate();
        text.append(mark);
        open.push(inside);
        first = true;
        return this;
    }

    private void separate() {
        if (afterKey) {
            afterKey = false;
            return;
        }
        if (open.isEmpty()) {
            return;
        }
        if (!first) {
            text.append(',');
        }
        newLine();
        first = false;
    }

    private void newLine() {
        text.append('\n').append("  ".repeat(open.size()));
    }

    private void quote(String value) {
        text.append('"');
        for (int i = 0; i < value.length(); i++) {
            final char c = value.charAt(i);
            switch (c) {
                case '"' -> text.append("\\\"");
                case '\\' -> text.append("\\\\");
                case '\n' -> text.append("\\n");
                case '\r' -> text.append("\\r");
                case '\t' -> text.append("\\t");
                default -> {
                    if (c < ' ') {
                        text.append(String.format(Locale.ROOT, "\\u%04x", (int) c));
                    } else {
                        text.append(c);
                    }
                }
            }
        }
        text.append('"');
    }
}
