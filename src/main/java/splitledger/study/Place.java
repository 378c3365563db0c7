package splitledger.study;

import splitledger.base.Problem;

/**
 * Where something stands in a file.
 *
 * @param file name as the user wrote it
 * @param row 1-based line; 0 if unknown
 * @param path path of protocol keys joined by {@code .}, or the heading of a column
 */
public record Place(String file, int row, String path) {
    /** A place that no file has, for defaults and tests. */
    public static final Place NONE = new Place("", 0, "");

    /** The place one key further in. */
    public Place in(String key, int keyRow) {
        return new Place(file, keyRow, path.isEmpty() ? key : path + "." + key);
    }

    /** A problem at this place. */
    public Problem problem(String found, String expected, String hint) {
        return new Problem(file, row, path, found, expected, hint);
    }
}
