package splitledger.report;

import java.util.List;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;
import splitledger.base.CellWriter;
import splitledger.base.Numbers;

/** One sheet of a workbook: a header that stays in sight, and rows below it. */
final class Sheet implements CellWriter {
    /** The longest text that a cell of the format holds. */
    private static final int LONGEST = 32_767;

    private static final String CUT = " …";
    private static final String MORE =
            "There is no room for more rows in a sheet; see the CSV file.";
    private static final int WIDTH = 18;

    private final Worksheet sheet;
    private final int width;
    private int row;
    private int column;

    private Sheet(Worksheet sheet, int width) {
        this.sheet = sheet;
        this.width = width;
    }

    /** Starts a sheet with its header. */
    static Sheet of(Workbook book, String name, List<String> header) {
        final Sheet made = new Sheet(book.newWorksheet(name), header.size());
        for (int c = 0; c < header.size(); c++) {
            made.sheet.value(0, c, header.get(c));
            made.sheet.width(c, WIDTH);
        }
        made.sheet.range(0, 0, 0, header.size() - 1).style().bold().wrapText(true).set();
        made.sheet.freezePane(0, 1);
        made.sheet.repeatRows(0);
        made.row = 1;
        return made;
    }

    @Override
    public Sheet cell(String value) {
        if (!value.isEmpty() && hasRoom()) {
            sheet.value(
                    row,
                    column,
                    value.length() > LONGEST
                            ? value.substring(0, LONGEST - CUT.length()) + CUT
                            : value);
        }
        column++;
        return this;
    }

    @Override
    public Sheet cell(double value) {
        if (Double.isInfinite(value)) {
            return cell(Numbers.text(value));
        }
        if (hasRoom()) {
            sheet.value(row, column, value);
        }
        column++;
        return this;
    }

    @Override
    public Sheet empty() {
        column++;
        return this;
    }

    @Override
    public Sheet endRow() {
        if (column != width) {
            throw new IllegalStateException("row has " + column + " cells, the header " + width);
        }
        row++;
        column = 0;
        return this;
    }

    /** Ends the sheet: its last rows may be sorted and filtered by the header. */
    void close() {
        final int last = Math.min(row, Worksheet.MAX_ROWS - 1);
        if (row >= Worksheet.MAX_ROWS) {
            sheet.value(Worksheet.MAX_ROWS - 1, 0, MORE);
        }
        sheet.setAutoFilter(0, 0, Math.max(last - 1, 0), width - 1);
    }

    private boolean hasRoom() {
        return row < Worksheet.MAX_ROWS - 1;
    }
}
