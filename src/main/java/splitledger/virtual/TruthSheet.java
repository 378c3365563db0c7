package splitledger.virtual;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import splitledger.base.CodePoints;
import splitledger.study.Key;

/** Where the true values of one simulation are put together, with what all of them need. */
final class TruthSheet {
    static final double PERCENT = 100;

    private final Design design;
    private final VirtualInlet inlet;
    private final Map<Key, TrueValue> values = new LinkedHashMap<>();

    TruthSheet(Design design, VirtualInlet inlet) {
        this.design = design;
        this.inlet = inlet;
    }

    Design design() {
        return design;
    }

    Physics physics() {
        return inlet.physics();
    }

    Solutions solutions() {
        return inlet.solutions();
    }

    Peaks peaks() {
        return inlet.peaks();
    }

    /** Injections of an experiment that gave a whole chromatogram. */
    List<Injection> injections(String experiment) {
        return inlet.plan().stream()
                .filter(i -> i.experiment().equals(experiment))
                .filter(i -> !i.fate().missing() && !i.fate().stopped())
                .toList();
    }

    /** The flasks of an experiment, in order. */
    Set<Flask> flasks(String experiment) {
        final Set<Flask> flasks = new LinkedHashSet<>();
        injections(experiment).forEach(i -> flasks.add(i.flask()));
        return flasks;
    }

    /** Whether a response is a ratio to the internal standard. */
    boolean hasStandard() {
        return design.standard().isPresent();
    }

    /** Unit of a response. */
    String responseUnit() {
        return hasStandard() ? "1" : "pA*s";
    }

    /** A response from areas: the ratio to the internal standard, or the area itself. */
    double response(double[] areas, int peak) {
        return hasStandard() ? areas[peak] / standard(areas) : areas[peak];
    }

    /** The internal standard's part of amounts or areas. */
    double standard(double[] values) {
        return values[peaks().of(design.standardName())];
    }

    /** Areas at the working ratio and temperature, without any scatter. */
    double[] atWork(double[] amounts) {
        return at(amounts, design.inlet().temperature().value());
    }

    /** The same at another temperature of the inlet, degC. */
    double[] at(double[] amounts, double temperature) {
        return physics().expected(amounts, workingRatio(), temperature, "");
    }

    /** The ratio that acts where the working one is set. */
    double workingRatio() {
        return physics().trueRatio(design.inlet().splitRatio().value());
    }

    /** Whether the detector is linear. */
    boolean isLinear() {
        return design.detector().saturation().value() == Double.POSITIVE_INFINITY;
    }

    /**
     * Notes a value; the first of a key stays.
     *
     * @throws IllegalStateException if it is no number
     */
    void add(Key key, double value, String unit) {
        if (!Double.isFinite(value)) {
            throw new IllegalStateException(key + " = " + value + ", must be a number");
        }
        values.putIfAbsent(key, new TrueValue(key, value, unit));
    }

    /** All values, ordered by key. */
    List<TrueValue> ordered() {
        final List<Row> rows = new ArrayList<>();
        values.forEach((key, value) -> rows.add(new Row(key, key.conditionText(), value)));
        rows.sort(Row.ORDER);
        return rows.stream().map(Row::value).toList();
    }

    /** A value with the text of its condition, worked out once. */
    private record Row(Key key, String condition, TrueValue value) {
        private static final Comparator<Row> ORDER =
                Comparator.comparing((Row r) -> r.key().characteristic(), CodePoints.ORDER)
                        .thenComparing(r -> r.key().compound(), CodePoints.ORDER)
                        .thenComparing(Row::condition, CodePoints.ORDER)
                        .thenComparing(r -> r.key().quantity(), CodePoints.ORDER);
    }

    /** Root of the sum of squares. */
    static double root(double... parts) {
        double sum = 0;
        for (double part : parts) {
            sum += part * part;
        }
        return Math.sqrt(sum);
    }
}
