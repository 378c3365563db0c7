package splitledger.dossier;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.MissingNode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import splitledger.base.CodePoints;
import splitledger.base.CsvRows;
import splitledger.dossier.Recheck.Difference;

/**
 * Compares tables and records by what they say: numbers to some significant digits, words that are
 * results exactly, words that only explain not at all (but counted). Rows are found again by their
 * keys, so that a row more shifts nothing.
 */
final class Comparing {
    /** Digits at which only the same double agrees. */
    static final int EVERY_DIGIT = 17;

    /** Columns and keys whose words explain and are no result. */
    private static final Set<String> EXPLAINING =
            Set.of(
                    "note",
                    "source",
                    "cause",
                    "words",
                    "detail",
                    "explanation",
                    "why",
                    "what",
                    "title",
                    "text");

    /** Keys by which the objects of an array are told apart. */
    private static final List<String> IDENTITY =
            List.of(
                    "id",
                    "characteristic",
                    "compound",
                    "condition",
                    "quantity",
                    "method",
                    "level",
                    "symbol",
                    "symbol_a",
                    "symbol_b");

    private static final Map<String, Integer> KEY_COLUMNS =
            Map.of("results.csv", 5, "budget.csv", 3, "budget-correlations.csv", 4);

    /** Whole branches that only explain or only draw what the findings say. */
    private static final Set<String> NO_RESULT =
            Set.of("program", "questions", "figures", "choices", "flags", "trail");

    private final int digits;
    private final List<Difference> differences = new ArrayList<>();
    private int compared;
    private int reworded;

    Comparing(int digits) {
        this.digits = digits;
    }

    int compared() {
        return compared;
    }

    int reworded() {
        return reworded;
    }

    List<Difference> differences() {
        return List.copyOf(differences);
    }

    void differs(String place, String dossier, String anew) {
        differences.add(new Difference(place, dossier, anew));
    }

    /** Two CSV files of this program. */
    void csv(String name, String before, String after) {
        final List<List<String>> old = CsvRows.of(before);
        final List<List<String>> made = CsvRows.of(after);
        if (old.isEmpty() || made.isEmpty() || !old.get(0).equals(made.get(0))) {
            differs(name + ", header", head(old), head(made));
            return;
        }
        final List<String> columns = old.get(0);
        final int key = KEY_COLUMNS.getOrDefault(name, 0);
        final Map<List<String>, List<String>> by = new LinkedHashMap<>();
        made.subList(1, made.size()).forEach(row -> by.put(row.subList(0, key), row));
        for (List<String> row : old.subList(1, old.size())) {
            final List<String> other = by.remove(row.subList(0, key));
            final String place = name + ", " + String.join(" / ", row.subList(0, key));
            if (other == null) {
                differs(place, "a row", "no such row");
            } else {
                for (int c = key; c < columns.size(); c++) {
                    final String cell = c < row.size() ? row.get(c) : "";
                    final String anew = c < other.size() ? other.get(c) : "";
                    words(place + ", " + columns.get(c), columns.get(c), cell, anew);
                }
            }
        }
        by.keySet()
                .forEach(k -> differs(name + ", " + String.join(" / ", k), "no such row", "a row"));
    }

    private static String head(List<List<String>> rows) {
        return rows.isEmpty() ? "nothing" : String.join(",", rows.get(0));
    }

    /** Two JSON files of this program. */
    void json(String name, String before, String after) {
        final ObjectMapper mapper = new ObjectMapper();
        try {
            node(name, "", mapper.readTree(before), mapper.readTree(after));
        } catch (JsonProcessingException e) {
            differs(name, "no JSON", String.valueOf(e.getOriginalMessage()));
        }
    }

    private void node(String place, String key, JsonNode before, JsonNode after) {
        if (digits < EVERY_DIGIT && NO_RESULT.contains(key)) {
            reworded += before.equals(after) ? 0 : 1;
        } else if (before.isObject() && after.isObject()) {
            final TreeSet<String> names = new TreeSet<>(CodePoints.ORDER);
            before.fieldNames().forEachRemaining(names::add);
            after.fieldNames().forEachRemaining(names::add);
            for (String name : names) {
                node(place + ", " + name, name, before.path(name), after.path(name));
            }
        } else if (before.isArray() && after.isArray()) {
            array(place, key, before, after);
        } else if (before.isNumber() && after.isNumber()) {
            number(place, before.asText(), after.asText());
        } else if (before.isValueNode() && after.isValueNode()) {
            words(place, key, before.asText(), after.asText());
        } else {
            differs(place, kind(before), kind(after));
        }
    }

    private void array(String place, String key, JsonNode before, JsonNode after) {
        final Map<String, JsonNode> old = byIdentity(before);
        final Map<String, JsonNode> made = byIdentity(after);
        old.forEach(
                (name, node) -> {
                    final JsonNode other = made.remove(name);
                    node(
                            place + " " + name,
                            key,
                            node,
                            other == null ? MissingNode.getInstance() : other);
                });
        made.forEach(
                (name, node) -> node(place + " " + name, key, MissingNode.getInstance(), node));
    }

    /** The members of an array by what tells them apart, else by their place. */
    private static Map<String, JsonNode> byIdentity(JsonNode array) {
        final Map<String, JsonNode> all = new LinkedHashMap<>();
        for (int i = 0; i < array.size(); i++) {
            final StringBuilder name = new StringBuilder();
            for (String key : IDENTITY) {
                final JsonNode part = array.get(i).path(key);
                if (!part.isMissingNode()) {
                    name.append(name.length() == 0 ? "" : " / ");
                    name.append(part.isValueNode() ? part.asText() : part.toString());
                }
            }
            final String wanted = name.length() == 0 ? "[" + i + "]" : name.toString();
            all.put(all.containsKey(wanted) ? wanted + " [" + i + "]" : wanted, array.get(i));
        }
        return all;
    }

    private static String kind(JsonNode node) {
        return node.isMissingNode()
                ? "nothing"
                : node.isContainerNode() ? "a group" : node.asText();
    }

    private void words(String place, String key, String before, String after) {
        if (before.equals(after)) {
            compared++;
        } else if (isNumber(before) && isNumber(after)) {
            number(place, before, after);
        } else if (digits < EVERY_DIGIT && EXPLAINING.contains(key)) {
            reworded++;
        } else {
            compared++;
            differs(place, before, after);
        }
    }

    private void number(String place, String before, String after) {
        compared++;
        if (!agree(Double.parseDouble(before), Double.parseDouble(after), digits)) {
            differs(place, before, after);
        }
    }

    /** Whether two numbers agree to so many significant digits of the larger one. */
    static boolean agree(double a, double b, int digits) {
        if (a == b) {
            return true;
        }
        final double size = Math.max(Math.abs(a), Math.abs(b));
        return digits < EVERY_DIGIT
                && Math.abs(a - b) <= 0.5 * Double.parseDouble("1e-" + (digits - 1)) * size;
    }

    private static boolean isNumber(String text) {
        return text.matches("-?[0-9]+(\\.[0-9]+)?(e-?[0-9]+)?");
    }
}
