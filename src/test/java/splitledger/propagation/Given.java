package splitledger.propagation;

import java.util.SortedMap;
import java.util.TreeMap;

/** Inputs for tests: independent, each with its own pool. */
final class Given {
    private final SortedMap<String, Uncertain> inputs = new TreeMap<>();

    /** A root with a pool of its own. */
    static Root root(String name, double df, Shape shape) {
        return new Root(
                name,
                new Pool(name, df, "given"),
                Effect.REFERENCE_VALUE,
                ActsOn.SAMPLE,
                shape,
                "given");
    }

    /** A normal root of known variance. */
    static Root root(String name) {
        return root(name, Double.POSITIVE_INFINITY, new Shape.Normal());
    }

    Given input(String name, double value, double u, double df, Shape shape) {
        inputs.put(name, Uncertain.of(value, "1", root(name, df, shape), u));
        return this;
    }

    Given input(String name, double value, double u, double df) {
        return input(name, value, u, df, new Shape.Normal());
    }

    Given input(String name, double value, double u) {
        return input(name, value, u, Double.POSITIVE_INFINITY);
    }

    Given input(String name, Uncertain value) {
        inputs.put(name, value);
        return this;
    }

    SortedMap<String, Uncertain> inputs() {
        return inputs;
    }

    Uncertain propagate(String equation) {
        return LawOfPropagation.propagate(parse(equation), inputs, "1").result();
    }

    MonteCarlo.Simulated simulate(String equation, long seed, int trials, double coverage) {
        return MonteCarlo.of(seed, trials, coverage).run(parse(equation), inputs);
    }

    static Expression parse(String equation) {
        try {
            return ExpressionParser.parse(equation);
        } catch (ExpressionException e) {
            throw new AssertionError(e);
        }
    }
}
