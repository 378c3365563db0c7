package splitledger.report;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import splitledger.report.Page.Part;
import splitledger.report.Page.Row;
import splitledger.report.Page.Table;

/** Says in small print once, with the first compound, what is the same for the others. */
final class SaidOnce {
    private final Set<List<String>> said = new LinkedHashSet<>();
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
            if (stays || !said.contains(key)) {
                kept.add(remark);
            } else {
                left = true;
            }
            here.add(key);
        }
        return row.withRemarks(kept);
    }
}
