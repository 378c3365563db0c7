package splitledger.intake;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import tech.tablesaw.api.IntColumn;
import tech.tablesaw.api.StringColumn;
import tech.tablesaw.api.Table;
import tech.tablesaw.joining.JoinType;

/**
 * What Tablesaw does for us: joins and repeated keys, on label columns with an index of rows.
 * Numbers never pass through it. Column names inside are our own, since Tablesaw takes names that
 * differ in case for the same; keys with an empty label are left out, since Tablesaw would match
 * them with each other.
 */
final class LabelTables {
    private static final String LEFT = "left";
    private static final String RIGHT = "right";
    private static final String KEY = "key";

    private LabelTables() {}

    /** Rows that belong together. */
    static final class Match {
        private final int[] rightOf;
        private final int[] rightOnly;

        private Match(int[] rightOf, int[] rightOnly) {
            this.rightOf = rightOf;
            this.rightOnly = rightOnly;
        }

        /** The right row of a left row; -1 where there is none. */
        int rightOf(int left) {
            return rightOf[left];
        }

        /** Left rows without a right row, ascending. */
        IntStream leftOnly() {
            return IntStream.range(0, rightOf.length).filter(l -> rightOf[l] < 0);
        }

        /** Right rows without a left row, ascending. */
        IntStream rightOnly() {
            return Arrays.stream(rightOnly);
        }
    }

    /** Two rows of the same labels. */
    record Repeat(int first, int second) {}

    /**
     * Matches rows by equal labels in every key column. A left row takes its first right row.
     *
     * @param left key columns of the left table
     * @param right key columns of the right table, as many
     */
    static Match match(List<String[]> left, List<String[]> right) {
        final Table leftTable = keyed(left, LEFT);
        final Table rightTable = keyed(right, RIGHT);
        final String[] keys = keys(left.size());
        final Table joined =
                leftTable.joinOn(keys).with(rightTable).type(JoinType.FULL_OUTER).join();
        final IntColumn leftRows = joined.intColumn(LEFT);
        final IntColumn rightRows = joined.intColumn(RIGHT);
        final int[] rightOf = new int[left.get(0).length];
        Arrays.fill(rightOf, -1);
        final boolean[] matched = new boolean[right.get(0).length];
        for (int i = 0; i < joined.rowCount(); i++) {
            if (leftRows.isMissing(i) || rightRows.isMissing(i)) {
                continue;
            }
            final int l = leftRows.getInt(i);
            final int r = rightRows.getInt(i);
            matched[r] = true;
            rightOf[l] = rightOf[l] < 0 ? r : Math.min(rightOf[l], r);
        }
        final int[] rightOnly =
                IntStream.range(0, matched.length).filter(r -> !matched[r]).toArray();
        return new Match(rightOf, rightOnly);
    }

    /** Every row whose labels a row before it has already, with the first of them. */
    static List<Repeat> repeats(List<String[]> columns) {
        final Table table = keyed(columns, LEFT);
        final List<String> order = new ArrayList<>(List.of(keys(columns.size())));
        order.add(LEFT);
        final Table sorted = table.sortAscendingOn(order.toArray(String[]::new));
        final IntColumn rows = sorted.intColumn(LEFT);
        final List<Repeat> repeats = new ArrayList<>();
        int first = 0;
        for (int i = 1; i < sorted.rowCount(); i++) {
            if (same(columns, rows.getInt(first), rows.getInt(i))) {
                repeats.add(new Repeat(rows.getInt(first), rows.getInt(i)));
            } else {
                first = i;
            }
        }
        repeats.sort((a, b) -> Integer.compare(a.second(), b.second()));
        return repeats;
    }

    private static Table keyed(List<String[]> columns, String index) {
        final int[] rows =
                IntStream.range(0, columns.get(0).length)
                        .filter(r -> columns.stream().noneMatch(c -> c[r].isEmpty()))
                        .toArray();
        final Table table = Table.create(IntColumn.create(index, rows));
        for (int k = 0; k < columns.size(); k++) {
            final String[] column = columns.get(k);
            table.addColumns(
                    StringColumn.create(KEY + k, Arrays.stream(rows).mapToObj(r -> column[r])));
        }
        return table;
    }

    private static String[] keys(int count) {
        return IntStream.range(0, count).mapToObj(k -> KEY + k).toArray(String[]::new);
    }

    private static boolean same(List<String[]> columns, int a, int b) {
        return columns.stream().allMatch(c -> c[a].equals(c[b]));
    }
}
