package splitledger.intake;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.base.Shown;
import splitledger.study.State;

/**
 * Reads one table of injections: cells become labels, numbers and areas while the file streams by.
 */
final class TableReader implements TableFile.Rows {
    private final TableSpec spec;
    private final Candidates candidates;
    private final Set<String> possible;
    private final Wanted wanted;
    private final UnitTargets units;
    private final Reading reading;
    private final NumberCells numberCells;
    private final ZeroCells zeros;
    private final PeakCells peakCells;
    private final NotInjections notInjections;
    private final Asides asides;
    private final Growing.Lines lines = new Growing.Lines();
    private final Map<String, Growing.Labels> labels = new LinkedHashMap<>();
    private final Map<String, Growing.Numbers> numbers = new LinkedHashMap<>();
    private final Map<String, Growing.Peaks> peaks = new LinkedHashMap<>();
    private final List<Slot> slots = new ArrayList<>();
    private int injection = -1;
    private int compound = -1;
    private int state = -1;
    private boolean dropped;
    private int[] required = new int[0];
    private int peakCode;
    private Growing.Labels compounds = new Growing.Labels();

    /** A column with what its cells go to; what does not apply is empty. */
    private record Slot(
            ColumnPlan.Column column,
            Growing.Labels labels,
            Growing.Numbers numbers,
            Growing.Peaks peaks,
            boolean ofPeak,
            boolean required) {}

    private TableReader(
            TableSpec spec,
            Candidates candidates,
            Wanted wanted,
            UnitTargets units,
            Reading reading) {
        this.spec = spec;
        this.candidates = candidates;
        possible = candidates.possible();
        this.wanted = wanted;
        this.units = units;
        this.reading = reading;
        numberCells = new NumberCells(spec.file(), reading);
        zeros = new ZeroCells(spec, reading);
        peakCells = new PeakCells(spec, numberCells, zeros, reading);
        notInjections = new NotInjections(spec, reading);
        asides = new Asides(spec, reading);
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
            UnitTargets units,
            Reading reading)
            throws IOException {
        final Optional<String> name = folder.find(spec.filePlace(), spec.file());
        if (name.isEmpty()) {
            return Optional.empty();
        }
        final TableReader reader = new TableReader(spec, candidates, wanted, units, reading);
        final boolean whole =
                TableFile.read(
                        folder,
                        spec.role(),
                        name.get(),
                        spec.file(),
                        spec.format(),
                        reading,
                        reader);
        reader.refuseControls();
        reader.numberCells.tellRest();
        reader.zeros.tell();
        reader.peakCells.tell();
        reader.asides.tell();
        reader.notInjections.tell(reader.labels);
        return whole && !reader.dropped ? Optional.of(reader.table()) : Optional.empty();
    }

    @Override
    public Collection<String> required() {
        return spec.required().stream().map(spec::headingOf).toList();
    }

    @Override
    public boolean header(int line, List<String> headings) {
        final List<ColumnPlan.Column> plan =
                ColumnPlan.of(spec, candidates, wanted, units, reading, line, headings);
        for (ColumnPlan.Column column : plan) {
            slots.add(slot(column));
            switch (column.kind()) {
                case LABEL -> {
                    injection =
                            column.name().equals(Columns.INJECTION) ? column.index() : injection;
                    if (column.name().equals(Columns.COMPOUND)) {
                        compound = column.index();
                        compounds = slots.get(slots.size() - 1).labels();
                    }
                }
                case STATE -> state = column.index();
                default -> {
                    // nothing that the whole row depends on
                }
            }
        }
        required =
                slots.stream().filter(Slot::required).mapToInt(s -> s.column().index()).toArray();
        asides.header(line, headings, plan, compounds);
        return !plan.isEmpty();
    }

    private Slot slot(ColumnPlan.Column column) {
        final Growing.Labels label = new Growing.Labels();
        final Growing.Numbers number = new Growing.Numbers();
        final Growing.Peaks peak = new Growing.Peaks();
        final String name = column.name();
        switch (column.kind()) {
            case LABEL -> labels.put(name, label);
            case NUMBER -> numbers.put(name, number);
            case PEAK -> peaks.put(name, peak);
            case STATE, ASIDE -> {
                // not kept
            }
        }
        final boolean ofPeak = name.equals(Columns.COMPOUND) || Columns.OF_PEAK.contains(name);
        return new Slot(column, label, number, peak, ofPeak, needsLabel(name));
    }

    @Override
    public String look(List<List<String>> cells, boolean plain) {
        final List<String> sample = new ArrayList<>();
        for (Slot slot : slots) {
            final ColumnPlan.Kind kind = slot.column().kind();
            if (kind == ColumnPlan.Kind.NUMBER || kind == ColumnPlan.Kind.PEAK) {
                cells.forEach(row -> sample.add(row.get(slot.column().index())));
            }
        }
        final NumberStyle style = NumberStyles.of(sample, spec.format(), plain);
        numberCells.style(style);
        return style.words();
    }

    @Override
    public void row(int line, RowCells cells) {
        if (notInjections.skips(line, cells, injection)) {
            return;
        }
        if (lacksLabel(line, cells)) {
            dropped = true;
            return;
        }
        final boolean known = isOfStudy(cells);
        lines.add(line);
        final State ofRow =
                state < 0 || !known
                        ? State.MEASURED
                        : peakCells.stateOfRow(
                                line, spec.headingOf(Columns.STATE), cells.text(state));
        for (Slot slot : slots) {
            final ColumnPlan.Column column = slot.column();
            final int i = column.index();
            switch (column.kind()) {
                case LABEL -> label(slot, cells, i, known);
                case NUMBER -> slot.numbers().add(number(slot, line, cells, known));
                case PEAK -> {
                    if (known) {
                        peakCells.take(line, column, cells, ofRow, slot.peaks());
                    } else {
                        slot.peaks().add(Double.NaN, State.NOT_DETECTED);
                    }
                }
                case STATE -> {
                    // read before all others
                }
                case ASIDE -> asides.look(cells, i);
            }
        }
        asides.unnamed(cells);
    }

    /** Of a peak that is not in the study only what belongs to the whole injection is kept. */
    private void label(Slot slot, RowCells cells, int i, boolean known) {
        if (i == compound && !spec.wide() && spec.hasAreas()) {
            slot.labels().add(peakCode);
        } else if (known || !slot.ofPeak()) {
            slot.labels().add(cells.chars(), cells.from(i), cells.to(i));
        } else {
            slot.labels().add("");
        }
    }

    private double number(Slot slot, int line, RowCells cells, boolean known) {
        if (!known && slot.ofPeak()) {
            return Double.NaN;
        }
        final ColumnPlan.Column column = slot.column();
        return column.conversion()
                .apply(numberCells.number(line, column.heading(), cells, column.index()));
    }

    /** Whether a cell that must hold a label is empty; a problem if so. */
    private boolean lacksLabel(int line, RowCells cells) {
        boolean lacks = false;
        for (int index : required) {
            lacks |= cells.isEmpty(index);
        }
        if (!lacks) {
            return false;
        }
        for (Slot slot : slots) {
            if (slot.required() && cells.isEmpty(slot.column().index())) {
                numberCells.tell(
                        line,
                        slot.column().heading(),
                        "an empty cell",
                        "a label",
                        "fill it in, or take the row out");
            }
        }
        return true;
    }

    private boolean needsLabel(String name) {
        final boolean longKey = !spec.wide() && name.equals(Columns.COMPOUND);
        return spec.hasAreas()
                ? name.equals(Columns.INJECTION) || longKey
                : spec.joinsOn().contains(name);
    }

    /** Whether the peak of a long row is in the study; what is not is counted. */
    private boolean isOfStudy(RowCells cells) {
        if (spec.wide() || !spec.hasAreas()) {
            return true;
        }
        peakCode = compounds.intern(cells.chars(), cells.from(compound), cells.to(compound));
        return asides.isPossible(peakCode, possible);
    }

    /** Labels are shown everywhere, so that none may hold what acts there. */
    private void refuseControls() {
        labels.forEach(
                (name, column) -> {
                    for (String label : column.labels()) {
                        if (!Shown.isHarmless(label)) {
                            numberCells.tell(
                                    0,
                                    spec.headingOf(name),
                                    "a control character in '" + label + "'",
                                    "plain text",
                                    "take it out");
                        }
                    }
                });
    }

    private RawTable table() {
        final int rows = lines.size();
        final SortedMap<String, Coded> coded = new TreeMap<>();
        labels.forEach((name, column) -> coded.put(name, column.coded()));
        labels.clear();
        coded.computeIfPresent(
                Columns.INJECTION, (n, column) -> column.prefixed(spec.export().prefix()));
        final SortedMap<String, double[]> arrays = new TreeMap<>();
        numbers.forEach((name, column) -> arrays.put(name, column.taken()));
        numbers.clear();
        final NumberCells given = new NumberCells(spec.file(), reading);
        new Constants(spec, wanted, given).fill(rows, coded, arrays);
        if (spec.wide()) {
            return Melting.longOf(spec, lines.taken(), rows, coded, arrays, peaks);
        }
        final Growing.Peaks areas = peaks.get(Columns.AREA);
        if (areas == null) {
            return new RawTable(spec, lines.taken(), rows, coded, arrays, new byte[0]);
        }
        arrays.put(Columns.AREA, areas.taken());
        return new RawTable(spec, lines.taken(), rows, coded, arrays, areas.states());
    }
}
