package splitledger.intake;

import com.fasterxml.aalto.UncheckedStreamException;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.dhatim.fastexcel.reader.Cell;
import org.dhatim.fastexcel.reader.CellType;
import org.dhatim.fastexcel.reader.ExcelReaderException;
import org.dhatim.fastexcel.reader.ReadableWorkbook;
import org.dhatim.fastexcel.reader.ReadingOptions;
import org.dhatim.fastexcel.reader.Row;
import org.dhatim.fastexcel.reader.Sheet;
import org.dhatim.fastexcel.reader.SheetVisibility;
import splitledger.base.Nearest;
import splitledger.base.Numbers;
import splitledger.base.Problem;
import splitledger.base.Shown;

/** One sheet of a workbook (.xlsx), streamed row by row. */
final class XlsxFile {
    private final String written;
    private final TableFormat stated;
    private final Reading reading;
    private final RowTaker taker;
    private final List<Row> head = new ArrayList<>();
    private boolean from1904;

    private XlsxFile(String written, TableFormat stated, Reading reading, TableFile.Rows rows) {
        this.written = written;
        this.stated = stated;
        this.reading = reading;
        taker = new RowTaker(written, reading, rows);
    }

    /** Reads a sheet; see {@link TableFile#read}. */
    static boolean read(
            InputStream bytes,
            String written,
            TableFormat stated,
            Reading reading,
            TableFile.Rows rows)
            throws IOException {
        return new XlsxFile(written, stated, reading, rows).read(bytes);
    }

    private boolean read(InputStream bytes) throws IOException {
        final byte[] workbook = bytes.readNBytes(Limits.WORKBOOK_BYTES + 1);
        if (workbook.length > Limits.WORKBOOK_BYTES) {
            refuse(
                    "a workbook of more than " + Limits.WORKBOOK_BYTES + " bytes",
                    "a smaller one",
                    "export its sheet as CSV UTF-8");
            return false;
        }
        try {
            final WorkbookGuard guard = WorkbookGuard.of(workbook);
            if (!guard.refusal().isEmpty()) {
                refuse(
                        guard.refusal(),
                        "a workbook as spreadsheets write it",
                        "do not trust this file; export its sheet as CSV UTF-8");
                return false;
            }
            try (ReadableWorkbook book =
                    new ReadableWorkbook(
                            new ByteArrayInputStream(workbook), new ReadingOptions(true, true))) {
                from1904 = book.isDate1904();
                final Optional<Sheet> sheet = sheet(book.getSheets().toList());
                if (sheet.isEmpty()) {
                    return false;
                }
                rows(sheet.get(), guard.merged(sheet.get().getId()));
            }
        } catch (RowCells.TooLargeException e) {
            taker.tooLarge(taker.lastLine());
        } catch (IOException
                | ExcelReaderException
                | UncheckedStreamException
                | java.io.UncheckedIOException
                | IllegalArgumentException
                | IndexOutOfBoundsException
                | java.util.NoSuchElementException
                | java.time.DateTimeException
                | ArithmeticException
                | ClassCastException
                | NullPointerException e) {
            // The library answers broken parts with whatever it meets first.
            refuse(
                    "a workbook that cannot be read",
                    "a whole workbook of the form .xlsx",
                    "open and save it again, or export its sheet as CSV UTF-8");
            return false;
        }
        return taker.isWhole();
    }

    private Optional<Sheet> sheet(List<Sheet> sheets) {
        final List<String> names = sheets.stream().map(Sheet::getName).toList();
        if (stated.sheet().isPresent()) {
            final String name = stated.sheet().get();
            final Optional<Sheet> found =
                    sheets.stream().filter(s -> s.getName().equals(name)).findFirst();
            if (found.isEmpty()) {
                reading.problem(
                        stated.place(),
                        "the sheet '" + name + "', which " + written + " does not have",
                        "a sheet of that workbook",
                        Nearest.hint(name, names));
            }
            return found;
        }
        final List<Sheet> visible =
                sheets.stream().filter(s -> s.getVisibility() == SheetVisibility.VISIBLE).toList();
        if (visible.size() != 1) {
            reading.problem(
                    stated.place(),
                    written + " with " + visible.size() + " sheets",
                    "an answer to: which sheet is the table?",
                    "add sheet: NAME at this table; it has: " + Reading.listed(names));
            return Optional.empty();
        }
        return Optional.of(visible.get(0));
    }

    private void rows(Sheet sheet, List<WorkbookGuard.Merged> merged) throws IOException {
        final RowCells cells = new RowCells();
        try (Stream<Row> stream = sheet.openStream()) {
            final Iterator<Row> rows = stream.iterator();
            final int header = header(rows);
            if (header < 0) {
                taker.noHeader(stated);
                return;
            }
            final int headerLine = head.get(header).getRowNum();
            if (isMerged(headerLine, merged)) {
                return;
            }
            taker.begin(
                    List.of(
                            "sheet '" + Shown.text(sheet.getName()) + "' of a workbook",
                            "headings in row " + headerLine),
                    false);
            for (Row row : head.subList(header, head.size())) {
                take(row, cells);
            }
            head.clear();
            while (rows.hasNext()) {
                take(rows.next(), cells);
            }
            taker.end();
        }
    }

    /** Reads the first rows; the index among them of the header, or -1. */
    private int header(Iterator<Row> rows) {
        int widest = 0;
        while (rows.hasNext() && head.size() < Limits.HEAD_LINES) {
            final Row row = rows.next();
            head.add(row);
            if (stated.headerRow().isPresent()) {
                if (row.getRowNum() == stated.headerRow().get()) {
                    return head.size() - 1;
                }
                continue;
            }
            final List<String> texts = texts(row);
            widest = Math.max(widest, texts.size());
            final List<String> names =
                    texts.stream().flatMap(t -> Stream.of(t, HeadingUnits.bare(t))).toList();
            if (!taker.required().isEmpty() && names.containsAll(taker.required())) {
                return head.size() - 1;
            }
        }
        if (stated.headerRow().isPresent()) {
            return -1;
        }
        for (int i = 0; i < head.size(); i++) {
            if (2 * texts(head.get(i)).size() >= Math.max(1, widest)) {
                return i;
            }
        }
        return -1;
    }

    private List<String> texts(Row row) {
        return row.stream()
                .filter(java.util.Objects::nonNull)
                .map(c -> text(c).strip())
                .filter(t -> !t.isEmpty())
                .toList();
    }

    private boolean isMerged(int headerLine, List<WorkbookGuard.Merged> merged) {
        final List<WorkbookGuard.Merged> within =
                merged.stream().filter(m -> m.lastRow() >= headerLine).toList();
        for (WorkbookGuard.Merged m : within.subList(0, Math.min(Reading.LISTED, within.size()))) {
            final boolean heading = m.firstRow() <= headerLine;
            taker.problem(
                    m.firstRow(),
                    "merged cells "
                            + m.range()
                            + (heading ? " in the header" : "")
                            + ": which column or row the text belongs to cannot be told",
                    "one text in each cell",
                    "take the merging back and fill in every cell");
        }
        return !within.isEmpty();
    }

    private void take(Row row, RowCells cells) {
        cells.clear();
        taker.begin(row.getRowNum());
        final int size = row.getCellCount();
        for (int i = 0; i < size; i++) {
            final Optional<Cell> cell = row.getOptionalCell(i);
            if (cell.isEmpty()) {
                cells.add("", false);
            } else {
                cells.add(text(cell.get()), isNumber(cell.get()));
            }
        }
        taker.pad(cells);
        taker.take(cells);
    }

    private boolean isNumber(Cell cell) {
        return cell.getType() != CellType.STRING && !isDate(cell) && value(cell).isPresent();
    }

    private boolean isDate(Cell cell) {
        final String format = cell.getDataFormatString();
        return format != null && value(cell).isPresent() && WorkbookDates.isDate(format);
    }

    private static Optional<BigDecimal> value(Cell cell) {
        return cell.getValue() instanceof BigDecimal number
                ? Optional.of(number)
                : Optional.empty();
    }

    private String text(Cell cell) {
        final Object value = cell.getValue();
        if (cell.getType() == CellType.EMPTY) {
            return "";
        }
        if (value instanceof BigDecimal number && cell.getType() != CellType.STRING) {
            final double d = number.doubleValue();
            if (Double.isInfinite(d)) {
                return String.valueOf(cell.getRawValue());
            }
            final String day = isDate(cell) ? WorkbookDates.text(d, from1904) : "";
            return day.isEmpty() ? Numbers.text(d) : day;
        }
        if (value instanceof Boolean yes) {
            return yes ? "TRUE" : "FALSE";
        }
        if (value != null) {
            return value.toString();
        }
        final String raw = cell.getRawValue();
        return raw == null ? "" : raw;
    }

    private void refuse(String found, String expected, String hint) {
        reading.problem(new Problem(written, 0, "", found, expected, hint));
    }
}
