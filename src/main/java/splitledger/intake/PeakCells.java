package splitledger.intake;

import java.util.TreeMap;
import splitledger.base.Numbers;
import splitledger.study.Place;
import splitledger.study.State;

/** Cells of areas in one file: what number stands there and what it means. */
final class PeakCells {
    private final TableSpec spec;
    private final NumberCells numbers;
    private final ZeroCells zeros;
    private final Reading reading;
    private final TreeMap<State, int[]> said = new TreeMap<>();
    private final double threshold;
    private int belowThreshold;
    private int firstBelow;

    PeakCells(TableSpec spec, NumberCells numbers, ZeroCells zeros, Reading reading) {
        this.spec = spec;
        this.numbers = numbers;
        this.zeros = zeros;
        this.reading = reading;
        threshold = spec.threshold().orElse(Double.NEGATIVE_INFINITY);
    }

    /** The state that a cell of the column {@code state} says; measured if it is empty. */
    State stateOfRow(int line, String heading, String cell) {
        if (cell.isEmpty()) {
            return State.MEASURED;
        }
        return spec.states()
                .state(cell)
                .orElseGet(
                        () -> {
                            numbers.tell(
                                    line,
                                    heading,
                                    "'" + cell + "'",
                                    "one of " + String.join(", ", StateWords.names()),
                                    spec.states().hint(cell));
                            return State.MEASURED;
                        });
    }

    /** Takes the area of one peak. */
    void take(int line, ColumnPlan.Column column, RowCells cells, State ofRow, Growing.Peaks into) {
        final int cell = column.index();
        if (isNothing(cells, cell)) {
            into.add(Double.NaN, count(ofRow == State.MEASURED ? nothing() : ofRow, line));
            return;
        }
        final double number = numbers.peek(cells, cell);
        if (Double.isNaN(number)) {
            word(line, column, cells.text(cell), ofRow, into);
            return;
        }
        final double area = column.conversion().apply(number);
        if (area == 0 && ofRow == State.MEASURED && zeros.isNothing(line, column.heading())) {
            into.add(Double.NaN, count(nothing(), line));
            return;
        }
        if (ofRow == State.NOT_DETECTED || ofRow == State.ABSENT) {
            contradiction(line, column, cells.text(cell), ofRow);
        }
        if (ofRow == State.MEASURED && number < threshold) {
            firstBelow = belowThreshold == 0 ? line : firstBelow;
            belowThreshold++;
        }
        into.add(area == 0 ? 0.0 : area, count(ofRow, line));
    }

    private static boolean isNothing(RowCells cells, int cell) {
        return !cells.isTyped(cell)
                && Cells.isNothing(cells.chars(), cells.from(cell), cells.to(cell));
    }

    /** What a cell without a peak means: censored, if the integrator's threshold is known. */
    private State nothing() {
        return spec.threshold().isPresent() ? State.BELOW_THRESHOLD : State.NOT_DETECTED;
    }

    private void word(
            int line, ColumnPlan.Column column, String cell, State ofRow, Growing.Peaks into) {
        final State meant = spec.states().state(cell).orElse(State.MEASURED);
        if (meant == State.MEASURED) {
            numbers.refuse(line, column.heading(), cell);
            into.add(Double.NaN, State.NOT_DETECTED);
            return;
        }
        into.add(Double.NaN, count(ofRow == State.MEASURED ? meant : ofRow, line));
    }

    private void contradiction(int line, ColumnPlan.Column column, String cell, State ofRow) {
        numbers.tell(
                line,
                column.heading(),
                "the area '" + cell + "' in a row that says " + ofRow.code(),
                "no area there, or another state",
                "empty the cell, or correct the state");
    }

    private State count(State state, int line) {
        if (state != State.MEASURED && state != State.NOT_DETECTED) {
            final int[] count = said.computeIfAbsent(state, s -> new int[] {0, line});
            count[0]++;
        }
        return state;
    }

    /** Tells what was met. */
    void tell() {
        if (spec.threshold().isPresent()) {
            reading.choice(
                    "a cell without an area in "
                            + spec.file()
                            + " means an area below the integrator's threshold, "
                            + Numbers.text(threshold),
                    "the threshold is stated at the table: such an area is not 0 and not known",
                    "as stated in the protocol");
        }
        if (belowThreshold > 0) {
            reading.flag(
                    new Place(spec.file(), firstBelow, ""),
                    Columns.AREA,
                    belowThreshold
                            + (belowThreshold == 1 ? " area lies" : " areas lie")
                            + " below the threshold that is stated, kept as measured");
        }
        said.forEach(
                (state, count) ->
                        reading.flag(
                                new Place(spec.file(), count[1], ""),
                                state.code().replace('-', ' '),
                                count[0]
                                        + (count[0] == 1 ? " cell" : " cells")
                                        + " from here on; no characteristic uses them"));
    }
}
