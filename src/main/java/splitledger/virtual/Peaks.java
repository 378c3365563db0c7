package splitledger.virtual;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The compounds of a design by number, in the order of the columns, so that what is done for every
 * peak runs over arrays. An amount of {@code NaN} means that a compound is not there at all.
 */
final class Peaks {
    private final List<String> names;
    private final Map<String, Integer> numbers = new HashMap<>();
    private final byte[][] streamNames;

    Peaks(Design design) {
        names = new ArrayList<>(design.compounds().keySet());
        streamNames = new byte[names.size()][];
        for (int i = 0; i < names.size(); i++) {
            numbers.put(names.get(i), i);
            streamNames[i] = Streams.bytes(names.get(i));
        }
    }

    int size() {
        return names.size();
    }

    String name(int peak) {
        return names.get(peak);
    }

    /** Its name as it goes into the name of a stream. */
    byte[] streamName(int peak) {
        return streamNames[peak];
    }

    /**
     * The number of a compound.
     *
     * @return -1 if the design does not have it
     */
    int of(String compound) {
        return numbers.getOrDefault(compound, -1);
    }

    /** Nothing of any compound. */
    double[] nothing() {
        final double[] none = new double[size()];
        Arrays.fill(none, Double.NaN);
        return none;
    }

    /** Values by compound as an array; {@code NaN} where the map has none. */
    double[] array(Map<String, Double> values) {
        final double[] all = nothing();
        values.forEach(
                (compound, value) -> {
                    final int peak = of(compound);
                    if (peak >= 0) {
                        all[peak] = value;
                    }
                });
        return all;
    }

    /** Adds to an amount that may be nothing. */
    static double sum(double amount, double more) {
        return Double.isNaN(amount) ? more : amount + more;
    }

    /** Those that are there, by name in the order of the columns. */
    Map<String, Double> map(double[] values) {
        final Map<String, Double> all = new LinkedHashMap<>();
        for (int i = 0; i < values.length; i++) {
            if (!Double.isNaN(values[i])) {
                all.put(names.get(i), values[i]);
            }
        }
        return all;
    }
}
