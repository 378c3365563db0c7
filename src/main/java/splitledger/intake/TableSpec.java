package splitledger.intake;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
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
 * @param zero what an area of 0 means, if stated
 * @param joinsOn labels it joins on; empty for a table of areas
 * @param ignoreUnmatched whether injections that only one side has are only listed
 */
record TableSpec(
        Place place,
        String file,
        Place filePlace,
        boolean wide,
        Map<String, Heading> mapped,
        Optional<Zero> zero,
        List<String> joinsOn,
        boolean ignoreUnmatched) {

    /** What an area of 0 means. */
    enum Zero {
        MEASURED,
        NOT_DETECTED
    }

    /** A heading and where the protocol names it. */
    record Heading(String text, Place place) {}

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
        final Map<String, Heading> mapped = new LinkedHashMap<>();
        for (Map.Entry<String, Tree> e : table.mapping("columns").entries().entrySet()) {
            if (e.getValue() instanceof Tree.Scalar scalar) {
                mapped.put(e.getKey(), new Heading(scalar.text().strip(), scalar.place()));
            }
        }
        final TableSpec spec =
                new TableSpec(
                        table.place(),
                        table.text("file").orElse(""),
                        table.get("file").map(Tree::place).orElse(table.place()),
                        table.text("form").orElse("long").equals("wide"),
                        mapped,
                        table.text("zero-means")
                                .map(z -> z.equals("measured") ? Zero.MEASURED : Zero.NOT_DETECTED),
                        table.texts("joins-on"),
                        table.get("unmatched").isPresent());
        spec.check(table, reading);
        return spec;
    }

    private void check(Tree.Mapping table, Reading reading) {
        if (ignoreUnmatched && !isRunList()) {
            refuse(table, "unmatched", "only together with 'joins-on: injection'", reading);
        }
        if (wide && !hasAreas()) {
            refuse(table, "form", "no 'form: wide' at a table that joins on labels", reading);
        }
        if (zero.isPresent() && !hasAreas()) {
            refuse(table, "zero-means", "only at a table of areas", reading);
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
