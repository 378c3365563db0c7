package splitledger.intake;

import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import splitledger.base.Problem;
import splitledger.study.Place;
import splitledger.study.Tree;

/**
 * Which unit each column of numbers has inside the program: of amounts and areas that of the
 * conventions, else the first that a table states; of the columns of the measurand that of the
 * measurand; temperatures in degC, flows in mL/min, times in min. Tables are converted once, on
 * reading.
 */
final class UnitTargets {
    private static final Map<String, String> FIXED =
            Map.of(
                    "inlet_temperature", "degC",
                    "split_flow", "mL/min",
                    "column_flow", "mL/min",
                    "retention", "min",
                    "width", "min");

    private final Reading reading;
    private final Map<String, String> targets = new TreeMap<>(FIXED);
    private final Map<String, Place> unstated = new TreeMap<>();
    private final Map<String, String> firstStated = new TreeMap<>();

    /** The targets that the protocol sets. */
    UnitTargets(Tree.Mapping protocol, Candidates candidates, Reading reading) {
        this.reading = reading;
        final Tree.Mapping conventions = protocol.mapping("conventions");
        conventions.text("area-unit").ifPresent(u -> targets.put(Columns.AREA, u));
        conventions
                .text("amount-unit")
                .or(() -> candidates.internalStandard().map(i -> i.unit()))
                .filter(u -> !u.isEmpty())
                .ifPresent(u -> targets.put(Columns.AMOUNT, u));
        for (Tree input : protocol.mapping("measurand").mapping("inputs").entries().values()) {
            if (input instanceof Tree.Mapping mapping) {
                final Optional<String> column = mapping.text("column");
                final Optional<String> unit = mapping.text("unit");
                if (column.isPresent() && unit.isPresent()) {
                    targets.putIfAbsent(column.get(), unit.get());
                }
            }
        }
    }

    /** The unit of areas or amounts, if anything states it. */
    Optional<String> unit(String column) {
        return Optional.ofNullable(targets.get(column));
    }

    /**
     * How a column is converted.
     *
     * @param column its name
     * @param stated its unit in the table; empty if nothing states it
     * @param place where it is stated, or the column
     */
    Units.Conversion conversion(String column, String stated, Place place) {
        final String name = column.equals("amount_u") ? Columns.AMOUNT : column;
        if (stated.isEmpty()) {
            unstated.putIfAbsent(name, place);
            return Units.Conversion.NONE;
        }
        final String target = targets.computeIfAbsent(name, n -> first(n, stated));
        if (target.equals(stated)) {
            return Units.Conversion.NONE;
        }
        final Optional<Units> from = Units.of(stated);
        final Optional<Units> to = Units.of(target);
        final Optional<Units.Conversion> conversion =
                from.isPresent() && to.isPresent() ? from.get().to(to.get()) : Optional.empty();
        if (conversion.isEmpty()) {
            reading.problem(
                    place,
                    "the unit '" + stated + "' of " + column,
                    "'" + target + "' or a unit that can be converted to it",
                    from.isEmpty()
                            ? "units here are such as mg/L, ug/mL, pA*s, mL/min, degC, kPa"
                            : "correct the unit, or the one it is converted to");
            return Units.Conversion.NONE;
        }
        if (!conversion.get().isNone()) {
            reading.choice(
                    column
                            + " of "
                            + place.file()
                            + " is converted from "
                            + stated
                            + " to "
                            + target,
                    conversion.get().words(),
                    "units as stated at the table or in its heading");
        }
        return conversion.get();
    }

    private String first(String name, String stated) {
        firstStated.put(name, stated);
        return stated;
    }

    /** Asks where one table states a unit and another does not. */
    void tellUnstated() {
        firstStated.forEach(
                (name, unit) -> {
                    final Place place = unstated.get(name);
                    if (place != null) {
                        reading.problem(
                                new Problem(
                                        place.file(),
                                        place.row(),
                                        name,
                                        "no unit, while another table has " + unit,
                                        "a unit at every table with this column",
                                        "add units: {"
                                                + name
                                                + ": "
                                                + unit
                                                + "} at this table if it is the same"));
                    }
                });
    }
}
