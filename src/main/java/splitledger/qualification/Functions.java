package splitledger.qualification;

import java.util.Map;
import java.util.TreeMap;
import splitledger.statistics.Grubbs;
import splitledger.statistics.Quantiles;

/** Functions of the mathematics that printed tables know. */
final class Functions {
    private Functions() {}

    /**
     * A value of a function.
     *
     * @param name of the function
     * @param arguments {@code name=value} joined by {@code ;}
     */
    static double value(String name, String arguments) {
        final Map<String, Double> a = new TreeMap<>();
        for (String part : arguments.split(";", -1)) {
            final int at = part.indexOf('=');
            a.put(part.substring(0, at), Double.parseDouble(part.substring(at + 1)));
        }
        return switch (name) {
            case "normal" -> Quantiles.normal(number(a, "p"));
            case "t" -> Quantiles.t(number(a, "p"), number(a, "df"));
            case "coverage-factor" ->
                    Quantiles.coverageFactor(number(a, "coverage"), number(a, "df"));
            case "chi-square" -> Quantiles.chiSquare(number(a, "p"), number(a, "df"));
            case "F" ->
                    Quantiles.f(number(a, "p"), number(a, "numerator"), number(a, "denominator"));
            case "grubbs" -> Grubbs.critical((int) number(a, "n"), number(a, "risk"));
            default -> throw new IllegalStateException("no function " + name);
        };
    }

    private static double number(Map<String, Double> arguments, String name) {
        final Double value = arguments.get(name);
        if (value == null) {
            throw new IllegalStateException("no argument " + name + " in " + arguments);
        }
        return value;
    }
}
