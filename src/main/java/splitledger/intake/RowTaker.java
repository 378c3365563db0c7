package splitledger.intake;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import splitledger.base.Problem;

/**
 * What all forms of a table have in common once their cells are apart: header, width, empty rows, a
 * look at the first rows, and problems told by line.
 */
final class RowTaker {
    private final String written;
    private final Reading reading;
    private final TableFile.Rows rows;
    private final List<Row> waiting = new ArrayList<>();
    private List<String> found = List.of();
    private boolean plain;
    private int width;
    private int line;
    private int problems;
    private int taken;
    private int waitingCells;
    private boolean wanted;
    private boolean looked;

    /** A row that waits until enough are there to tell how numbers are written. */
    private record Row(int line, RowCells cells) {}

    RowTaker(String written, Reading reading, TableFile.Rows rows) {
        this.written = written;
        this.reading = reading;
        this.rows = rows;
    }

    Collection<String> required() {
        return rows.required();
    }

    /** What the form of the file is; the first row after it is the header. */
    void begin(List<String> words, boolean isPlain) {
        found = List.copyOf(words);
        plain = isPlain;
    }

    /** The line at which the next row begins. */
    void begin(int startingLine) {
        line = startingLine;
    }

    int lastLine() {
        return line;
    }

    boolean isWhole() {
        return problems == 0 && wanted;
    }

    /** Takes the header, then rows. */
    void take(RowCells cells) {
        if (width == 0) {
            header(cells);
            return;
        }
        if (!wanted || cells.isEmptyFrom(0)) {
            return;
        }
        taken++;
        if (taken > Limits.ROWS) {
            throw new RowCells.TooLargeException();
        }
        if (cells.size() < width || !cells.isEmptyFrom(width)) {
            problem(
                    line,
                    cells.size() + (cells.size() == 1 ? " cell" : " cells"),
                    width + " cells, as in the header",
                    "add or remove cells; a text that holds the character between cells needs"
                            + " quotes around it");
            return;
        }
        if (looked) {
            rows.row(line, cells);
            return;
        }
        waiting.add(new Row(line, copy(cells)));
        waitingCells += cells.size();
        if (waiting.size() == Limits.SAMPLE_ROWS || waitingCells > Limits.SAMPLE_CELLS) {
            look();
        }
    }

    /** Adds empty cells at the end of a row of a workbook, which leaves them out. */
    void pad(RowCells cells) {
        while (cells.size() < width) {
            cells.add("", false);
        }
    }

    private void header(RowCells cells) {
        final List<String> headings = new ArrayList<>();
        for (int i = 0; i < cells.size(); i++) {
            headings.add(cells.text(i));
        }
        while (!headings.isEmpty() && headings.get(headings.size() - 1).isEmpty()) {
            headings.remove(headings.size() - 1);
        }
        width = Math.max(1, headings.size());
        wanted = rows.header(line, List.copyOf(headings));
    }

    private void look() {
        looked = true;
        final List<List<String>> sample = new ArrayList<>();
        for (Row row : waiting) {
            final List<String> texts = new ArrayList<>();
            for (int i = 0; i < row.cells().size(); i++) {
                texts.add(row.cells().isTyped(i) ? "" : row.cells().text(i));
            }
            sample.add(texts);
        }
        final String marks = rows.look(sample, plain);
        if (!marks.isEmpty()) {
            reading.choice(
                    written + " is read as: " + String.join(", ", found) + ", " + marks,
                    "as stated at the table, else as found in the file",
                    "keys of the table in the protocol fix what was found");
        }
        final int last = line;
        for (Row row : waiting) {
            line = row.line();
            rows.row(line, row.cells());
        }
        line = last;
        waiting.clear();
    }

    /** Ends the file. */
    void end() {
        if (!looked && wanted) {
            look();
        }
        if (width == 0) {
            problem(0, "an empty file", "a header and rows", "export the table again");
        } else if (wanted && taken == 0) {
            problem(line, "a header without rows", "a header and rows", "export the table again");
        }
    }

    /** Tells that no header was found. */
    void noHeader(TableFormat stated) {
        if (stated.headerRow().isPresent()) {
            problem(
                    stated.headerRow().get(),
                    "no headings in the line that header-row names",
                    "the headings of the table",
                    "count lines from 1, empty ones too, or take header-row out");
        } else {
            problem(0, "an empty file", "a header and rows", "export the table again");
        }
    }

    /** Tells that the table is larger than the limits. */
    void tooLarge(int where) {
        problem(
                where,
                taken > Limits.ROWS
                        ? "more than " + Limits.ROWS + " rows"
                        : "a row without end, or larger than can be a row of a table",
                "at most "
                        + Limits.ROWS
                        + " rows of "
                        + Limits.ROW_CHARS
                        + " characters and "
                        + Limits.COLUMNS
                        + " cells",
                "check line ends and quotes, or split the table");
    }

    void problem(int row, String met, String expected, String hint) {
        problems++;
        if (problems <= Reading.LISTED) {
            reading.problem(new Problem(written, row, "", met, expected, hint));
        } else if (problems == Reading.LISTED + 1) {
            reading.problem(
                    new Problem(written, row, "", "more of the like from here on", expected, hint));
        }
    }

    private static RowCells copy(RowCells cells) {
        final RowCells copy = new RowCells();
        for (int i = 0; i < cells.size(); i++) {
            copy.add(cells.text(i), cells.isTyped(i));
        }
        return copy;
    }
}
