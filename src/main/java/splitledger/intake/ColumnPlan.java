package splitledger.intake;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import splitledger.base.Nearest;
import splitledger.base.Problem;
import splitledger.study.Place;

/** What each column of one file becomes, decided on its header. */
final class ColumnPlan {
    /** What a column becomes. */
    enum Kind {
        LABEL,
        NUMBER,
        /** Areas: the column {@code area} of a long table, a compound's column of a wide one. */
        PEAK,
        /** Not wanted. */
        ASIDE
    }

    /**
     * One column.
     *
     * @param index from 0
     * @param heading as it stands in the file
     * @param name canonical or user's name
     */
    record Column(int index, String heading, String name, Kind kind) {}

    private final TableSpec spec;
    private final Candidates candidates;
    private final Wanted wanted;
    private final Reading reading;
    private final int line;
    private final List<String> headings;
    private final List<Column> columns = new ArrayList<>();
    private final Map<String, Column> byName = new LinkedHashMap<>();

    private ColumnPlan(
            TableSpec spec,
            Candidates candidates,
            Wanted wanted,
            Reading reading,
            int line,
            List<String> headings) {
        this.spec = spec;
        this.candidates = candidates;
        this.wanted = wanted;
        this.reading = reading;
        this.line = line;
        this.headings = headings;
    }

    /**
     * Plans a file; everything wrong with its header becomes a problem.
     *
     * @return the columns; empty if the file cannot be read by this header
     */
    static List<Column> of(
            TableSpec spec,
            Candidates candidates,
            Wanted wanted,
            Reading reading,
            int line,
            List<String> headings) {
        final ColumnPlan plan =
                new ColumnPlan(spec, candidates, wanted, reading, line, List.copyOf(headings));
        final int before = reading.problems();
        plan.refuseRepeats();
        plan.refuseUnknownMappings();
        plan.assign();
        plan.require();
        if (spec.wide()) {
            plan.requireCompounds();
        }
        return reading.problems() == before ? List.copyOf(plan.columns) : List.of();
    }

    private void refuseRepeats() {
        for (int i = 0; i < headings.size(); i++) {
            final String heading = headings.get(i);
            final int first = headings.indexOf(heading);
            if (heading.isEmpty()) {
                reading.flag(
                        new Place(spec.file(), line, ""),
                        "column " + (i + 1),
                        "has no heading and is left out");
            } else if (first < i) {
                problem(
                        heading,
                        "the heading '"
                                + heading
                                + "' in columns "
                                + (first + 1)
                                + " and "
                                + (i + 1),
                        "each heading once",
                        "give one of the columns another heading");
            }
        }
    }

    private void refuseUnknownMappings() {
        for (Map.Entry<String, TableSpec.Heading> e : spec.mapped().entrySet()) {
            final TableSpec.Heading heading = e.getValue();
            if (!headings.contains(heading.text())) {
                reading.problem(
                        heading.place(),
                        "'" + heading.text() + "', which is no heading of " + spec.file(),
                        "a heading of that table",
                        Nearest.hint(heading.text(), headings));
            }
        }
    }

    private void assign() {
        for (int i = 0; i < headings.size(); i++) {
            final String heading = headings.get(i);
            boolean mapped = false;
            for (Map.Entry<String, TableSpec.Heading> e : spec.mapped().entrySet()) {
                if (e.getValue().text().equals(heading)) {
                    mapped = true;
                    add(new Column(i, heading, e.getKey(), kind(e.getKey(), true)));
                }
            }
            if (!mapped && !heading.isEmpty()) {
                add(new Column(i, heading, heading, kind(heading, false)));
            }
        }
    }

    private void add(Column column) {
        columns.add(column);
        if (column.kind() == Kind.ASIDE) {
            return;
        }
        final Column before = byName.putIfAbsent(column.name(), column);
        if (before != null && !before.heading().equals(column.heading())) {
            problem(
                    column.heading(),
                    "the columns '"
                            + before.heading()
                            + "' and '"
                            + column.heading()
                            + "' for the name '"
                            + column.name()
                            + "'",
                    "one column for a name",
                    "map one of them to another name, or give it another heading");
        }
    }

    private Kind kind(String name, boolean mapped) {
        if (spec.wide() && candidates.possible().contains(name)) {
            return Kind.PEAK;
        }
        if (!spec.wide() && spec.hasAreas() && name.equals(Columns.AREA)) {
            return Kind.PEAK;
        }
        final boolean kept =
                !spec.wide()
                        || mapped
                        || Columns.isCanonical(name)
                        || wanted.numbers().contains(name)
                        || wanted.mentions(name);
        if (!kept) {
            return Kind.ASIDE;
        }
        return wanted.numbers().contains(name) ? Kind.NUMBER : Kind.LABEL;
    }

    private void require() {
        final List<String> required = new ArrayList<>(spec.joinsOn());
        if (spec.hasAreas()) {
            required.add(Columns.INJECTION);
            if (!spec.wide()) {
                required.add(Columns.COMPOUND);
                required.add(Columns.AREA);
            }
        }
        for (String name : required) {
            if (!byName.containsKey(name) && !spec.mapped().containsKey(name)) {
                final String near =
                        Nearest.to(name, headings)
                                .map(
                                        h ->
                                                "map the heading that holds it, perhaps columns: {"
                                                        + name
                                                        + ": "
                                                        + h
                                                        + "}")
                                .orElse(
                                        "map the heading that holds it: columns: {"
                                                + name
                                                + ": HEADING}");
                problem("", "no column '" + name + "'", "a column '" + name + "'", near);
            }
        }
        final List<String> foreign =
                spec.wide()
                        ? List.of(Columns.AREA, Columns.COMPOUND)
                        : spec.hasAreas() ? List.of() : List.of(Columns.AREA);
        for (String name : foreign) {
            if (byName.containsKey(name)) {
                problem(
                        byName.getOrDefault(name, columns.get(0)).heading(),
                        "a column '" + name + "'",
                        spec.wide()
                                ? "a wide table: one column for each compound"
                                : "no areas in a table that joins on labels",
                        spec.wide()
                                ? "say form: long if each row is one peak"
                                : "take joins-on out if it is a table of areas");
            }
        }
    }

    private void requireCompounds() {
        final Set<String> named = candidates.named();
        for (String compound : named) {
            if (!byName.containsKey(compound) && !spec.mapped().containsKey(compound)) {
                reading.problem(Missing.compound(compound, candidates, asides(), spec.file()));
            }
        }
    }

    private List<String> asides() {
        return columns.stream().filter(c -> c.kind() == Kind.ASIDE).map(Column::heading).toList();
    }

    private void problem(String heading, String found, String expected, String hint) {
        reading.problem(new Problem(spec.file(), line, heading, found, expected, hint));
    }
}
