package splitledger.intake;

import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.BiConsumer;
import splitledger.base.Nearest;
import splitledger.base.Problem;

/** Rows of a small table whose cells are asked for by the heading of their column. */
final class NamedRows implements TableFile.Rows {
    private final String file;
    private final Reading reading;
    private final List<String> needed;
    private final BiConsumer<Row, Integer> taker;
    private List<String> headings = List.of();

    /**
     * A table.
     *
     * @param needed columns that must be there
     * @param taker of every row and its line
     */
    NamedRows(String file, Reading reading, List<String> needed, BiConsumer<Row, Integer> taker) {
        this.file = file;
        this.reading = reading;
        this.needed = List.copyOf(needed);
        this.taker = taker;
    }

    @Override
    public Collection<String> required() {
        return needed;
    }

    @Override
    public boolean header(int line, List<String> found) {
        headings = List.copyOf(found);
        boolean all = true;
        for (String column : needed) {
            if (!headings.contains(column)) {
                all = false;
                reading.problem(
                        new Problem(
                                file,
                                line,
                                "",
                                "no column '" + column + "'",
                                "the columns " + String.join(", ", needed),
                                Nearest.hint(column, headings)));
            }
        }
        return all;
    }

    @Override
    public void row(int line, RowCells cells) {
        taker.accept(new Row(line, cells), line);
    }

    /** One row. */
    final class Row {
        private final int line;
        private final RowCells cells;

        Row(int line, RowCells cells) {
            this.line = line;
            this.cells = cells;
        }

        /** A cell without blanks at its ends; empty if the column is not there. */
        String text(String column) {
            final int i = headings.indexOf(column);
            return i < 0 ? "" : cells.text(i);
        }

        /** A text that must be there. */
        Optional<String> name(String column) {
            final String text = text(column);
            if (text.isEmpty()) {
                problem(column, "an empty cell", "a name", "fill it in");
            }
            return Optional.of(text).filter(t -> !t.isEmpty());
        }

        /** A number of at least 0, if there is anything; {@code %} divides by 100. */
        OptionalDouble number(String column) {
            final String text = text(column);
            if (Cells.isNothing(text)) {
                return OptionalDouble.empty();
            }
            final boolean percent = text.endsWith("%");
            final String digits = percent ? text.substring(0, text.length() - 1).strip() : text;
            final double value = Cells.number(digits);
            if (Double.isNaN(value) || value < 0) {
                problem(
                        column,
                        "'" + text + "'",
                        "a number that is not negative",
                        Cells.hint(digits));
                return OptionalDouble.empty();
            }
            return OptionalDouble.of(percent ? value / 100 : value);
        }

        /** A problem with a cell. */
        void problem(String column, String found, String expected, String hint) {
            reading.problem(new Problem(file, line, column, found, expected, hint));
        }
    }
}
