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
import splitledger.study.Key;

/** One quantity under two conditions: levels across, the other condition down. */
final class CrossTable {
    private static final String ACROSS = "level";

    private CrossTable() {}

    /** Whether plain numbers all have a level and one condition more. */
    static boolean suits(List<Finding> group) {
        return FindingMatrix.suits(group)
                && group.stream()
                        .allMatch(
                                f ->
                                        f.key().condition().size() == 2
                                                && f.key().condition().containsKey(ACROSS));
    }

    /** The table of a group that {@linkplain #suits suits}. */
    static Page.Matrix of(List<Finding> group) {
        final List<String> levels =
                group.stream()
                        .map(f -> f.key().condition().getOrDefault(ACROSS, ""))
                        .distinct()
                        .sorted(NaturalOrder.ORDER)
                        .toList();
        final Map<String, List<Cell>> lines = new TreeMap<>(NaturalOrder.ORDER);
        final Map<String, String> words = new TreeMap<>(NaturalOrder.ORDER);
        for (Finding f : group) {
            final Key rest = without(f.key());
            words.put(rest.conditionText(), Wording.condition(rest));
            final List<Cell> line =
                    lines.computeIfAbsent(
                            rest.conditionText(),
                            c -> {
                                final List<Cell> empty = new ArrayList<>();
                                levels.forEach(l -> empty.add(Cell.EMPTY));
                                return empty;
                            });
            line.set(
                    levels.indexOf(f.key().condition().get(ACROSS)),
                    Cells.of(Wording.decimals(((Answer.Statistic) f.answer()).value(), 2)));
        }
        final List<Column> columns = new ArrayList<>();
        for (int i = 0; i < levels.size(); i++) {
            final int column = i;
            columns.add(
                    new Column(
                            "level " + levels.get(i),
                            Wording.unit(group.get(0).answer().unit()),
                            Cells.width(lines.values().stream().map(l -> l.get(column)).toList())));
        }
        final List<Line> rows = new ArrayList<>();
        lines.forEach(
                (condition, cells) ->
                        rows.add(
                                new Line(
                                        Wording.sentence(words.getOrDefault(condition, "")),
                                        List.copyOf(cells))));
        return new Page.Matrix(
                Wording.sentence(Wording.quantity(group.get(0).key().quantity())),
                "Change",
                List.copyOf(columns),
                List.copyOf(rows));
    }

    private static Key without(Key key) {
        final TreeMap<String, String> rest = new TreeMap<>(key.condition());
        rest.remove(ACROSS);
        return new Key(key.characteristic(), key.compound(), rest, key.quantity(), key.method());
    }
}
