package splitledger.intake;

import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.study.Place;
import splitledger.study.State;

/**
 * Reads one table of injections: cells become labels, numbers and areas while the file streams by.
 */
final class TableReader implements CsvFile.Rows {
    private final TableSpec spec;
    private final Candidates candidates;
    private final Set<String> possible;
    private final Wanted wanted;
    private final Reading reading;
    private final NumberCells numberCells;
    private final ZeroCells zeros;
    private final Growing.Lines lines = new Growing.Lines();
    private final Map<String, Growing.Labels> labels = new LinkedHashMap<>();
    private final Map<String, Growing.Numbers> numbers = new LinkedHashMap<>();
    private final Map<String, Growing.Peaks> peaks = new LinkedHashMap<>();
    private final List<String> ignored = new ArrayList<>();
    private List<ColumnPlan.Column> plan = List.of();
    private boolean[] looksLikePeak = new boolean[0];
    private boolean[] holdsText = new boolean[0];
    private boolean dropped;

    private TableReader(TableSpec spec, Candidates candidates, Wanted wanted, Reading reading) {
        this.spec = spec;
        this.candidates = candidates;
        possible = candidates.possible();
        this.wanted = wanted;
        this.reading = reading;
        numberCells = new NumberCells(spec.file(), reading);
        zeros = new ZeroCells(spec, reading);
    }

    /**
     * Reads a table.
     *
     * @return the table; empty, with problems, if rows of it could not be read
     */
    static Optional<RawTable> read(
            TableSpec spec,
            InputFolder folder,
            Candidates candidates,
            Wanted wanted,
            Reading reading)
            throws IOException {
        final Optional<String> name = folder.find(spec.filePlace(), spec.file());
        if (name.isEmpty()) {
            return Optional.empty();
        }
        final TableReader reader = new TableReader(spec, candidates, wanted, reading);
        final boolean whole =
                CsvFile.read(
                        folder.open(name.get()),
                        spec.role(),
                        name.get(),
                        spec.file(),
                        reading,
                        reader);
        reader.numberCells.tellRest();
        reader.zeros.tell();
        reader.tellIgnored();
        return whole && !reader.dropped ? Optional.of(reader.table()) : Optional.empty();
    }

    @Override
    public boolean header(int line, List<String> headings) {
        plan = ColumnPlan.of(spec, candidates, wanted, reading, line, headings);
        for (ColumnPlan.Column column : plan) {
            switch (column.kind()) {
                case LABEL -> labels.put(column.name(), new Growing.Labels());
                case NUMBER -> numbers.put(column.name(), new Growing.Numbers());
                case PEAK -> peaks.put(column.name(), new Growing.Peaks());
                case ASIDE -> {
                    // only looked at
                }
            }
        }
        looksLikePeak = new boolean[headings.size()];
        holdsText = new boolean[headings.size()];
        return !plan.isEmpty();
    }

    @Override
    public void row(int line, CsvRecord cells) {
        if (lacksLabel(line, cells)) {
            dropped = true;
            return;
        }
        final boolean known = isOfStudy(cells);
        lines.add(line);
        for (ColumnPlan.Column column : plan) {
            final String cell = cells.getField(column.index()).strip();
            switch (column.kind()) {
                case LABEL -> label(column, known ? cell : ofUnknown(column, cell));
                case NUMBER -> number(column, line, known ? cell : ofUnknown(column, cell));
                case PEAK -> peak(column, line, known ? cell : "");
                case ASIDE -> look(column.index(), cell);
            }
        }
    }

    /** Whether a cell that must hold a label is empty; a problem if so. */
    private boolean lacksLabel(int line, CsvRecord cells) {
        boolean lacks = false;
        for (ColumnPlan.Column column : plan) {
            if (needsLabel(column.name()) && cells.getField(column.index()).isBlank()) {
                lacks = true;
                numberCells.tell(
                        line,
                        column.heading(),
                        "an empty cell",
                        "a label",
                        "fill it in, or take the row out");
            }
        }
        return lacks;
    }

    private boolean needsLabel(String name) {
        final boolean longKey = !spec.wide() && name.equals(Columns.COMPOUND);
        return spec.hasAreas()
                ? name.equals(Columns.INJECTION) || longKey
                : spec.joinsOn().contains(name);
    }

    /** Whether the peak of a long row is in the study; what is not is counted. */
    private boolean isOfStudy(CsvRecord cells) {
        if (spec.wide() || !spec.hasAreas()) {
            return true;
        }
        for (ColumnPlan.Column column : plan) {
            if (column.name().equals(Columns.COMPOUND)) {
                final String compound = cells.getField(column.index()).strip();
                if (!possible.contains(compound)) {
                    ignored.add(compound);
                    return false;
                }
            }
        }
        return true;
    }

    /** Of a peak that is not in the study only what belongs to the whole injection is kept. */
    private static String ofUnknown(ColumnPlan.Column column, String cell) {
        final boolean ofPeak =
                column.name().equals(Columns.COMPOUND) || Columns.OF_PEAK.contains(column.name());
        return ofPeak ? "" : cell;
    }

    private void label(ColumnPlan.Column column, String cell) {
        of(labels, column.name()).add(cell);
    }

    private void number(ColumnPlan.Column column, int line, String cell) {
        of(numbers, column.name()).add(numberCells.number(line, column.heading(), cell));
    }

    private void peak(ColumnPlan.Column column, int line, String cell) {
        final Growing.Peaks into = of(peaks, column.name());
        if (Cells.isNothing(cell)) {
            into.add(Double.NaN, State.NOT_DETECTED);
            return;
        }
        final double area = numberCells.number(line, column.heading(), cell);
        if (area == 0 && zeros.isNothing(line, column.heading())) {
            into.add(Double.NaN, State.NOT_DETECTED);
            return;
        }
        into.add(area == 0 ? 0.0 : area, State.MEASURED);
    }

    private void look(int index, String cell) {
        if (!Cells.isNothing(cell)) {
            final boolean number = Cells.isNumber(cell);
            looksLikePeak[index] |= number;
            holdsText[index] |= !number;
        }
    }

    private void tellIgnored() {
        for (ColumnPlan.Column column : plan) {
            final int i = column.index();
            if (column.kind() == ColumnPlan.Kind.ASIDE && looksLikePeak[i] && !holdsText[i]) {
                reading.flag(
                        new Place(spec.file(), 0, column.heading()),
                        column.heading(),
                        "a column of numbers that is not in the study is ignored");
            }
        }
        LabelTables.counts(ignored.toArray(String[]::new))
                .forEach(
                        (compound, count) -> {
                            reading.ignoredPeak(compound);
                            reading.flag(
                                    new Place(spec.file(), 0, Columns.COMPOUND),
                                    compound,
                                    "a peak that is not in the study is ignored ("
                                            + count
                                            + (count == 1 ? " row)" : " rows)"));
                        });
    }

    private RawTable table() {
        final SortedMap<String, String[]> labelArrays = new TreeMap<>();
        labels.forEach((name, column) -> labelArrays.put(name, column.toArray()));
        final SortedMap<String, double[]> numberArrays = new TreeMap<>();
        numbers.forEach((name, column) -> numberArrays.put(name, column.toArray()));
        if (spec.wide()) {
            return Melting.longOf(spec, lines.toArray(), labelArrays, numberArrays, peaks);
        }
        final Growing.Peaks areas = peaks.get(Columns.AREA);
        if (areas == null) {
            return new RawTable(spec, lines.toArray(), labelArrays, numberArrays, new State[0]);
        }
        numberArrays.put(Columns.AREA, areas.areas());
        final State[] states = areas.states().toArray(State[]::new);
        return new RawTable(spec, lines.toArray(), labelArrays, numberArrays, states);
    }

    private static <T> T of(Map<String, T> columns, String name) {
        final T column = columns.get(name);
        if (column == null) {
            throw new IllegalStateException("no column " + name);
        }
        return column;
    }
}
