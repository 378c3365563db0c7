package splitledger.virtual;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import splitledger.base.Nearest;
import splitledger.base.Numbers;
import splitledger.base.Problem;
import splitledger.study.Place;
import splitledger.study.Tree;

/**
 * One mapping of a design or plan file and what is wrong with it. A wrong entry is noted and
 * replaced by a harmless value, so that all mistakes come out in one reading; the design that
 * results must not be used when there are any.
 */
public final class Fields {
    private final Tree.Mapping mapping;
    private final List<Problem> problems;
    private final Set<String> asked = new TreeSet<>();

    /**
     * The fields of a mapping.
     *
     * @param problems takes what is wrong
     */
    public Fields(Tree.Mapping mapping, List<Problem> problems) {
        this.mapping = mapping;
        this.problems = problems;
    }

    /** Where the mapping stands. */
    public Place place() {
        return mapping.place();
    }

    /** The mapping as it was read. */
    public Tree.Mapping tree() {
        return mapping;
    }

    /** Notes a mistake. */
    public void wrong(Place place, String found, String expected, String hint) {
        problems.add(place.problem(found, expected, hint));
    }

    /** Whether the key is there. */
    public boolean has(String key) {
        asked.add(key);
        return mapping.get(key).isPresent();
    }

    /** A parameter {@code {value: 2.0, unit: "%", basis: "..."}} within bounds, ends included. */
    public Parameter parameter(String key, String unit, double low, double high) {
        final Fields inner = fields(key);
        final double value = inner.number("value", low, high);
        final String stated = inner.text("unit");
        if (!stated.isEmpty() && !stated.equals(unit)) {
            inner.wrong(
                    inner.at("unit"),
                    "the unit " + stated,
                    unit,
                    "convert the value; '" + key + "' is read in " + unit);
        }
        final String basis = inner.text("basis");
        inner.done();
        return new Parameter(value, unit, basis);
    }

    /** A parameter within bounds, or one without effect where the key is missing. */
    public Parameter optional(String key, String unit, double low, double high, double otherwise) {
        return has(key) ? parameter(key, unit, low, high) : Parameter.absent(otherwise, unit);
    }

    /** A mapping, or one without entries where the key is missing. */
    public Fields optionalFields(String key) {
        return has(key) ? fields(key) : new Fields(new Tree.Mapping(at(key), Map.of()), problems);
    }

    /** A number within bounds, ends included. */
    public double number(String key, double low, double high) {
        final OptionalDouble number = mapping.number(key);
        if (!present(key)) {
            return low;
        }
        final double value = number.orElse(Double.NaN);
        if (!(value >= low && value <= high)) {
            wrong(
                    at(key),
                    mapping.text(key).orElse("no single value"),
                    "a number from " + Numbers.text(low) + " to " + Numbers.text(high),
                    "");
            return low;
        }
        return value;
    }

    /** A whole number within bounds, or the default where the key is missing. */
    public int count(String key, int most, int otherwise) {
        if (!has(key)) {
            return otherwise;
        }
        final double value = number(key, 1, most);
        if (value != Math.rint(value)) {
            wrong(at(key), Numbers.text(value), "a whole number", "");
        }
        return (int) value;
    }

    /** A text that must be there and not be empty. */
    public String text(String key) {
        if (!present(key)) {
            return "";
        }
        final String text = mapping.text(key).orElse("");
        if (text.isBlank()) {
            wrong(at(key), "no text", "one word or line", "");
        }
        return text;
    }

    /** A text or the default. */
    public String text(String key, String otherwise) {
        return has(key) ? text(key) : otherwise;
    }

    /** Texts: one or a list; empty where the key is missing. */
    public List<String> texts(String key) {
        asked.add(key);
        return mapping.texts(key);
    }

    /** Texts: one or a list, each of them one that the design defines. */
    public List<String> knownTexts(String key, Collection<String> known) {
        return texts(key).stream().map(word -> known(key, word, known)).toList();
    }

    /** A text of an entry, which must be one that the design defines. */
    public String known(String key, String word, Collection<String> known) {
        if (!known.contains(word) && !word.isEmpty()) {
            wrong(
                    at(key),
                    "'" + word + "'",
                    "a label that the design defines",
                    Nearest.hint(word, known));
        }
        return word;
    }

    /** Positive numbers: one or a list; empty where the key is missing. */
    public List<Double> numbers(String key) {
        final List<Double> numbers = new ArrayList<>();
        for (String text : texts(key)) {
            final OptionalDouble number = new Tree.Scalar(at(key), text, false).number();
            if (number.isEmpty() || !(number.getAsDouble() > 0)) {
                wrong(at(key), text, "a number above 0", "");
            } else {
                numbers.add(number.getAsDouble());
            }
        }
        return numbers;
    }

    /** A mapping that must be there. */
    public Fields fields(String key) {
        if (present(key) && !(mapping.get(key).orElse(mapping) instanceof Tree.Mapping)) {
            wrong(at(key), "no mapping", "keys with values", "");
        }
        return new Fields(
                mapping.get(key)
                        .filter(Tree.Mapping.class::isInstance)
                        .map(Tree.Mapping.class::cast)
                        .orElseGet(() -> new Tree.Mapping(at(key), Map.of())),
                problems);
    }

    /** Every entry of this mapping by name, read by the same rule. */
    public <T> Map<String, T> each(Function<String, T> read) {
        final Map<String, T> all = new LinkedHashMap<>();
        mapping.entries().keySet().forEach(key -> all.put(key, read.apply(key)));
        return all;
    }

    /** The mappings of a list that must be there. */
    public List<Fields> list(String key) {
        return present(key) ? listOf(mapping.get(key).orElse(mapping)) : List.of();
    }

    /** Lists of mappings within a list that must be there. */
    public List<List<Fields>> lists(String key) {
        if (!present(key)) {
            return List.of();
        }
        if (!(mapping.get(key).orElse(mapping) instanceof Tree.Sequence outer)) {
            wrong(at(key), "no list", "a list of lists", "begin it with '[['");
            return List.of();
        }
        return outer.items().stream().map(this::listOf).toList();
    }

    private List<Fields> listOf(Tree tree) {
        if (!(tree instanceof Tree.Sequence sequence)) {
            wrong(tree.place(), "no list", "a list of mappings", "");
            return List.of();
        }
        final List<Fields> all = new ArrayList<>();
        for (Tree item : sequence.items()) {
            if (item instanceof Tree.Mapping inner) {
                all.add(new Fields(inner, problems));
            } else {
                wrong(item.place(), "no mapping", "keys with values", "");
            }
        }
        return all;
    }

    /** Where an entry stands; where it is missing, the mapping that lacks it. */
    public Place at(String key) {
        return mapping.get(key).map(Tree::place).orElseGet(() -> place().in(key, place().row()));
    }

    /** To be called last: notes keys that nobody asked for. */
    public void done() {
        for (Map.Entry<String, Tree> e : mapping.entries().entrySet()) {
            if (!asked.contains(e.getKey())) {
                wrong(
                        e.getValue().place(),
                        "the key '" + e.getKey() + "'",
                        "a key of this part",
                        Nearest.hint(e.getKey(), asked));
            }
        }
    }

    private boolean present(String key) {
        if (has(key)) {
            return true;
        }
        wrong(at(key), "nothing", "the key '" + key + "'", "");
        return false;
    }
}
