package splitledger.intake;

import java.util.Map;
import java.util.TreeMap;
import splitledger.base.Problem;

/** Number cells of one file: the first bad ones of a column are told, the others counted. */
final class NumberCells {
    private final String file;
    private final Reading reading;
    private final Map<String, int[]> bad = new TreeMap<>();

    NumberCells(String file, Reading reading) {
        this.file = file;
        this.reading = reading;
    }

    /** The number of a stripped cell; NaN if it is empty, or, with a problem, if it is none. */
    double number(int line, String heading, String cell) {
        if (Cells.isNothing(cell)) {
            return Double.NaN;
        }
        final double value = Cells.number(cell);
        if (Double.isNaN(value)) {
            tell(line, heading, "'" + cell + "'", "a number", Cells.hint(cell));
        }
        return value;
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
