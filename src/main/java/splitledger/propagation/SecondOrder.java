package splitledger.propagation;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeSet;

/**
 * The law of propagation with its terms of the next order (JCGM 100:2008, note to 5.1.2), written
 * for independent standardised roots instead of inputs, so that it holds for correlated inputs too:
 * with g, H and T the first, second and third derivatives along roots, u^2 = sum g_a^2 + sum
 * (H_ab^2 / 2 + g_a T_abb), and the mean lies sum H_aa / 2 beside the value. Exact to this order
 * for normal roots; for others the same formula serves as an approximation, as in the document.
 *
 * @param standardUncertainty with the terms of second order, in the unit of the result
 * @param shift how far the mean lies from the value at the inputs' values, in the same unit
 */
public record SecondOrder(double standardUncertainty, double shift) {

    /**
     * Propagates.
     *
     * @return empty if a derivative has no finite value there or the sum comes out negative (the
     *     series does not help at so large an uncertainty)
     */
    public static Optional<SecondOrder> of(
            Expression equation, SortedMap<String, Uncertain> inputs) {
        final SortedSet<Root> distinct = new TreeSet<>();
        inputs.values().forEach(x -> distinct.addAll(x.roots()));
        final List<Root> roots = new ArrayList<>(distinct);
        double variance = 0;
        double shift = 0;
        for (Root a : roots) {
            double first = 0;
            for (Root b : roots) {
                final Jet along = Jet.of(equation, s -> moving(inputs, s, a, b));
                first = along.first();
                variance += along.second() * along.second() / 2 + first * along.third();
                if (a.equals(b)) {
                    shift += along.second() / 2;
                }
            }
            variance += first * first;
        }
        final boolean usable =
                variance >= 0 && variance < Double.POSITIVE_INFINITY && !Double.isNaN(shift);
        return usable ? Optional.of(new SecondOrder(Math.sqrt(variance), shift)) : Optional.empty();
    }

    private static Jet moving(SortedMap<String, Uncertain> inputs, String symbol, Root a, Root b) {
        final Uncertain input = inputs.get(symbol);
        if (input == null) {
            throw new IllegalArgumentException("the equation's symbol " + symbol + " has no input");
        }
        return Jet.moving(input.value(), input.part(a), input.part(b));
    }
}
