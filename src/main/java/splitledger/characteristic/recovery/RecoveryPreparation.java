package splitledger.characteristic.recovery;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import splitledger.base.Numbers;
import splitledger.characteristic.Responses;
import splitledger.statistics.Moments;
import splitledger.study.Flag;
import splitledger.study.InjectionTable;
import splitledger.study.Rows;
import splitledger.study.Study;

/**
 * One preparation of a recovery experiment; its injections are averaged.
 *
 * @param label its label
 * @param level label of its level, or the amount added where the table has none
 * @param day empty if not told
 * @param response mean of its injections
 * @param added amount of the column asked for; NaN if none
 * @param addedU its standard uncertainty; 0 if none is told
 * @param portion test portion; 1 if none is asked for
 * @param rows that gave the mean
 */
record RecoveryPreparation(
        String label,
        String level,
        String day,
        Moments response,
        double added,
        double addedU,
        double portion,
        Rows rows) {

    /**
     * Columns that go with a preparation; an empty name stands for none.
     *
     * @param amount of what was added or is certified
     * @param amountU of its standard uncertainty
     * @param portion of the test portion
     */
    record Columns(String amount, String amountU, String portion) {}

    /** Preparations with what gave none. */
    record Found(List<RecoveryPreparation> preparations, int silent, List<Flag> leftOut) {
        Found {
            preparations = List.copyOf(preparations);
            leftOut = List.copyOf(leftOut);
        }
    }

    /**
     * The preparations of one compound in some rows, in order of the table.
     *
     * @param responses what a response is
     */
    static Found of(Study study, Responses responses, Rows rows, String compound, Columns columns) {
        final Responses.Picked picked = responses.pick(rows, compound, false);
        final Map<String, List<Responses.Response>> members = new LinkedHashMap<>();
        picked.used()
                .forEach(
                        r ->
                                members.computeIfAbsent(r.preparation(), p -> new ArrayList<>())
                                        .add(r));
        final long all =
                rows.stream()
                        .filter(row -> study.table().compound(row).equals(compound))
                        .mapToObj(row -> label(study.table(), row))
                        .distinct()
                        .count();
        final List<RecoveryPreparation> preparations = new ArrayList<>();
        final List<Flag> leftOut = new ArrayList<>(picked.leftOut());
        members.forEach(
                (label, own) -> {
                    final RecoveryPreparation one = one(study.table(), label, own, columns);
                    if (Double.isNaN(one.portion()) || one.portion() <= 0) {
                        leftOut.add(
                                new Flag(
                                        study.table().place(own.get(0).row()),
                                        "preparation " + label + ", " + compound,
                                        "left out: no test portion in the column "
                                                + columns.portion()));
                    } else {
                        preparations.add(one);
                    }
                });
        return new Found(preparations, (int) all - members.size(), leftOut);
    }

    private static RecoveryPreparation one(
            InjectionTable table, String label, List<Responses.Response> own, Columns columns) {
        final int first = own.get(0).row();
        final double added = number(table, columns.amount(), first, Double.NaN);
        final String told = table.label("level", first);
        final String fallback = Double.isNaN(added) ? "" : Numbers.text(added);
        return new RecoveryPreparation(
                label,
                told.isEmpty() ? fallback : told,
                table.label("day", first),
                Moments.ofAll(own.stream().mapToDouble(Responses.Response::value).toArray()),
                added,
                Math.max(0, number(table, columns.amountU(), first, 0)),
                number(table, columns.portion(), first, 1),
                Rows.of(own.stream().mapToInt(Responses.Response::row).toArray()));
    }

    private static double number(InjectionTable table, String column, int row, double otherwise) {
        if (column.isEmpty()) {
            return otherwise;
        }
        final double value = table.number(column, row);
        return Double.isNaN(value) && otherwise == 0 ? 0 : value;
    }

    private static String label(InjectionTable table, int row) {
        final String label = table.label("preparation", row);
        return label.isEmpty() ? table.injection(row) : label;
    }
}
