package splitledger.intake;

import com.fasterxml.jackson.databind.JsonNode;
import com.networknt.schema.Error;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import splitledger.base.Nearest;
import splitledger.base.Problem;
import splitledger.study.Place;
import splitledger.study.Tree;

/** Violations of the schema in the words of a bench. */
final class SchemaWords {
    private static final Map<String, String> TYPES =
            Map.of(
                    "string", "a text",
                    "number", "a number",
                    "integer", "a whole number",
                    "boolean", "true or false",
                    "array", "a list",
                    "object", "keys with values",
                    "null", "nothing");

    private SchemaWords() {}

    /**
     * One violation.
     *
     * @param error what the check says
     * @param met what stands there
     * @param rule the part of the schema that is violated
     */
    static Problem problem(Error error, Tree met, ProtocolSchema.Rule rule) {
        final Place place = met.place();
        final String found = TreeJson.words(met);
        final String about = rule.description();
        return switch (error.getKeyword()) {
            case "additionalProperties" -> unknown(error, met, rule);
            case "required" -> missing(error, place, rule);
            case "dependentRequired" -> dependent(error, place);
            case "type" -> place.problem(found, types(rule.node()), typeHint(met, rule));
            case "enum" -> word(met, rule);
            case "const" -> place.problem(found, rule.node().path("const").asText(), about);
            case "exclusiveMinimum" -> bound(place, found, "above", rule, "exclusiveMinimum");
            case "exclusiveMaximum" -> bound(place, found, "below", rule, "exclusiveMaximum");
            case "minimum" -> bound(place, found, "not below", rule, "minimum");
            case "maximum" -> bound(place, found, "not above", rule, "maximum");
            case "minLength" -> place.problem("an empty text", "a text", about);
            case "minItems" -> place.problem(found, "at least one item", about);
            case "minProperties" -> place.problem(found, "at least one key", about);
            case "uniqueItems" ->
                    place.problem("an item twice", "each item once", "keep one of them");
            case "oneOf" -> choice(met, rule);
            default -> place.problem(found, about, "");
        };
    }

    private static Problem unknown(Error error, Tree met, ProtocolSchema.Rule rule) {
        final String key = error.getProperty();
        final Tree entry = ((Tree.Mapping) met).get(key).orElse(met);
        final List<String> known = new ArrayList<>();
        rule.node().path("properties").fieldNames().forEachRemaining(known::add);
        return entry.place()
                .problem(
                        "the unknown key '" + key + "'",
                        "one of the keys that may stand here",
                        Nearest.hint(key, known));
    }

    private static Problem missing(Error error, Place place, ProtocolSchema.Rule rule) {
        final String key = error.getProperty();
        final String about = rule.node().path("properties").path(key).path("description").asText();
        return place.problem(
                "no key '" + key + "'", "the key '" + key + "'", hint("add it", about));
    }

    private static Problem dependent(Error error, Place place) {
        final String missing = String.valueOf(error.getArguments()[0]);
        final String present = String.valueOf(error.getArguments()[1]);
        return place.problem(
                "'" + present + "' without '" + missing + "'",
                "both of them",
                "add '" + missing + "'");
    }

    private static Problem bound(
            Place place, String found, String side, ProtocolSchema.Rule rule, String keyword) {
        return place.problem(
                found,
                "a number " + side + " " + rule.node().path(keyword).asText(),
                rule.description());
    }

    private static String types(JsonNode rule) {
        final JsonNode type = rule.path("type");
        final List<String> names = type.isArray() ? texts(type) : List.of(type.asText());
        final boolean scalarText = names.contains("string");
        return names.stream()
                .filter(n -> !scalarText || !(n.equals("boolean") || n.equals("null")))
                .map(n -> TYPES.getOrDefault(n, n))
                .collect(Collectors.joining(" or "));
    }

    private static String typeHint(Tree met, ProtocolSchema.Rule rule) {
        final String type = rule.node().path("type").asText();
        if (met instanceof Tree.Scalar scalar && type.equals("number")) {
            return scalar.quoted() && Cells.isNumber(scalar.text())
                    ? "take the quotes out"
                    : hint(Cells.hint(scalar.text()), rule.description());
        }
        return rule.description();
    }

    private static Problem word(Tree met, ProtocolSchema.Rule rule) {
        final List<String> words = texts(rule.node().path("enum"));
        final String text = met instanceof Tree.Scalar scalar ? scalar.text() : "";
        final boolean few = words.size() <= Reading.LISTED;
        final String near =
                Nearest.to(text, words)
                        .map(w -> "did you mean '" + w + "'?")
                        .orElse(few ? "" : "known here: " + String.join(", ", words));
        return met.place()
                .problem(
                        TreeJson.words(met),
                        few ? "one of " + String.join(", ", words) : "one of the words known here",
                        hint(near, rule.description()));
    }

    /** A choice between forms: of a mapping by its keys, otherwise by what may stand there. */
    private static Problem choice(Tree met, ProtocolSchema.Rule rule) {
        final List<String> keys = branchKeys(rule);
        if (keys.isEmpty()) {
            final List<String> types = new ArrayList<>();
            rule.node()
                    .path("oneOf")
                    .forEach(
                            b -> types.add(TYPES.getOrDefault(b.path("type").asText(), "a value")));
            return met.place()
                    .problem(TreeJson.words(met), String.join(" or ", types), rule.description());
        }
        final List<String> present = new ArrayList<>();
        if (met instanceof Tree.Mapping mapping) {
            keys.stream().filter(k -> mapping.get(k).isPresent()).forEach(present::add);
        }
        return met.place()
                .problem(
                        present.isEmpty() ? "none of them" : String.join(" and ", present),
                        "exactly one of " + String.join(", ", keys),
                        rule.description());
    }

    private static List<String> branchKeys(ProtocolSchema.Rule rule) {
        final List<String> keys = new ArrayList<>();
        rule.node().path("oneOf").forEach(b -> keys.addAll(texts(b.path("required"))));
        return keys;
    }

    private static String hint(String first, String second) {
        if (first.isEmpty() || second.isEmpty()) {
            return first + second;
        }
        return first + " (" + second + ")";
    }

    private static List<String> texts(JsonNode array) {
        final List<String> texts = new ArrayList<>();
        array.forEach(item -> texts.add(item.asText()));
        return List.copyOf(texts);
    }
}
