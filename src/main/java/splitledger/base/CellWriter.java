package splitledger.base;

/** Takes a table cell by cell, row by row, whatever the file will be. */
public interface CellWriter {

    /** Adds a text cell. */
    CellWriter cell(String value);

    /** Adds a number cell; positive infinity is allowed, NaN is not. */
    CellWriter cell(double value);

    /** Adds an empty cell. */
    CellWriter empty();

    /** Ends the row. */
    CellWriter endRow();
}
