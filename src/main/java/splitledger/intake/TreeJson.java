package splitledger.intake;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Set;
import splitledger.study.Tree;

/**
 * A protocol as JSON, for checking only: plain scalars by the YAML 1.2 core rules (null, true,
 * false, decimal numbers, otherwise text), quoted ones as text.
 */
final class TreeJson {
    private static final double MOST_WHOLE = 1e9;
    private static final JsonNodeFactory NODES = JsonNodeFactory.instance;
    private static final Set<String> NULLS = Set.of("", "~", "null", "Null", "NULL");
    private static final Set<String> TRUE = Set.of("true", "True", "TRUE");
    private static final Set<String> FALSE = Set.of("false", "False", "FALSE");

    private TreeJson() {}

    static JsonNode of(Tree tree) {
        if (tree instanceof Tree.Mapping mapping) {
            final ObjectNode object = NODES.objectNode();
            mapping.entries().forEach((key, value) -> object.set(key, of(value)));
            return object;
        }
        if (tree instanceof Tree.Sequence sequence) {
            final ArrayNode array = NODES.arrayNode();
            sequence.items().forEach(item -> array.add(of(item)));
            return array;
        }
        return scalar((Tree.Scalar) tree);
    }

    /** What stands there, in words. */
    static String words(Tree tree) {
        if (tree instanceof Tree.Mapping mapping) {
            return mapping.entries().isEmpty() ? "an empty mapping" : "keys with values";
        }
        if (tree instanceof Tree.Sequence sequence) {
            return sequence.items().isEmpty() ? "an empty list" : "a list";
        }
        final Tree.Scalar scalar = (Tree.Scalar) tree;
        if (scalar(scalar).isNull()) {
            return "nothing";
        }
        return scalar.quoted() && Cells.isNumber(scalar.text())
                ? "the quoted text '" + scalar.text() + "'"
                : "'" + scalar.text() + "'";
    }

    private static JsonNode scalar(Tree.Scalar scalar) {
        final String text = scalar.text();
        if (scalar.quoted()) {
            return NODES.textNode(text);
        }
        if (NULLS.contains(text)) {
            return NODES.nullNode();
        }
        if (TRUE.contains(text) || FALSE.contains(text)) {
            return NODES.booleanNode(TRUE.contains(text));
        }
        final double number = Cells.number(text);
        if (Double.isNaN(number)) {
            return NODES.textNode(text);
        }
        final boolean whole = number == Math.rint(number) && Math.abs(number) < MOST_WHOLE;
        return whole ? NODES.numberNode((int) number) : NODES.numberNode(number);
    }
}
