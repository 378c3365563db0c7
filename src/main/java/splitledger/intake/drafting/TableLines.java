package splitledger.intake.drafting;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import splitledger.intake.drafting.TableGuess.Kind;

/** Writes the tables with what each column was taken for. */
final class TableLines {
    private final Facts facts;

    TableLines(Facts facts) {
        this.facts = facts;
    }

    void write(Page page) {
        page.line(0, "tables:");
        for (TableGuess table : facts.tables()) {
            if (table.kind() != Kind.COMPOUNDS) {
                write(page, table);
            }
        }
    }

    private void write(Page page, TableGuess table) {
        page.note(1, table.sheet().file() + ": " + table.sheet().rows().size() + " rows.");
        table.reasons().forEach(r -> page.note(1, r));
        if (table.sheet().cut()) {
            page.note(1, "It is long: only the rows counted here were looked at.");
        }
        if (table.kind() == Kind.UNUSED) {
            return;
        }
        page.line(1, "- file: " + Page.quoted(table.sheet().file()));
        if (table.kind() == Kind.WIDE) {
            page.line(2, "form: wide");
        }
        if (!table.joinsOn().isEmpty()) {
            page.line(2, "joins-on: " + Page.list(table.joinsOn()));
        }
        columns(page, table);
        if (table.hasAreas() && facts.zeros(table) > 0) {
            page.note(
                            2,
                            "An area of 0 stands "
                                    + facts.zeros(table)
                                    + " times. Many data systems write 0 where they find no peak;"
                                    + " then it is not-detected. A 0 that was integrated is"
                                    + " measured.")
                    .ask(
                            2,
                            "zero-means",
                            "what does an area of 0 mean here: not-detected, or measured?",
                            "not-detected");
        }
    }

    private void columns(Page page, TableGuess table) {
        final List<String[]> lines = new ArrayList<>();
        for (Map.Entry<String, Column> e : inOrder(table)) {
            if (!e.getValue().heading().equals(e.getKey())) {
                lines.add(
                        new String[] {
                            e.getKey() + ": " + Page.quoted(e.getValue().heading()),
                            holds(e.getValue())
                        });
            }
        }
        final boolean lacksInjection = table.hasAreas() && table.column("injection").isEmpty();
        if (lines.isEmpty() && !lacksInjection) {
            return;
        }
        page.line(2, "columns:");
        if (lacksInjection) {
            askInjection(page, table);
        }
        final int width = lines.stream().mapToInt(l -> l[0].length()).max().orElse(0);
        for (String[] line : lines) {
            page.line(3, line[0] + " ".repeat(width - line[0].length()) + "  # " + line[1]);
        }
        if (!facts.has("series") && table.hasAreas()) {
            page.note(
                    3,
                    "No column says what a row is for (calibration, blank, sample ...). If there is"
                            + " one, name it here: 'series: HEADING'.");
        }
    }

    private static List<Map.Entry<String, Column>> inOrder(TableGuess table) {
        return table.names().entrySet().stream()
                .sorted(Comparator.comparingInt(e -> e.getValue().index()))
                .toList();
    }

    private static String holds(Column column) {
        final String what = column.filled() + (column.filled() == 1 ? " cell" : " cells");
        if (column.filled() > 0 && column.distinct() == column.filled()) {
            return (what + ", all different: " + first(column)).replaceAll("\\p{Cc}", " ");
        }
        return (what + ": " + first(column)).replaceAll("\\p{Cc}", " ");
    }

    private static String first(Column column) {
        final List<String> labels = List.copyOf(column.counts().keySet());
        final StringBuilder text = new StringBuilder();
        for (int i = 0; i < labels.size(); i++) {
            if (text.length() + labels.get(i).length() > 40) {
                return text.isEmpty() ? "long texts" : text + ", ...";
            }
            text.append(i == 0 ? "" : ", ").append(labels.get(i));
        }
        return text.toString();
    }

    /** No column tells injections apart: says which pair would, if one does. */
    private static void askInjection(Page page, TableGuess table) {
        page.note(3, "No column has a label of its own for each injection.");
        final List<Column> apart = table.apart();
        if (apart.size() == 2) {
            page.note(
                    3,
                    "'"
                            + apart.get(0).heading()
                            + "' and '"
                            + apart.get(1).heading()
                            + "' together tell the injections apart: add a column to the table that"
                            + " joins them, such as 1-25, and name it here.");
        }
        page.ask(3, "injection", "which column has a different label for each injection?", "");
    }
}
