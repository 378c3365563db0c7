package splitledger.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import splitledger.report.Page.Cell;
import splitledger.report.Page.Column;
import splitledger.report.Page.Line;
import splitledger.study.Answer;
import splitledger.study.Finding;

/** Plain numbers of several quantities under the same conditions: conditions down, them across. */
final class FindingMatrix {
    private FindingMatrix() {}

    /**
     * Whether the findings of one quantity can be a column: several plain numbers in one unit, none
     * of them under a criterion.
     */
    static boolean suits(List<Finding> group) {
        final String unit = group.get(0).answer().unit();
        return group.size() > 1
                && group.stream()
                        .allMatch(
                                f ->
                                        f.answer() instanceof Answer.Statistic
                                                && f.answer().unit().equals(unit)
                                                && f.judgements().isEmpty());
    }

    /** The matrix of groups that {@linkplain #suits suit}. */
    static Page.Matrix of(List<List<Finding>> groups) {
        final Map<String, List<Cell>> lines = new TreeMap<>(NaturalOrder.ORDER);
        final Map<String, String> words = new TreeMap<>(NaturalOrder.ORDER);
        final List<Column> columns = new ArrayList<>();
        for (int column = 0; column < groups.size(); column++) {
            final List<Cell> cells = new ArrayList<>();
            for (Finding f : groups.get(column)) {
                final String condition = f.key().conditionText();
                words.put(condition, Wording.condition(f.key()));
                final List<Cell> line = lines.computeIfAbsent(condition, c -> new ArrayList<>());
                fill(line, column);
                final Cell cell = cell(f);
                line.add(cell);
                cells.add(cell);
            }
            final Finding first = groups.get(column).get(0);
            columns.add(
                    new Column(
                            Wording.sentence(Wording.quantity(first.key().quantity())),
                            Wording.unit(first.answer().unit()),
                            Cells.width(cells)));
        }
        final List<Line> rows = new ArrayList<>();
        lines.forEach(
                (condition, line) -> {
                    fill(line, columns.size());
                    final String which = words.getOrDefault(condition, "");
                    rows.add(new Line(which.isEmpty() ? "as a whole" : which, List.copyOf(line)));
                });
        return new Page.Matrix(
                "", "Under which condition", List.copyOf(columns), List.copyOf(rows));
    }

    private static Cell cell(Finding finding) {
        final double value = ((Answer.Statistic) finding.answer()).value();
        final String quantity = finding.key().quantity();
        if (quantity.equals("effective-degrees-of-freedom")) {
            return Cells.of(Wording.degreesOfFreedom(value));
        }
        return Cells.of(Cells.statistic(quantity, value));
    }

    private static void fill(List<Cell> line, int upTo) {
        while (line.size() < upTo) {
            line.add(Cell.EMPTY);
        }
    }
}
