package splitledger.virtual;

import java.io.IOException;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import splitledger.base.CsvText;
import splitledger.base.ProblemException;
import splitledger.base.Vault;

/**
 * From a design file to a data set: {@code areas.csv} (a row per injection, a column per peak, 0
 * where no peak was found), {@code run-list.csv}, {@code levels.csv} and {@code truth.csv}. The
 * same design gives the same bytes everywhere.
 */
public final class Simulation {
    private static final DateTimeFormatter ACQUIRED =
            DateTimeFormatter.ofPattern("yyyy-MM-dd'T'HH:mm:ss");

    static final String AREAS = "areas.csv";
    static final String RUNS = "run-list.csv";
    static final String LEVELS = "levels.csv";
    static final String COMPOUNDS = "compounds.csv";
    static final String TRUTH = "truth.csv";
    static final String PROTOCOL = "protocol.yaml";
    static final String SAMPLE_ID = "Sample ID";

    /** Headings of the run list by canonical name, where the two differ. */
    static final Map<String, String> RUN_LIST = headings();

    private Simulation() {}

    private static Map<String, String> headings() {
        final Map<String, String> all = new LinkedHashMap<>();
        all.put("order", "Order");
        all.put("series", "Experiment");
        all.put("preparation", "Flask");
        all.put("level", "Level");
        all.put("split_ratio", "Split");
        all.put("day", "Day");
        all.put("analyst", "Who");
        all.put("occasion", "Occasion");
        all.put("inlet_temperature", "Temperature");
        return Collections.unmodifiableMap(all);
    }

    /**
     * Simulates a design and writes its tables.
     *
     * @param designName name for messages
     * @param designYaml the design file
     * @param out where the four tables go
     * @throws ProblemException if the design is wrong; nothing is written then
     * @throws IOException if a table cannot be written
     */
    public static void write(String designName, byte[] designYaml, Vault out)
            throws ProblemException, IOException {
        for (Map.Entry<String, byte[]> table :
                tables(DesignReader.read(designName, designYaml)).entrySet()) {
            out.write(table.getKey(), table.getValue());
        }
    }

    /** The tables of a design by file name. */
    public static Map<String, byte[]> tables(Design design) {
        final List<VirtualInlet.Chromatogram> chromatograms =
                new VirtualInlet(design).chromatograms();
        final Map<String, byte[]> tables = new LinkedHashMap<>();
        tables.put(AREAS, areas(design, chromatograms));
        tables.put(RUNS, runList(design, chromatograms));
        tables.put(LEVELS, levels(design));
        tables.put(COMPOUNDS, compounds(design));
        tables.put(TRUTH, truth(design));
        tables.put(PROTOCOL, ReadyProtocol.of(design, new ReadyProtocol.Exclusions(List.of())));
        return Collections.unmodifiableMap(tables);
    }

    private static byte[] areas(Design design, List<VirtualInlet.Chromatogram> chromatograms) {
        final List<String> header = new ArrayList<>(List.of(SAMPLE_ID));
        header.addAll(design.compounds().keySet());
        final CsvText csv = new CsvText(header);
        for (VirtualInlet.Chromatogram c : chromatograms) {
            csv.cell(c.injection().label());
            for (String compound : design.compounds().keySet()) {
                csv.cell(c.areas().getOrDefault(compound, 0.0));
            }
            csv.endRow();
        }
        return csv.bytes();
    }

    private static byte[] runList(Design design, List<VirtualInlet.Chromatogram> chromatograms) {
        final Solutions solutions = new Solutions(design);
        final CsvText csv =
                new CsvText(
                        List.of(
                                "injection",
                                "Order",
                                "acquired",
                                "Experiment",
                                "Flask",
                                "Level",
                                "Split",
                                "Day",
                                "Who",
                                "Occasion",
                                "Temperature",
                                "oil"));
        for (VirtualInlet.Chromatogram c : chromatograms) {
            final Injection i = c.injection();
            csv.cell(i.label())
                    .cell(i.order())
                    .cell(ACQUIRED.format(i.acquired()))
                    .cell(i.experiment())
                    .cell(i.flask().label())
                    .cell(i.flask().level())
                    .cell(i.split())
                    .cell(i.day())
                    .cell(i.analyst())
                    .cell(i.occasion())
                    .cell(i.temperature());
            if (i.flask().oil().isEmpty()) {
                csv.empty();
            } else {
                csv.cell(solutions.portion(i.flask()));
            }
            csv.endRow();
        }
        return csv.bytes();
    }

    private static byte[] levels(Design design) {
        final CsvText csv = new CsvText(List.of("level", "compound", "amount"));
        design.levels()
                .forEach(
                        (level, amounts) ->
                                amounts.forEach(
                                        (compound, amount) ->
                                                csv.cell(level)
                                                        .cell(compound)
                                                        .cell((double) amount)
                                                        .endRow()));
        return csv.bytes();
    }

    private static byte[] compounds(Design design) {
        final CsvText csv =
                new CsvText(
                        List.of(
                                "name",
                                "boiling_point",
                                "effective_carbon_number",
                                "molar_mass",
                                "source"));
        for (Design.Compound c : design.compounds().values()) {
            csv.cell(c.name())
                    .cell(c.boilingPoint())
                    .cell(c.carbonNumber())
                    .cell(c.molarMass())
                    .cell("design of the simulation")
                    .endRow();
        }
        return csv.bytes();
    }

    private static byte[] truth(Design design) {
        final CsvText csv =
                new CsvText(
                        List.of(
                                "characteristic",
                                "compound",
                                "condition",
                                "quantity",
                                "value",
                                "unit"));
        for (TrueValue t : Truth.of(design)) {
            csv.cell(t.key().characteristic())
                    .cell(t.key().compound())
                    .cell(t.key().conditionText())
                    .cell(t.key().quantity())
                    .cell(t.value())
                    .cell(t.unit())
                    .endRow();
        }
        return csv.bytes();
    }
}
