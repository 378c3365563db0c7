package splitledger.base;

import java.nio.charset.StandardCharsets;
import java.util.List;

/**
 * Builds one CSV file: UTF-8 without byte order mark, line feeds, commas, quotes only where needed.
 * A text cell that begins with {@code = + - @} or a control character gets a leading apostrophe, so
 * that no spreadsheet takes it for a formula.
 */
public final class CsvText implements CellWriter {
    private final StringBuilder text = new StringBuilder();
    private final int width;
    private int cells;

    /** Starts a file with its header. */
    public CsvText(List<String> header) {
        width = header.size();
        header.forEach(this::cell);
        endRow();
    }

    /** Adds a text cell. */
    @Override
    public CsvText cell(String value) {
        return raw(printed(value));
    }

    /**
     * A text as its cell holds it: with a leading apostrophe if it would be taken for a formula.
     */
    public static String printed(String value) {
        final boolean formula = !value.isEmpty() && "=+-@\t\r".indexOf(value.charAt(0)) >= 0;
        return formula ? "'" + value : value;
    }

    /** Adds a number cell in shortest round-trip form. */
    @Override
    public CsvText cell(double value) {
        return raw(Numbers.text(value));
    }

    /** Adds an empty cell. */
    @Override
    public CsvText empty() {
        return raw("");
    }

    /**
     * Ends the row.
     *
     * @throws IllegalStateException if it has not as many cells as the header
     */
    @Override
    public CsvText endRow() {
        if (cells != width) {
            throw new IllegalStateException("row has " + cells + " cells, the header " + width);
        }
        text.append('\n');
        cells = 0;
        return this;
    }

    /** The file as bytes. */
    public byte[] bytes() {
        return text.toString().getBytes(StandardCharsets.UTF_8);
    }

    private CsvText raw(String value) {
        if (cells++ > 0) {
            text.append(',');
        }
        if (value.indexOf('"') >= 0
                || value.indexOf(',') >= 0
                || value.indexOf('\n') >= 0
                || value.indexOf('\r') >= 0) {
            text.append('"').append(value.replace("\"", "\"\"")).append('"');
        } else {
            text.append(value);
        }
        return this;
    }
}
