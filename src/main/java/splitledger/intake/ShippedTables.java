package splitledger.intake;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import splitledger.base.Vault;

/** Tables of values from outside that the program carries, and protocols' own in their place. */
final class ShippedTables {
    private static final List<String> GLASSWARE =
            List.of("name", "form", "volume_mL", "tolerance_mL", "source");
    private static final List<String> SOLVENTS = List.of("name", "expansion_per_K", "source");

    private ShippedTables() {}

    /**
     * One kind of glassware.
     *
     * @param graduated whether any volume up to its own can be measured
     * @param volume mL
     * @param tolerance half the width between the limits of its volume, mL
     * @param repeatability standard deviation of one filling or delivery, mL; 0 if not stated
     * @param expansion of its volume, per kelvin; 0 if not stated
     */
    record Kind(
            String name,
            boolean graduated,
            double volume,
            double tolerance,
            double repeatability,
            double expansion,
            String source) {}

    /** A solvent's expansion, per kelvin. */
    record Solvent(String name, double expansion, String source) {}

    /** The kinds of glassware that the program knows, by name. */
    static Map<String, Kind> glassware() {
        final Map<String, Kind> kinds = new LinkedHashMap<>();
        shipped("glassware.csv", GLASSWARE, row -> kind(row, kinds));
        return kinds;
    }

    /** The kinds of glassware of a file, by name. */
    static Map<String, Kind> glassware(
            InputFolder folder, String name, String written, Reading reading) throws IOException {
        final Map<String, Kind> kinds = new LinkedHashMap<>();
        final NamedRows rows =
                new NamedRows(written, reading, GLASSWARE, (row, line) -> kind(row, kinds));
        TableFile.read(folder, "glassware", name, written, TableFormat.UNSTATED, reading, rows);
        return kinds;
    }

    /** The solvents that the program knows, by name. */
    static Map<String, Solvent> solvents() {
        final Map<String, Solvent> solvents = new LinkedHashMap<>();
        shipped(
                "solvents.csv",
                SOLVENTS,
                row ->
                        solvents.put(
                                row.text("name"),
                                new Solvent(
                                        row.text("name"),
                                        row.number("expansion_per_K").orElse(0),
                                        row.text("source"))));
        return solvents;
    }

    private static void kind(NamedRows.Row row, Map<String, Kind> into) {
        final OptionalDouble volume = row.number("volume_mL");
        final OptionalDouble tolerance = row.number("tolerance_mL");
        final String form = row.text("form");
        if (!form.equals("one-mark") && !form.equals("graduated")) {
            row.problem("form", "'" + form + "'", "one-mark or graduated", "write one of them");
        }
        if (volume.isEmpty() || tolerance.isEmpty()) {
            row.problem("volume_mL", "no volume or no tolerance", "both", "fill them in");
            return;
        }
        row.name("name")
                .ifPresent(
                        name ->
                                into.put(
                                        name,
                                        new Kind(
                                                name,
                                                form.equals("graduated"),
                                                volume.getAsDouble(),
                                                tolerance.getAsDouble(),
                                                row.number("repeatability_mL").orElse(0),
                                                row.number("expansion_per_K").orElse(0),
                                                row.text("source"))));
    }

    private interface RowTaker {
        void take(NamedRows.Row row);
    }

    /** Reads a resource; it is no input of the study, and mistakes in it are ours. */
    private static void shipped(String name, List<String> columns, RowTaker taker) {
        final Reading own = new Reading();
        final NamedRows rows = new NamedRows(name, own, columns, (row, line) -> taker.take(row));
        try {
            TableFile.read(
                    new InputFolder(resources(), name, own),
                    name,
                    name,
                    name,
                    TableFormat.UNSTATED,
                    own,
                    rows);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        if (own.problems() > 0) {
            throw new IllegalStateException("the resource " + name + " cannot be read");
        }
    }

    private static Vault resources() {
        return new Vault() {
            @Override
            public InputStream open(String name) {
                final InputStream in = ShippedTables.class.getResourceAsStream(name);
                if (in == null) {
                    throw new IllegalStateException("the resource " + name + " is missing");
                }
                return in;
            }

            @Override
            public void write(String name, byte[] bytes) {
                throw new IllegalStateException("resources are read only");
            }

            @Override
            public boolean exists(String name) {
                return ShippedTables.class.getResource(name) != null;
            }
        };
    }
}
