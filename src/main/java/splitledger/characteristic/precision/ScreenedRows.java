package splitledger.characteristic.precision;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import splitledger.statistics.Moments;

/**
 * The repeated rows of one compound, gathered for screening.
 *
 * @param preparations injections of each preparation
 * @param results one a preparation; where there is one preparation only, one an injection
 * @param conditions results under each set of conditions
 */
record ScreenedRows(List<Group> preparations, List<Group> results, List<Group> conditions) {
    ScreenedRows {
        preparations = List.copyOf(preparations);
        results = List.copyOf(results);
        conditions = List.copyOf(conditions);
    }

    /**
     * Values that belong together.
     *
     * @param label for the reader
     * @param cell the set of conditions
     * @param row the first of its rows
     * @param position mean place in the run, injections counted from 0
     * @param values its values
     */
    record Group(String label, String cell, int row, double position, List<Double> values) {
        Group {
            values = List.copyOf(values);
        }

        double[] array() {
            return values.stream().mapToDouble(Double::doubleValue).toArray();
        }

        double mean() {
            return Moments.ofAll(array()).mean();
        }
    }

    /** One row before it is gathered. */
    record Item(
            String label, String preparation, String cell, int row, double position, double y) {}

    static ScreenedRows of(List<Item> items) {
        final List<Group> preparations = gather(items, i -> i.cell() + "\t" + i.preparation());
        final List<Item> results = new ArrayList<>();
        if (preparations.size() > 1) {
            for (Group p : preparations) {
                results.add(
                        new Item(p.label(), p.label(), p.cell(), p.row(), p.position(), p.mean()));
            }
        } else {
            results.addAll(items);
        }
        final List<Group> each = new ArrayList<>();
        for (Item r : results) {
            each.add(new Group(r.label(), r.cell(), r.row(), r.position(), List.of(r.y())));
        }
        final List<Group> conditions = new ArrayList<>();
        for (Group g : gather(results, Item::cell)) {
            conditions.add(
                    new Group(
                            g.cell().replace("\t", ", "),
                            g.cell(),
                            g.row(),
                            g.position(),
                            g.values()));
        }
        final boolean one = preparations.size() == 1;
        return new ScreenedRows(one ? List.of() : preparations, each, conditions);
    }

    private static List<Group> gather(
            List<Item> items, java.util.function.Function<Item, String> key) {
        final List<Group> groups = new ArrayList<>();
        for (List<Item> members : Screening.grouped(items, key).values()) {
            groups.add(
                    new Group(
                            members.get(0).preparation(),
                            members.get(0).cell(),
                            members.get(0).row(),
                            members.stream().mapToDouble(Item::position).sum() / members.size(),
                            members.stream().map(Item::y).toList()));
        }
        return groups;
    }

    /**
     * What is looked at as a series: with several sets of conditions their means, else the results,
     * in run order.
     */
    List<Group> inRunOrder() {
        final List<Group> sorted = new ArrayList<>(conditions.size() > 1 ? conditions : results);
        sorted.sort(Comparator.comparingDouble(Group::position));
        return sorted;
    }
}
