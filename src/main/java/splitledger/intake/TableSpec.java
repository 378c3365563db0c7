package splitledger.intake;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import splitledger.study.Place;
import splitledger.study.Tree;

/**
 * One table as the protocol describes it.
 *
 * @param place where it stands in the protocol
 * @param file name as written
 * @param filePlace where the name stands
 * @param wide whether compounds are columns
 * @param mapped heading by name, in order of the protocol
 * @param meaning of its cells
 * @param joinsOn labels it joins on; empty for a table of areas
 * @param ignoreUnmatched whether injections that only one side has are only listed
 * @param export what is the same for the whole file
 * @param format of the file
 */
record TableSpec(
        Place place,
        String file,
        Place filePlace,
        boolean wide,
        Map<String, Heading> mapped,
        Meaning meaning,
        List<String> joinsOn,
        boolean ignoreUnmatched,
        Export export,
        TableFormat format) {

    /**
     * What cells mean.
     *
     * @param zero what an area of 0 means, if stated
     * @param states words for states
     * @param threshold area below which the integrator reports nothing, in the unit of the table
     * @param units of columns by name
     */
    record Meaning(
            Optional<Zero> zero,
            StateWords states,
            OptionalDouble threshold,
            Map<String, Heading> units) {}

    /**
     * What is the same for the whole file.
     *
     * @param prefix before every label of an injection
     * @param set columns that the file lacks, each with one cell for all rows
     * @param notInjections first cells of rows that are no injections, if stated
     */
    record Export(String prefix, Map<String, Heading> set, Optional<List<String>> notInjections) {}

    /** What an area of 0 means. */
    enum Zero {
        MEASURED,
        NOT_DETECTED
    }

    /** A heading and where the protocol names it. */
    record Heading(String text, Place place) {}

    /** What an area of 0 means, if stated. */
    Optional<Zero> zero() {
        return meaning.zero();
    }

    /** Words for states. */
    StateWords states() {
        return meaning.states();
    }

    /** Area below which the integrator reports nothing, in the unit of the table, if stated. */
    OptionalDouble threshold() {
        return meaning.threshold();
    }

    /** The heading that is looked for under a name. */
    String headingOf(String name) {
        final Heading heading = mapped.get(name);
        return heading == null ? name : heading.text();
    }

    /** Names of columns that must be there. */
    List<String> required() {
        final List<String> required = new ArrayList<>(joinsOn);
        if (hasAreas()) {
            required.add(Columns.INJECTION);
            if (!wide) {
                required.add(Columns.COMPOUND);
                required.add(Columns.AREA);
            }
        }
        required.removeAll(export.set().keySet());
        return required;
    }

    /** Whether it holds areas. */
    boolean hasAreas() {
        return joinsOn.isEmpty();
    }

    /** Whether it is a run list: a row for each injection. */
    boolean isRunList() {
        return joinsOn.equals(List.of(Columns.INJECTION));
    }

    /** The name of its role among the inputs. */
    String role() {
        if (hasAreas()) {
            return "area-table";
        }
        return isRunList() ? "run-list" : "label-table";
    }

    /** Reads the tables of a protocol; those that the schema refused are left out. */
    static List<TableSpec> all(Tree.Mapping protocol, Reading reading) {
        final List<TableSpec> specs = new ArrayList<>();
        if (protocol.get("tables").orElse(Tree.Mapping.EMPTY) instanceof Tree.Sequence tables) {
            for (Tree item : tables.items()) {
                if (item instanceof Tree.Mapping table && !reading.touched(table.place())) {
                    specs.add(one(table, reading));
                }
            }
        }
        return specs;
    }

    private static TableSpec one(Tree.Mapping table, Reading reading) {
        final TableSpec spec =
                new TableSpec(
                        table.place(),
                        table.text("file").orElse(""),
                        table.get("file").map(Tree::place).orElse(table.place()),
                        table.text("form").orElse("long").equals("wide"),
                        headings(table, "columns"),
                        meaning(table, reading),
                        table.texts("joins-on"),
                        table.get("unmatched").isPresent(),
                        new Export(
                                table.text("prefix").orElse(""),
                                headings(table, "set"),
                                table.get("not-injections")
                                        .map(t -> table.texts("not-injections"))),
                        TableFormat.of(table, reading));
        spec.check(table, reading);
        return spec;
    }

    private static Meaning meaning(Tree.Mapping table, Reading reading) {
        return new Meaning(
                table.text("zero-means")
                        .map(z -> z.equals("measured") ? Zero.MEASURED : Zero.NOT_DETECTED),
                StateWords.of(table, reading),
                table.number("threshold"),
                headings(table, "units"));
    }

    /** The texts of a mapping with their places. */
    private static Map<String, Heading> headings(Tree.Mapping table, String key) {
        final Map<String, Heading> texts = new LinkedHashMap<>();
        for (Map.Entry<String, Tree> e : table.mapping(key).entries().entrySet()) {
            if (e.getValue() instanceof Tree.Scalar scalar) {
                texts.put(e.getKey(), new Heading(scalar.text().strip(), scalar.place()));
            }
        }
        return texts;
    }

    private void check(Tree.Mapping table, Reading reading) {
        if (ignoreUnmatched && !isRunList()) {
            refuse(table, "unmatched", "only together with 'joins-on: injection'", reading);
        }
        if (wide && !hasAreas()) {
            refuse(table, "form", "no 'form: wide' at a table that joins on labels", reading);
        }
        if (table.get("states").isPresent() && !hasAreas() && !isRunList()) {
            refuse(table, "states", "only at a table of areas or a run list", reading);
        }
        for (String key : List.of("zero-means", "threshold")) {
            if (table.get(key).isPresent() && !hasAreas()) {
                refuse(table, key, "only at a table of areas", reading);
            }
        }
        if (!export.prefix().isEmpty() && !hasAreas() && !joinsOn.contains(Columns.INJECTION)) {
            refuse(table, "prefix", "only at a table with a column 'injection'", reading);
        }
        for (String name : export.set().keySet()) {
            if (List.of(Columns.INJECTION, Columns.COMPOUND, Columns.AREA, Columns.STATE)
                            .contains(name)
                    || mapped.containsKey(name)) {
                refuse(table, "set", "columns that the file lacks; not '" + name + "'", reading);
            }
        }
        for (String key : joinsOn) {
            if (Columns.NUMBERS.contains(key)) {
                refuse(
                        table,
                        "joins-on",
                        "columns of labels; '" + key + "' holds numbers",
                        reading);
            }
        }
    }

    private static void refuse(Tree.Mapping table, String key, String expected, Reading reading) {
        final Tree tree = table.get(key).orElse(table);
        reading.problem(
                tree.place(), "the key '" + key + "' here", expected, "take it out or change it");
    }
}
