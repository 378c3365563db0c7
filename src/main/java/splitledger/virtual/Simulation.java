package splitledger.virtual;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
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
 * where no peak was found), {@code run-list.csv}, {@code levels.csv}, {@code compounds.csv}, {@code
 * truth.csv} and the {@code protocol.yaml} that evaluates them. The same design gives the same
 * bytes everywhere.
 */
public final class Simulation {
    /** Columns of {@link #TRUTH}. */
    public static final String TRUTH_HEADER =
            "characteristic,compound,condition,quantity,value,unit";

    /** File of the true values. */
    public static final String TRUTH = "truth.csv";

    /** File of the protocol. */
    public static final String PROTOCOL = "protocol.yaml";

    /** File of the compounds that the protocol names. */
    public static final String COMPOUNDS = "compounds.csv";

    static final String AREAS = "areas.csv";
    static final String RUNS = "run-list.csv";
    static final String LEVELS = "levels.csv";

    static final String SAMPLE_ID = "Sample ID";

    private static final int WIDTH_OF_A_CELL = 7;

    private Simulation() {}

    /**
     * Simulates a design and writes its files.
     *
     * @param designName name for messages
     * @param designYaml the design file
     * @param out where the files go
     * @throws ProblemException if the design is wrong; nothing is written then
     * @throws IOException if a file cannot be written
     */
    public static void write(String designName, byte[] designYaml, Vault out)
            throws ProblemException, IOException {
        for (Map.Entry<String, byte[]> table :
                tables(DesignReader.read(designName, designYaml)).entrySet()) {
            out.write(table.getKey(), table.getValue());
        }
    }

    /** The files of a design by name. */
    public static Map<String, byte[]> tables(Design design) {
        final VirtualInlet inlet = new VirtualInlet(design);
        final Map<String, byte[]> tables = new LinkedHashMap<>();
        tables.put(AREAS, areas(inlet));
        tables.put(RUNS, new RunList(design, inlet).bytes());
        tables.put(LEVELS, levels(design));
        tables.put(COMPOUNDS, compounds(design));
        tables.put(TRUTH, truth(design, inlet));
        tables.put(PROTOCOL, ReadyProtocol.of(design, inlet.plan()));
        return Collections.unmodifiableMap(tables);
    }

    private static byte[] areas(VirtualInlet inlet) {
        final Peaks peaks = inlet.peaks();
        final List<String> header = new ArrayList<>(List.of(SAMPLE_ID));
        for (int i = 0; i < peaks.size(); i++) {
            header.add(peaks.name(i));
        }
        final StringBuilder text =
                new StringBuilder(WIDTH_OF_A_CELL * peaks.size() * inlet.plan().size())
                        .append(new String(new CsvText(header).bytes(), StandardCharsets.UTF_8));
        for (Injection injection : inlet.plan()) {
            if (!injection.fate().missing()) {
                text.append(injection.label());
                for (double area : inlet.printed(injection)) {
                    AreaText.append(text.append(','), Double.isNaN(area) ? 0 : area);
                }
                text.append('\n');
            }
        }
        return text.toString().getBytes(StandardCharsets.UTF_8);
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

    private static byte[] truth(Design design, VirtualInlet inlet) {
        final CsvText csv = new CsvText(List.of(TRUTH_HEADER.split(",")));
        for (TrueValue t : Truth.of(design, inlet)) {
            if (!t.key().method().isEmpty()) {
                continue;
            }
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
