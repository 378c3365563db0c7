package splitledger.intake;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import splitledger.base.ProblemException;
import splitledger.base.Vault;
import splitledger.study.Place;

/** Reads tables of which nothing is known yet, for drafting a protocol. */
public final class SheetReader implements TableFile.Rows {
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
                TableFile.read(
                        folder, "table", found.get(), name, TableFormat.UNSTATED, reading, reader);
                sheets.add(new Sheet(name, reader.headings, reader.rows, reader.cut));
            }
        }
        reading.throwIfAny();
        return sheets;
    }

    @Override
    public Collection<String> required() {
        return List.of();
    }

    @Override
    public boolean header(int line, List<String> found) {
        headings = List.copyOf(found);
        return true;
    }

    @Override
    public void row(int line, RowCells cells) {
        if (rows.size() < MOST_ROWS) {
            rows.add(
                    new Sheet.Row(
                            line, IntStream.range(0, cells.size()).mapToObj(cells::text).toList()));
        } else {
            cut = true;
        }
    }
}
