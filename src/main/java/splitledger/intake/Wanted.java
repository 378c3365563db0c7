package splitledger.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import splitledger.study.Place;
import splitledger.study.Tree;

/**
 * The columns that the protocol speaks of, with the places where it does.
 *
 * @param numbers names of columns that hold numbers
 * @param mentions every column that the protocol names
 */
record Wanted(Set<String> numbers, List<Mention> mentions) {
    private static final List<String> COLUMN_OPTIONS =
            List.of(
                    "factors",
                    "factor",
                    "per",
                    "nested_in",
                    "level",
                    "added",
                    "added-u",
                    "reference-amount",
                    "reference-amount-u");

    /** Of those, the ones that name a column of numbers. */
    private static final List<String> NUMBER_OPTIONS =
            List.of("per", "added", "added-u", "reference-amount", "reference-amount-u");

    /** A column and where the protocol names it. */
    record Mention(String column, Place place) {}

    /** Reads a protocol. */
    static Wanted of(Tree.Mapping protocol, ProtocolSchema schema, Reading reading) {
        final Set<String> numbers = new TreeSet<>(Columns.NUMBERS);
        final List<Mention> mentions = new ArrayList<>();
        for (Map.Entry<String, Tree> e : protocol.mapping("characteristics").entries().entrySet()) {
            if (!(e.getValue() instanceof Tree.Mapping options)
                    || reading.touched(options.place())) {
                continue;
            }
            schema.wheres(e.getKey()).forEach(w -> conditions(options.mapping(w), mentions));
            COLUMN_OPTIONS.forEach(key -> columns(options, key, mentions));
            NUMBER_OPTIONS.forEach(key -> numbers.addAll(options.texts(key)));
        }
        final Tree.Mapping measurand = protocol.mapping("measurand");
        conditions(measurand.mapping("results-for"), mentions);
        for (Tree input : measurand.mapping("inputs").entries().values()) {
            if (input instanceof Tree.Mapping mapping && mapping.text("column").isPresent()) {
                columns(mapping, "column", mentions);
                numbers.addAll(mapping.texts("column"));
            }
        }
        return new Wanted(numbers, List.copyOf(mentions));
    }

    /** Whether the protocol names a column. */
    boolean mentions(String column) {
        return mentions.stream().anyMatch(m -> m.column().equals(column));
    }

    private static void conditions(Tree.Mapping where, List<Mention> into) {
        where.entries()
                .forEach((column, condition) -> into.add(new Mention(column, condition.place())));
    }

    private static void columns(Tree.Mapping options, String key, List<Mention> into) {
        options.get(key)
                .ifPresent(
                        tree ->
                                options.texts(key)
                                        .forEach(c -> into.add(new Mention(c, tree.place()))));
    }
}
