package splitledger.intake;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeMap;
import splitledger.study.Place;

/** What a table holds beside the study: other peaks, columns that nobody asked for. */
final class Asides {
    private static final byte UNKNOWN = 0;
    private static final byte YES = 1;
    private static final byte NO = 2;
    private static final int MOST_PEAKS = 500;

    private final TableSpec spec;
    private final Reading reading;
    private Growing.Labels peaks = new Growing.Labels();
    private byte[] possible = new byte[0];
    private int[] ignored = new int[0];
    private List<ColumnPlan.Column> plan = List.of();
    private int[] unnamed = new int[0];
    private boolean[] filled = new boolean[0];
    private boolean[] looksLikePeak = new boolean[0];
    private boolean[] holdsText = new boolean[0];
    private int headerLine;

    Asides(TableSpec spec, Reading reading) {
        this.spec = spec;
        this.reading = reading;
    }

    /**
     * Takes the header.
     *
     * @param compounds the labels of the column of compounds; none if there is no such column
     */
    void header(
            int line,
            List<String> headings,
            List<ColumnPlan.Column> columns,
            Growing.Labels compounds) {
        peaks = compounds;
        headerLine = line;
        plan = columns;
        looksLikePeak = new boolean[headings.size()];
        holdsText = new boolean[headings.size()];
        final List<Integer> without = new ArrayList<>();
        for (int i = 0; i < headings.size(); i++) {
            if (headings.get(i).isEmpty()) {
                without.add(i);
            }
        }
        unnamed = without.stream().mapToInt(Integer::intValue).toArray();
        filled = new boolean[unnamed.length];
    }

    /** Whether the peak of a long row may be in the study; what is not is counted. */
    boolean isPossible(int code, Set<String> names) {
        if (code >= possible.length) {
            possible = Arrays.copyOf(possible, 2 * code + 16);
            ignored = Arrays.copyOf(ignored, 2 * code + 16);
        }
        if (possible[code] == UNKNOWN) {
            possible[code] = names.contains(peaks.label(code)) ? YES : NO;
        }
        if (possible[code] == NO) {
            ignored[code]++;
            return false;
        }
        return true;
    }

    /** Looks at a cell of a column that is not wanted. */
    void look(RowCells cells, int index) {
        if (looksLikePeak[index] && holdsText[index]) {
            return;
        }
        final String cell = cells.text(index);
        if (!Cells.isNothing(cell)) {
            final boolean number = Cells.isNumber(cell);
            looksLikePeak[index] |= number;
            holdsText[index] |= !number;
        }
    }

    /** Looks at the cells of columns without heading. */
    void unnamed(RowCells cells) {
        for (int i = 0; i < unnamed.length; i++) {
            filled[i] |= !cells.isEmpty(unnamed[i]);
        }
    }

    /** Tells all of it. */
    void tell() {
        for (int i = 0; i < unnamed.length; i++) {
            if (filled[i]) {
                reading.flag(
                        new Place(spec.file(), headerLine, ""),
                        "column " + (unnamed[i] + 1),
                        "has no heading and is left out");
            }
        }
        for (ColumnPlan.Column column : plan) {
            final int i = column.index();
            if (column.kind() == ColumnPlan.Kind.ASIDE && looksLikePeak[i] && !holdsText[i]) {
                reading.flag(
                        new Place(spec.file(), 0, column.heading()),
                        column.heading(),
                        "a column of numbers that is not in the study is ignored");
            }
        }
        final TreeMap<String, Integer> counts = new TreeMap<>();
        for (int code = 0; code < ignored.length; code++) {
            if (ignored[code] > 0 && !peaks.label(code).isEmpty()) {
                counts.put(peaks.label(code), ignored[code]);
            }
        }
        counts.keySet().forEach(reading::ignoredPeak);
        counts.entrySet().stream()
                .limit(MOST_PEAKS)
                .forEach(e -> tellPeak(e.getKey(), e.getValue()));
        if (counts.size() > MOST_PEAKS) {
            reading.flag(
                    new Place(spec.file(), 0, Columns.COMPOUND),
                    Columns.COMPOUND,
                    (counts.size() - MOST_PEAKS) + " more peaks are not in the study and ignored");
        }
    }

    private void tellPeak(String compound, int count) {
        reading.flag(
                new Place(spec.file(), 0, Columns.COMPOUND),
                compound,
                "a peak that is not in the study is ignored ("
                        + count
                        + (count == 1 ? " row)" : " rows)"));
    }
}
