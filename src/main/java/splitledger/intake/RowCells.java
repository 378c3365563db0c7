package splitledger.intake;

import java.util.Arrays;

/**
 * The cells of one row, blanks at their ends taken off. One object serves all rows of a file: what
 * is read from it does not last longer than the row.
 */
final class RowCells {
    private char[] chars = new char[256];
    private int[] from = new int[32];
    private int[] to = new int[32];
    private boolean[] typed = new boolean[32];
    private int size;
    private int end;
    private int line;

    /** Starts a row. */
    void clear() {
        size = 0;
        end = 0;
    }

    /** Sets the line at which the row begins. */
    void line(int first) {
        line = first;
    }

    /** The line at which the row begins. */
    int line() {
        return line;
    }

    /** Adds a cell of a text file. */
    void add(char[] text, int offset, int length) {
        if (size == Limits.COLUMNS || end + length > Limits.ROW_CHARS) {
            throw new TooLargeException();
        }
        if (size == from.length) {
            from = Arrays.copyOf(from, 2 * size);
            to = Arrays.copyOf(to, 2 * size);
            typed = Arrays.copyOf(typed, 2 * size);
        }
        if (end + length > chars.length) {
            chars = Arrays.copyOf(chars, Math.max(2 * chars.length, end + length));
        }
        System.arraycopy(text, offset, chars, end, length);
        int first = end;
        int last = end + length;
        while (first < last && isBlank(chars[first])) {
            first++;
        }
        while (last > first && isBlank(chars[last - 1])) {
            last--;
        }
        from[size] = first;
        to[size] = last;
        typed[size] = false;
        size++;
        end += length;
    }

    /** Adds a cell of a workbook; a typed one holds a number, whatever marks the texts have. */
    void add(String text, boolean isNumber) {
        add(text.toCharArray(), 0, text.length());
        typed[size - 1] = isNumber;
    }

    /** How many cells. */
    int size() {
        return size;
    }

    /** A cell's text. */
    String text(int cell) {
        return new String(chars, from[cell], to[cell] - from[cell]);
    }

    boolean isEmpty(int cell) {
        return from[cell] == to[cell];
    }

    /** Whether the file says that the cell holds a number, with a dot as decimal mark. */
    boolean isTyped(int cell) {
        return typed[cell];
    }

    /** The characters of all cells; see {@link #from} and {@link #to}. */
    char[] chars() {
        return chars;
    }

    int from(int cell) {
        return from[cell];
    }

    int to(int cell) {
        return to[cell];
    }

    /** Whether all cells from one on are empty. */
    boolean isEmptyFrom(int first) {
        for (int i = first; i < size; i++) {
            if (!isEmpty(i)) {
                return false;
            }
        }
        return true;
    }

    private static boolean isBlank(char c) {
        return c <= ' ' || (c > '\u007f' && Character.isWhitespace(c));
    }

    /** A row that is larger than {@link Limits} allow. */
    static final class TooLargeException extends RuntimeException {
        private static final long serialVersionUID = 1L;
    }
}
