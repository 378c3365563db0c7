package splitledger.characteristic.detection;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import splitledger.characteristic.Responses;
import splitledger.propagation.UncertainLine;
import splitledger.statistics.Moments;
import splitledger.study.Doubles;
import splitledger.study.Flag;
import splitledger.study.Rows;
import splitledger.study.Study;

/**
 * Amounts of one compound in some preparations, each the mean of its injections read off the line.
 *
 * @param values of the preparations with a response, in order of the table
 * @param preparations how many preparations there are, with or without a response
 * @param rows those that gave a response
 * @param leftOut those that gave none, with the reason
 */
record FoundAmounts(Doubles values, int preparations, Rows rows, List<Flag> leftOut) {
    FoundAmounts {
        leftOut = List.copyOf(leftOut);
    }

    static FoundAmounts of(
            Study study, Responses responses, UncertainLine line, Rows rows, String compound) {
        final Responses.Picked picked = responses.pick(rows, compound, false);
        final Map<String, Moments> byPreparation = new LinkedHashMap<>();
        picked.used()
                .forEach(
                        r ->
                                byPreparation.merge(
                                        r.preparation(), Moments.of(r.value()), Moments::with));
        final long all =
                rows.stream()
                        .filter(row -> study.table().compound(row).equals(compound))
                        .mapToObj(row -> preparation(study, row))
                        .distinct()
                        .count();
        final double[] values =
                byPreparation.values().stream()
                        .mapToDouble(m -> line.read(m.mean()))
                        .filter(found -> !Double.isNaN(found))
                        .toArray();
        return new FoundAmounts(
                Doubles.of(values), (int) all, picked.rows(), new ArrayList<>(picked.leftOut()));
    }

    /** Preparations in which nothing was detected. */
    int silent() {
        return preparations - values.size();
    }

    private static String preparation(Study study, int row) {
        final String label = study.table().label("preparation", row);
        return label.isEmpty() ? study.table().injection(row) : label;
    }
}
