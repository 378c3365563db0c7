package splitledger.statistics;

import java.util.Map;
import java.util.TreeMap;
import splitledger.Oracle;

/** Numbers of {@code oracle/calibration.csv}, and the invented data of its script. */
final class CalibrationOracle {
    /** Six levels, three preparations each. */
    static final double[] X = {0.5, 0.5, 0.5, 1, 1, 1, 2, 2, 2, 5, 5, 5, 10, 10, 10, 20, 20, 20};

    static final double[] Y = {
        1.16, 1.42, 1.25, 2.31, 2.19, 2.44, 4.22, 4.60, 4.41, 10.82, 10.15, 10.61, 20.3, 21.6, 20.7,
        42.9, 40.6, 41.1
    };

    /** Shares of a study with preparations that scatter by half or twice as much variance. */
    static final double[] UNEVEN = {1, .5, 1, 1, 1, 2, 1, 1, 1, 1, .5, 1, 2, 1, 1, 1, 1, 1};

    private static final Map<String, Double> NUMBERS = read();

    private CalibrationOracle() {}

    /** Y less 0.004 x^2. */
    static double[] curved() {
        final double[] y = new double[X.length];
        for (int i = 0; i < y.length; i++) {
            y[i] = Y[i] - 0.004 * (X[i] * X[i]);
        }
        return y;
    }

    static double[] ones(int n) {
        final double[] ones = new double[n];
        java.util.Arrays.fill(ones, 1);
        return ones;
    }

    static double number(String name, String quantity) {
        final Double found = NUMBERS.get(name + "," + quantity);
        if (found == null) {
            throw new IllegalArgumentException("no " + quantity + " of " + name);
        }
        return found;
    }

    /** Every quantity of a case with its number. */
    static Map<String, Double> all(String name) {
        final Map<String, Double> found = new TreeMap<>();
        NUMBERS.forEach(
                (key, value) -> {
                    if (key.startsWith(name + ",")) {
                        found.put(key.substring(name.length() + 1), value);
                    }
                });
        return found;
    }

    private static Map<String, Double> read() {
        final Map<String, Double> numbers = new TreeMap<>();
        Oracle.lines("/oracle/calibration.csv").stream()
                .skip(1)
                .map(line -> line.split(",", -1))
                .forEach(c -> numbers.put(c[0] + "," + c[1], Double.parseDouble(c[2])));
        return numbers;
    }
}
