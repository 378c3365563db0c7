package splitledger.report;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import splitledger.report.Page.Part;
import splitledger.report.Page.Row;
import splitledger.report.Page.Table;

/**
 * Says in small print once, with the first compound, what is the same for the others; and a general
 * clause of a remark, one that holds no number, once under a heading.
 */
final class SaidOnce {
    private static final String BETWEEN = "; ";
    private static final int LONG = 40;

    private final Set<List<String>> said = new LinkedHashSet<>();
    private final Set<List<String>> clauses = new LinkedHashSet<>();
    private String heading = "";
    private boolean left;

    private SaidOnce() {}

    /** The parts without what an earlier one has said of the same quantity. */
    static List<Part> in(List<Part> parts) {
        final SaidOnce first = new SaidOnce();
        final SaidOnce further = new SaidOnce();
        final List<Part> shorter = new ArrayList<>();
        for (Part part : parts) {
            shorter.add(
                    new Part(
                            part.table().map(t -> first.shortened(t)),
                            part.further().map(t -> further.shortened(t))));
        }
        return List.copyOf(shorter);
    }

    private Table shortened(Table table) {
        final Set<List<String>> here = new LinkedHashSet<>();
        final List<Row> rows = new ArrayList<>();
        left = false;
        clauses.clear();
        for (Row row : table.rows()) {
            if (!row.indented()) {
                heading = row.what();
            }
            rows.add(shortened(row, here));
        }
        said.addAll(here);
        return new Table(
                table.compound(),
                table.title(),
                table.method(),
                table.interval(),
                table.widths(),
                rows,
                table.judged(),
                table.matrices(),
                left ? "Remarks that are the same as above are not repeated." : "");
    }

    /** Methods tell rows apart and requirements are looked for: they stay. */
    private Row shortened(Row row, Set<List<String>> here) {
        final Optional<String> method =
                row.remarks().stream().filter(r -> r.startsWith(FindingRows.METHOD)).findFirst();
        final List<String> kept = new ArrayList<>();
        for (String remark : row.remarks()) {
            final List<String> key =
                    List.of(heading, row.indented() ? row.what() : "", method.orElse(""), remark);
            final boolean stays =
                    remark.startsWith(FindingRows.METHOD)
                            || remark.startsWith(FindingRows.REQUIRED);
            if (stays) {
                kept.add(remark);
            } else if (said.contains(key)) {
                left = true;
            } else {
                news(remark).ifPresent(kept::add);
            }
            here.add(key);
        }
        return row.withRemarks(kept);
    }

    /** The remark without long clauses that an earlier row under the same heading has said. */
    private Optional<String> news(String remark) {
        final List<String> kept = new ArrayList<>();
        for (String clause : remark.split(BETWEEN, -1)) {
            final boolean general =
                    clause.length() >= LONG && clause.chars().noneMatch(Character::isDigit);
            if (!general || clauses.add(List.of(heading, clause.toLowerCase(Locale.ROOT)))) {
                kept.add(clause);
            } else {
                left = true;
            }
        }
        final String text = String.join(BETWEEN, kept);
        return kept.isEmpty()
                ? Optional.empty()
                : Optional.of(remark.startsWith(text) ? text : begun(text));
    }

    /** With a capital letter if a word comes first, and no symbol. */
    private static String begun(String text) {
        final boolean word = text.length() > 1 && Character.isLetter(text.charAt(1));
        return word ? text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1) : text;
    }
}
