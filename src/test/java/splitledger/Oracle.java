package splitledger;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** Numbers of {@code oracle/oracle.csv}; where they come from stands in the README beside it. */
public final class Oracle {
    private static final Map<String, Double> NUMBERS = read();

    private Oracle() {}

    /** One number. */
    public static double number(String caseName, String quantity) {
        final Double found = NUMBERS.get(caseName + "," + quantity);
        if (found == null) {
            throw new IllegalArgumentException("no " + quantity + " of " + caseName);
        }
        return found;
    }

    /** Every quantity of a case with its number, by name. */
    public static Map<String, Double> all(String caseName) {
        final Map<String, Double> found = new TreeMap<>();
        NUMBERS.forEach(
                (key, value) -> {
                    if (key.startsWith(caseName + ",")) {
                        found.put(key.substring(caseName.length() + 1), value);
                    }
                });
        return found;
    }

    /** Lines of a file among the test resources. */
    public static List<String> lines(String resource) {
        try (InputStream in = Oracle.class.getResourceAsStream(resource)) {
            if (in == null) {
                throw new IllegalArgumentException("no resource " + resource);
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8).lines().toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static Map<String, Double> read() {
        final Map<String, Double> numbers = new TreeMap<>();
        for (String line : lines("/oracle/oracle.csv")) {
            final String[] cells = line.split(",", -1);
            if (!cells[2].equals("value")) {
                numbers.put(cells[0] + "," + cells[1], Double.parseDouble(cells[2]));
            }
        }
        return numbers;
    }
}
