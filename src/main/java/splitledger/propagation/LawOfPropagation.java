package splitledger.propagation;

import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * The law of propagation of uncertainty to first order (JCGM 100:2008, 5.1.2 and 5.2.2): the
 * result's part of each root is the sum of sensitivity coefficients times the inputs' parts, so
 * covariances need no terms of their own.
 */
public final class LawOfPropagation {
    private LawOfPropagation() {}

    /**
     * A result with its sensitivity coefficients.
     *
     * @param result the value with all its parts
     * @param sensitivities derivative of the result with respect to each input, result unit per
     *     input unit
     */
    public record Propagated(Uncertain result, SortedMap<String, Double> sensitivities) {}

    /**
     * Propagates.
     *
     * @param equation the measurement equation
     * @param inputs every symbol of the equation
     * @param unit unit of the result
     * @return the result; its value or a sensitivity may not be finite only by exception
     * @throws ArithmeticException if the equation or a derivative has no finite value at the inputs
     */
    public static Propagated propagate(
            Expression equation, SortedMap<String, Uncertain> inputs, String unit) {
        final double value = finite("the equation", equation.value(s -> valueOf(inputs, s)));
        final SortedMap<String, Double> sensitivities = new TreeMap<>();
        final List<Uncertain> terms = new ArrayList<>();
        final double[] coefficients = new double[inputs.size()];
        int i = 0;
        for (var e : inputs.entrySet()) {
            final double c = equation.derivative(e.getKey()).value(s -> valueOf(inputs, s));
            final boolean matters = e.getValue().variance() > 0;
            coefficients[i] = matters ? finite("the derivative by " + e.getKey(), c) : 0;
            sensitivities.put(e.getKey(), Double.isNaN(c) || Double.isInfinite(c) ? 0 : c);
            terms.add(e.getValue());
            i++;
        }
        return new Propagated(Uncertain.combine(value, unit, coefficients, terms), sensitivities);
    }

    private static double valueOf(SortedMap<String, Uncertain> inputs, String symbol) {
        final Uncertain input = inputs.get(symbol);
        if (input == null) {
            throw new IllegalArgumentException("the equation's symbol " + symbol + " has no input");
        }
        return input.value();
    }

    private static double finite(String what, double value) {
        if (Double.isNaN(value) || Double.isInfinite(value)) {
            throw new ArithmeticException(
                    what + " has no finite value at the values of the inputs");
        }
        return value;
    }
}
