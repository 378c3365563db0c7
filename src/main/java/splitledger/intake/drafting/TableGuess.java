package splitledger.intake.drafting;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import splitledger.intake.Sheet;

/**
 * What a table seems to be.
 *
 * @param sheet the table
 * @param kind what it is for
 * @param names column by the program's name
 * @param others columns that fit no name
 * @param joinsOn labels it joins on; empty for a table of areas
 * @param reasons what the guess rests on, a sentence each
 */
record TableGuess(
        Sheet sheet,
        Kind kind,
        Map<String, Column> names,
        List<Column> others,
        List<String> joinsOn,
        List<String> reasons) {

    /** What a table is for. */
    enum Kind {
        /** Areas, a row for each injection and compound. */
        LONG,
        /** Areas, a column for each compound. */
        WIDE,
        /** A row for each injection. */
        RUNS,
        /** Columns that belong to other labels, such as the amount of a level. */
        LABELS,
        /** Names and boiling points of compounds. */
        COMPOUNDS,
        /** No use was found for it. */
        UNUSED
    }

    /** Whether it holds areas. */
    boolean hasAreas() {
        return kind == Kind.LONG || kind == Kind.WIDE;
    }

    /** The column that holds a name, if there is one. */
    Optional<Column> column(String name) {
        return Optional.ofNullable(names.get(name));
    }

    /** Two columns that together tell injections apart, or all columns of labels. */
    List<Column> apart() {
        final List<Column> labels = new ArrayList<>();
        names.forEach(
                (name, column) -> {
                    if (!Headings.isNumber(name) && !name.equals("compound")) {
                        labels.add(column);
                    }
                });
        others.stream().filter(c -> c.filled() > 0).forEach(labels::add);
        for (int i = 0; i < labels.size(); i++) {
            for (int j = i + 1; j < labels.size(); j++) {
                final List<Column> both = List.of(labels.get(i), labels.get(j));
                if (TableGuesser.tellsApart(sheet, both, column("compound"))) {
                    return both;
                }
            }
        }
        return List.copyOf(labels);
    }

    /** The cell of a row under a name; empty if there is no such column. */
    String cell(Sheet.Row row, String name) {
        return column(name).map(c -> row.cells().get(c.index())).orElse("");
    }
}
