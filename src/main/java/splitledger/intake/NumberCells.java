package splitledger.intake;

import java.util.Map;
import java.util.TreeMap;
import splitledger.base.Problem;

/** Number cells of one file: the first bad ones of a column are told, the others counted. */
final class NumberCells {
    private final String file;
    private final Reading reading;
    private final Map<String, int[]> bad = new TreeMap<>();
    private NumberStyle style = NumberStyle.DOT;

    NumberCells(String file, Reading reading) {
        this.file = file;
        this.reading = reading;
    }

    /** Sets how numbers are written in this file. */
    void style(NumberStyle found) {
        style = found;
    }

    /** The number of a cell; NaN if it is empty, or, with a problem, if it is none. */
    double number(int line, String heading, RowCells cells, int cell) {
        if (Cells.isNothing(cells.chars(), cells.from(cell), cells.to(cell))) {
            return Double.NaN;
        }
        final double value = peek(cells, cell);
        if (Double.isNaN(value)) {
            refuse(line, heading, cells.text(cell));
        }
        return value;
    }

    /** The number of a cell; NaN if it is none. */
    double peek(RowCells cells, int cell) {
        final char[] chars = cells.chars();
        final int from = cells.from(cell);
        final int to = cells.to(cell);
        if (cells.isTyped(cell)) {
            return NumberStyle.DOT.number(chars, from, to);
        }
        return style.dotAsks() && NumberStyle.isOpen(cells.text(cell), '.')
                ? Double.NaN
                : style.number(chars, from, to);
    }

    /** Tells of a cell that is no number, and what it may be. */
    void refuse(int line, String heading, String cell) {
        for (char mark : new char[] {',', '.'}) {
            final boolean stated = mark == style.decimal() && !style.dotAsks();
            if (!stated && mark != style.thousands() && NumberStyle.isOpen(cell, mark)) {
                final String plain = cell.replace(mark, '.');
                final String whole = cell.replace(String.valueOf(mark), "");
                tell(
                        line,
                        heading,
                        "'" + cell + "', which may be " + plain + " or " + whole,
                        "a number that can be read in one way",
                        "say at this table what the mark is: decimal: '"
                                + mark
                                + "' if it is "
                                + plain
                                + ", thousands: '"
                                + mark
                                + "' if it is "
                                + whole);
                return;
            }
        }
        tell(line, heading, "'" + cell + "'", "a number", hint(cell));
    }

    private static String hint(String cell) {
        final String plain = Cells.hint(cell);
        return NumberStyle.shownBy(cell)
                .map(
                        s ->
                                plain
                                        + "; or, if all numbers of the table are written like this, say"
                                        + " decimal: '"
                                        + s.decimal()
                                        + "'"
                                        + thousands(s)
                                        + " at it")
                .orElse(plain);
    }

    private static String thousands(NumberStyle style) {
        return switch (style.thousands()) {
            case NumberStyle.NONE -> "";
            case ' ' -> " and thousands: space";
            case '\'' -> " and thousands: \"'\"";
            default -> " and thousands: '" + style.thousands() + "'";
        };
    }

    /** Tells of a bad cell, as long as the column has not too many of them. */
    void tell(int line, String heading, String found, String expected, String hint) {
        final int[] count = bad.computeIfAbsent(heading, h -> new int[2]);
        count[0]++;
        if (count[0] <= Reading.LISTED) {
            reading.problem(new Problem(file, line, heading, found, expected, hint));
        } else if (count[0] == Reading.LISTED + 1) {
            count[1] = line;
        }
    }

    /** Tells how many more there were. */
    void tellRest() {
        bad.forEach(
                (heading, count) -> {
                    if (count[0] > Reading.LISTED) {
                        reading.problem(
                                new Problem(
                                        file,
                                        count[1],
                                        heading,
                                        (count[0] - Reading.LISTED)
                                                + " more such cells from here on",
                                        "cells as above",
                                        "mend the column as a whole"));
                    }
                });
    }
}
