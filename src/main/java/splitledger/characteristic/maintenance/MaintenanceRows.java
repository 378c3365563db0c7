package splitledger.characteristic.maintenance;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.commons.math3.util.FastMath;
import splitledger.statistics.Moments;
import splitledger.study.Flag;
import splitledger.study.InjectionTable;
import splitledger.study.Rows;
import splitledger.study.State;
import splitledger.study.Study;

/**
 * Log areas of each compound on one occasion.
 *
 * @param areas by compound, then by injection, in order of the table
 * @param rows used
 * @param leftOut with reasons
 */
record MaintenanceRows(Map<String, Map<String, Double>> areas, Rows rows, List<Flag> leftOut) {
    private static final double HUNDRED = 100;

    MaintenanceRows {
        leftOut = List.copyOf(leftOut);
    }

    static MaintenanceRows of(Study study, Rows rows, String occasion, List<String> compounds) {
        final InjectionTable table = study.table();
        final Map<String, Map<String, Double>> areas = new LinkedHashMap<>();
        compounds.forEach(c -> areas.put(c, new LinkedHashMap<>()));
        final List<Integer> used = new ArrayList<>();
        final List<Flag> leftOut = new ArrayList<>();
        rows.stream()
                .filter(row -> table.label("occasion", row).equals(occasion))
                .filter(row -> areas.containsKey(table.compound(row)))
                // where amounts are stated, a compound without one is not in the solution
                .filter(row -> !table.has("amount") || table.number("amount", row) > 0)
                .forEach(
                        row -> {
                            if (table.state(row) == State.MEASURED && table.area(row) > 0) {
                                areas.computeIfAbsent(
                                                table.compound(row), c -> new LinkedHashMap<>())
                                        .put(table.injection(row), FastMath.log(table.area(row)));
                                used.add(row);
                            } else {
                                leftOut.add(
                                        new Flag(
                                                table.place(row),
                                                "injection "
                                                        + table.injection(row)
                                                        + ", "
                                                        + table.compound(row),
                                                "left out of the comparison: "
                                                        + table.state(row)
                                                                .code()
                                                                .replace('-', ' ')));
                            }
                        });
        return new MaintenanceRows(
                areas, Rows.of(used.stream().mapToInt(Integer::intValue).toArray()), leftOut);
    }

    /** Moments of a compound's log areas. */
    Moments moments(String compound) {
        return Moments.ofAll(
                areas.getOrDefault(compound, Map.of()).values().stream()
                        .mapToDouble(Double::doubleValue)
                        .toArray());
    }

    /** Injections of a compound. */
    int count(String compound) {
        return areas.getOrDefault(compound, Map.of()).size();
    }

    /**
     * Slope of each injection's log areas over the boiling point, per 100 degC, members at their
     * mean over this and another occasion being taken off.
     *
     * @param boilingPoints of the compounds that both occasions have
     */
    double[] slopes(Map<String, Double> boilingPoints, Map<String, Double> means) {
        final Map<String, List<double[]>> points = new TreeMap<>();
        areas.forEach(
                (compound, values) -> {
                    if (boilingPoints.containsKey(compound)) {
                        values.forEach(
                                (injection, y) ->
                                        points.computeIfAbsent(injection, i -> new ArrayList<>())
                                                .add(
                                                        new double[] {
                                                            boilingPoints.getOrDefault(
                                                                            compound, 0.0)
                                                                    / HUNDRED,
                                                            y - means.getOrDefault(compound, 0.0)
                                                        }));
                    }
                });
        return points.values().stream()
                .mapToDouble(MaintenanceRows::slope)
                .filter(s -> !Double.isNaN(s))
                .toArray();
    }

    /**
     * Log area of a compound less the mean of two others, by injection.
     *
     * @return one an injection that has all three
     */
    double[] beside(String compound, String one, String other) {
        final Map<String, Double> y = areas.getOrDefault(compound, Map.of());
        final Map<String, Double> a = areas.getOrDefault(one, Map.of());
        final Map<String, Double> b = areas.getOrDefault(other, Map.of());
        return y.entrySet().stream()
                .filter(e -> a.containsKey(e.getKey()) && b.containsKey(e.getKey()))
                .mapToDouble(
                        e ->
                                e.getValue()
                                        - (a.getOrDefault(e.getKey(), 0.0)
                                                        + b.getOrDefault(e.getKey(), 0.0))
                                                / 2)
                .toArray();
    }

    private static double slope(List<double[]> points) {
        final double x = points.stream().mapToDouble(p -> p[0]).sum() / points.size();
        final double y = points.stream().mapToDouble(p -> p[1]).sum() / points.size();
        double sxx = 0;
        double sxy = 0;
        for (double[] p : points) {
            sxx += (p[0] - x) * (p[0] - x);
            sxy += (p[0] - x) * (p[1] - y);
        }
        return sxx > 0 ? sxy / sxx : Double.NaN;
    }
}
