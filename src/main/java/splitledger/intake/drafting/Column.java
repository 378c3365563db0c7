package splitledger.intake.drafting;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import splitledger.intake.Sheet;

/**
 * One column of a sheet and what its cells hold.
 *
 * @param index from 0
 * @param heading as it stands in the file
 * @param words the heading in small letters, signs as blanks, without what stands in brackets
 * @param unit what stands in brackets in the heading; empty if nothing
 * @param counts how often each label occurs, in order of appearance; empty cells apart
 * @param filled cells that hold something
 * @param numbers cells that hold a number
 * @param zeros cells that hold the number 0
 */
record Column(
        int index,
        String heading,
        String words,
        String unit,
        Map<String, Integer> counts,
        int filled,
        int numbers,
        int zeros) {
    private static final Pattern BRACKETS = Pattern.compile("[(\\[]([^)\\]]*)[)\\]]");
    private static final Pattern NUMBER =
            Pattern.compile("[-+]?(\\d+[.,]?\\d*|[.,]\\d+)([eE][-+]?\\d+)?");
    private static final List<String> NOTHING = List.of("", "-", "nd", "n.a.");

    /** Looks at a column. */
    static Column of(Sheet sheet, int index) {
        final String heading = sheet.headings().get(index);
        final Map<String, Integer> counts = new LinkedHashMap<>();
        int filled = 0;
        int numbers = 0;
        int zeros = 0;
        for (Sheet.Row row : sheet.rows()) {
            final String cell = row.cells().get(index);
            if (isNothing(cell)) {
                continue;
            }
            filled++;
            counts.merge(cell, 1, Integer::sum);
            final Optional<Double> number = number(cell);
            numbers += number.isPresent() ? 1 : 0;
            zeros += number.isPresent() && number.get() == 0 ? 1 : 0;
        }
        final Matcher brackets = BRACKETS.matcher(heading);
        final String unit = brackets.find() ? brackets.group(1).strip() : "";
        return new Column(index, heading, words(heading), unit, counts, filled, numbers, zeros);
    }

    /** All columns of a sheet that have a heading. */
    static List<Column> all(Sheet sheet) {
        final List<Column> columns = new ArrayList<>();
        for (int i = 0; i < sheet.headings().size(); i++) {
            if (!sheet.headings().get(i).isEmpty()) {
                columns.add(of(sheet, i));
            }
        }
        return columns;
    }

    /** A heading as words to compare. */
    static String words(String heading) {
        return BRACKETS.matcher(heading)
                .replaceAll(" ")
                .toLowerCase(Locale.ROOT)
                .replaceAll("[^\\p{L}\\p{Nd}]+", " ")
                .strip();
    }

    /** Whether a cell says that there is nothing. */
    static boolean isNothing(String cell) {
        return NOTHING.contains(cell.toLowerCase(Locale.ROOT));
    }

    /** The number of a cell, with a dot or a comma as decimal mark. */
    static Optional<Double> number(String cell) {
        return NUMBER.matcher(cell).matches()
                ? Optional.of(Double.valueOf(cell.replace(',', '.')))
                : Optional.empty();
    }

    /** Whether every filled cell is a number, and there is one. */
    boolean isNumeric() {
        return filled > 0 && numbers == filled;
    }

    /** Distinct labels. */
    int distinct() {
        return counts.size();
    }

    /** Whether every row has a label of its own. */
    boolean isKey(int rows) {
        return filled == rows && distinct() == rows;
    }
}
