package splitledger.base;

/**
 * One mistake in what the user gave, as data first and text second.
 *
 * @param file name of the file as the user wrote it; empty if it concerns the command line
 * @param row 1-based line as an editor shows it, the header being line 1; 0 if it concerns the
 *     whole file
 * @param column heading of the column, or path of the protocol key; empty if none
 * @param found what stands there
 * @param expected what was expected
 * @param hint what to do; empty if {@code expected} says it all
 */
public record Problem(
        String file, int row, String column, String found, String expected, String hint)
        implements Comparable<Problem> {

    /**
     * The message as printed: {@code file:row: column 'c': found f, expected e} and the hint on a
     * line of its own. What comes from a file is shown by {@link Shown}.
     */
    public String text() {
        final StringBuilder b = new StringBuilder();
        if (!file.isEmpty()) {
            b.append(Shown.text(file));
            if (row > 0) {
                b.append(':').append(row);
            }
            b.append(": ");
        }
        if (!column.isEmpty()) {
            b.append('\'').append(Shown.text(column)).append("': ");
        }
        b.append("found ").append(Shown.text(found));
        b.append(", expected ").append(Shown.text(expected));
        if (!hint.isEmpty()) {
            b.append("\n  what to do: ").append(Shown.text(hint));
        }
        return b.toString();
    }

    @Override
    public int compareTo(Problem other) {
        final int byFile = file.compareTo(other.file);
        if (byFile != 0) {
            return byFile;
        }
        final int byRow = Integer.compare(row, other.row);
        return byRow != 0 ? byRow : text().compareTo(other.text());
    }
}
