package splitledger.base;

import java.util.ArrayList;
import java.util.List;

/**
 * Reads back what {@link CsvText} wrote. Tables of users are read elsewhere, with more patience.
 */
public final class CsvRows {
    private CsvRows() {}

    /**
     * The rows with their cells, the header first.
     *
     * @param text a whole file with line feeds and commas, cells in quotes where needed
     */
    public static List<List<String>> of(String text) {
        final List<List<String>> rows = new ArrayList<>();
        List<String> cells = new ArrayList<>();
        final StringBuilder cell = new StringBuilder();
        boolean quoted = false;
        for (int i = 0; i < text.length(); i++) {
            final char c = text.charAt(i);
            if (c == '"') {
                final boolean twice = quoted && i + 1 < text.length() && text.charAt(i + 1) == '"';
                if (twice) {
                    cell.append('"');
                    i++;
                } else {
                    quoted = !quoted;
                }
            } else if (!quoted && (c == ',' || c == '\n')) {
                cells.add(cell.toString());
                cell.setLength(0);
                if (c == '\n') {
                    rows.add(List.copyOf(cells));
                    cells = new ArrayList<>();
                }
            } else {
                cell.append(c);
            }
        }
        if (cell.length() > 0 || !cells.isEmpty()) {
            cells.add(cell.toString());
            rows.add(List.copyOf(cells));
        }
        return rows;
    }
}
