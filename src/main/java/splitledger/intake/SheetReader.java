package splitledger.intake;

import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import splitledger.base.ProblemException;
import splitledger.base.Vault;
import splitledger.study.Place;

/** Reads tables of which nothing is known yet, for drafting a protocol. */
public final class SheetReader implements CsvFile.Rows {
    /** Rows that are looked at; enough to tell what a column holds. */
    static final int MOST_ROWS = 200_000;

    private final List<Sheet.Row> rows = new ArrayList<>();
    private List<String> headings = List.of();
    private boolean cut;

    private SheetReader() {}

    /**
     * Reads tables.
     *
     * @param vault holds them
     * @param protocolName name in the vault of the protocol to be; it need not be there
     * @param written names of the tables relative to the protocol, with / between folders
     * @return one sheet a table, in the same order
     * @throws ProblemException with everything that is wrong with the files
     * @throws IOException if a file that is there cannot be read
     */
    public static List<Sheet> read(Vault vault, String protocolName, List<String> written)
            throws ProblemException, IOException {
        final Reading reading = new Reading();
        final InputFolder folder = new InputFolder(vault, protocolName, reading);
        final List<Sheet> sheets = new ArrayList<>();
        for (String name : written) {
            final Optional<String> found = folder.find(new Place(name, 0, ""), name);
            if (found.isPresent()) {
                final SheetReader reader = new SheetReader();
                CsvFile.read(folder, "table", found.get(), name, reading, reader);
                sheets.add(new Sheet(name, reader.headings, reader.rows, reader.cut));
            }
        }
        reading.throwIfAny();
        return sheets;
    }

    @Override
    public boolean header(int line, List<String> found) {
        headings = List.copyOf(found);
        return true;
    }

    @Override
    public void row(int line, CsvRecord cells) {
        if (rows.size() < MOST_ROWS) {
            rows.add(new Sheet.Row(line, cells.getFields().stream().map(String::strip).toList()));
        } else {
            cut = true;
        }
    }
}
