package splitledger.intake;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import splitledger.base.Nearest;
import splitledger.base.Problem;
import splitledger.base.Shown;
import splitledger.study.Place;

/** What each column of one file becomes, decided on its header. */
final class ColumnPlan {
    /** What a column becomes. */
    enum Kind {
        LABEL,
        NUMBER,
        /** Areas: the column {@code area} of a long table, a compound's column of a wide one. */
        PEAK,
        /** What is the matter with the row. */
        STATE,
        /** Not wanted. */
        ASIDE
    }

    /**
     * One column.
     *
     * @param index from 0
     * @param heading as it stands in the file
     * @param name canonical or user's name
     * @param conversion of its numbers
     */
    record Column(int index, String heading, String name, Kind kind, Units.Conversion conversion) {}

    private final TableSpec spec;
    private final Candidates candidates;
    private final Wanted wanted;
    private final UnitTargets units;
    private final Reading reading;
    private final int line;
    private final List<String> headings;
    private final List<Column> columns = new ArrayList<>();
    private final Map<String, Column> byName = new LinkedHashMap<>();

    private ColumnPlan(
            TableSpec spec,
            Candidates candidates,
            Wanted wanted,
            UnitTargets units,
            Reading reading,
            int line,
            List<String> headings) {
        this.spec = spec;
        this.candidates = candidates;
        this.wanted = wanted;
        this.units = units;
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
            UnitTargets units,
            Reading reading,
            int line,
            List<String> headings) {
        final ColumnPlan plan =
                new ColumnPlan(
                        spec, candidates, wanted, units, reading, line, List.copyOf(headings));
        final int before = reading.problems();
        plan.refuseRepeats();
        plan.refuseUnknownMappings();
        plan.assign();
        plan.require();
        plan.refuseForeign();
        plan.refuseForeignUnits();
        if (spec.wide()) {
            plan.requireCompounds();
        }
        return reading.problems() == before ? List.copyOf(plan.columns) : List.of();
    }

    private void refuseRepeats() {
        for (int i = 0; i < headings.size(); i++) {
            final String heading = headings.get(i);
            final int first = headings.indexOf(heading);
            if (!Shown.isHarmless(heading)) {
                problem(
                        heading,
                        "a control character in the heading of column " + (i + 1),
                        "plain text",
                        "take it out");
            } else if (!heading.isEmpty() && first < i) {
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
                    add(column(i, e.getKey(), true));
                }
            }
            if (!mapped && !heading.isEmpty()) {
                add(column(i, HeadingUnits.bare(heading), false));
            }
        }
    }

    private Column column(int index, String name, boolean mapped) {
        final String heading = headings.get(index);
        final Kind kind = kind(name, mapped);
        final Units.Conversion conversion =
                kind == Kind.NUMBER || kind == Kind.PEAK
                        ? conversion(heading, kind == Kind.PEAK ? Columns.AREA : name)
                        : Units.Conversion.NONE;
        return new Column(index, heading, name, kind, conversion);
    }

    private Units.Conversion conversion(String heading, String name) {
        final TableSpec.Heading stated = spec.meaning().units().get(name);
        final Place own = new Place(spec.file(), line, heading);
        final boolean ofCompound = spec.wide() && candidates.possible().contains(heading);
        final String inHeading = ofCompound ? "" : HeadingUnits.unitOf(heading);
        if (stated == null) {
            return units.conversion(name, inHeading, own);
        }
        if (!inHeading.isEmpty() && !inHeading.equals(stated.text())) {
            reading.problem(
                    stated.place(),
                    "the unit '" + stated.text() + "' where the heading says '" + inHeading + "'",
                    "one unit for a column",
                    "take one of them out");
        }
        return units.conversion(name, stated.text(), own);
    }

    private void refuseForeignUnits() {
        spec.meaning()
                .units()
                .forEach(
                        (name, unit) -> {
                            final boolean there =
                                    byName.containsKey(name)
                                            || (spec.wide() && name.equals(Columns.AREA));
                            if (!there) {
                                reading.problem(
                                        unit.place(),
                                        "a unit for '"
                                                + name
                                                + "', which "
                                                + spec.file()
                                                + " lacks",
                                        "a column of numbers of that table",
                                        Nearest.hint(name, byName.keySet()));
                            } else if (byName.containsKey(name)
                                    && byName.get(name).kind() == Kind.LABEL) {
                                reading.problem(
                                        unit.place(),
                                        "a unit for '" + name + "', a column of labels",
                                        "a column of numbers",
                                        "take it out");
                            }
                        });
        for (String name : spec.export().set().keySet()) {
            if (byName.containsKey(name)) {
                problem(
                        byName.get(name).heading(),
                        "a column '" + name + "' beside set: {" + name + ": ...}",
                        "one source for a column",
                        "take it out of set, or map the column to another name");
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
        if (name.equals(Columns.STATE) && spec.hasAreas()) {
            return Kind.STATE;
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
        for (String name : spec.required()) {
            if (!byName.containsKey(name) && !spec.mapped().containsKey(name)) {
                final String mapping =
                        Nearest.to(name, headings)
                                .map(near -> ", perhaps columns: {" + name + ": " + near + "}")
                                .orElse(": columns: {" + name + ": HEADING}");
                problem(
                        "",
                        "no column '" + name + "'",
                        "a column '" + name + "'",
                        "map the heading that holds it" + mapping);
            }
        }
    }

    private void refuseForeign() {
        if (spec.wide()) {
            for (String name : List.of(Columns.AREA, Columns.COMPOUND)) {
                refuse(
                        name,
                        "a wide table: one column for each compound",
                        "say form: long if each row is one peak");
            }
        } else if (!spec.hasAreas()) {
            refuse(
                    Columns.AREA,
                    "no areas in a table that joins on labels",
                    "take joins-on out if it is a table of areas");
        }
    }

    private void refuse(String name, String expected, String hint) {
        final Column column = byName.get(name);
        if (column != null) {
            problem(column.heading(), "a column '" + name + "'", expected, hint);
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
