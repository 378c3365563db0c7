package splitledger.virtual;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import splitledger.base.Numbers;
import splitledger.study.Place;
import splitledger.study.Tree;

/**
 * Writes a tree as YAML 1.2: the outermost two mappings and lists a line an entry, the rest in
 * braces. Whatever could be read as something else is quoted.
 */
final class YamlText {
    private static final Pattern PLAIN = Pattern.compile("[A-Za-z][A-Za-z0-9_./ -]*[A-Za-z0-9_.]");
    private static final List<String> WORDS = List.of("true", "false", "null");
    private static final int SPACE = 0x20;

    private YamlText() {}

    /** A text. */
    static Tree text(String text) {
        return new Tree.Scalar(Place.NONE, text, true);
    }

    /** A number. */
    static Tree number(double value) {
        return new Tree.Scalar(Place.NONE, Numbers.text(value), false);
    }

    /** One text alone, more as a list. */
    static Tree texts(List<String> texts) {
        return texts.size() == 1
                ? text(texts.get(0))
                : new Tree.Sequence(Place.NONE, texts.stream().map(YamlText::text).toList());
    }

    /** A mapping. */
    static Tree.Mapping mapping(Map<String, Tree> entries) {
        return new Tree.Mapping(Place.NONE, entries);
    }

    /** The file. */
    static byte[] of(Map<String, Tree> document) {
        final StringBuilder text = new StringBuilder();
        document.forEach(
                (key, tree) -> {
                    text.append(scalar(key, true)).append(':');
                    if (tree instanceof Tree.Mapping inner && !inner.entries().isEmpty()) {
                        text.append('\n');
                        inner.entries()
                                .forEach(
                                        (name, value) ->
                                                text.append("  ")
                                                        .append(scalar(name, true))
                                                        .append(": ")
                                                        .append(flow(value))
                                                        .append('\n'));
                    } else if (tree instanceof Tree.Sequence list && !list.items().isEmpty()) {
                        text.append('\n');
                        list.items().forEach(i -> text.append("  - ").append(flow(i)).append('\n'));
                    } else {
                        text.append(' ').append(flow(tree)).append('\n');
                    }
                });
        return text.toString().getBytes(StandardCharsets.UTF_8);
    }

    private static String flow(Tree tree) {
        if (tree instanceof Tree.Mapping mapping) {
            return mapping.entries().entrySet().stream()
                    .map(e -> scalar(e.getKey(), true) + ": " + flow(e.getValue()))
                    .collect(Collectors.joining(", ", "{", "}"));
        }
        if (tree instanceof Tree.Sequence sequence) {
            return sequence.items().stream()
                    .map(YamlText::flow)
                    .collect(Collectors.joining(", ", "[", "]"));
        }
        final Tree.Scalar scalar = (Tree.Scalar) tree;
        return scalar(scalar.text(), scalar.quoted());
    }

    private static String scalar(String text, boolean quoted) {
        final boolean bare =
                !quoted
                        && (new Tree.Scalar(Place.NONE, text, false).number().isPresent()
                                || WORDS.contains(text));
        return bare || (PLAIN.matcher(text).matches() && !WORDS.contains(text))
                ? text
                : inQuotes(text);
    }

    private static String inQuotes(String text) {
        final StringBuilder quoted = new StringBuilder("\"");
        text.codePoints()
                .forEach(
                        c -> {
                            if (c == '"' || c == '\\') {
                                quoted.append('\\').appendCodePoint(c);
                            } else if (c < SPACE || c == 0x7f) {
                                quoted.append("\\x")
                                        .append(Character.forDigit(c >> 4, 16))
                                        .append(Character.forDigit(c & 0xf, 16));
                            } else {
                                quoted.appendCodePoint(c);
                            }
                        });
        return quoted.append('"').toString();
    }
}
