package splitledger.budget;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.ToDoubleFunction;
import splitledger.propagation.Comparison;
import splitledger.propagation.Expression;
import splitledger.propagation.LawOfPropagation;
import splitledger.propagation.LawOfPropagation.Propagated;
import splitledger.propagation.MonteCarlo;
import splitledger.propagation.Root;
import splitledger.propagation.SecondOrder;
import splitledger.propagation.Uncertain;
import splitledger.propagation.UncertainLine;
import splitledger.statistics.MeanLaw;
import splitledger.statistics.Quantiles;
import splitledger.study.Budget;
import splitledger.study.Choice;
import splitledger.study.Protocol.Measurand;
import splitledger.study.Trail;

/** Makes one budget from an equation and its inputs. */
final class BudgetMaker {
    /** The reserved symbol of the amount read off the calibration line. */
    static final String FOUND = "found";

    private static final String RESPONSE = "found_response";
    private static final String INTERCEPT = "found_intercept";
    private static final String SLOPE = "found_slope";

    private final Measurand measurand;
    private final Expression equation;
    private final double coverage;
    private final boolean trials;

    BudgetMaker(Measurand measurand, Expression equation, double coverage, boolean trials) {
        this.measurand = measurand;
        this.equation = equation;
        this.coverage = coverage;
        this.trials = trials;
    }

    /** Value, uncertainty and sensitivities of one result. */
    Propagated propagate(SortedMap<String, Uncertain> inputs) {
        return LawOfPropagation.propagate(equation, inputs, measurand.unit());
    }

    /** Whether the equation uses the amount found. */
    boolean usesFound() {
        return equation.symbols().contains(FOUND);
    }

    /** k for a result. */
    double factor(Uncertain result) {
        return Quantiles.coverageFactor(coverage, result.degreesOfFreedom());
    }

    /**
     * The amount found, taken apart, for Monte Carlo.
     *
     * @param line calibration line
     * @param response mean response with all its parts
     * @param kept how much of each cause of the line stays
     */
    record Found(UncertainLine line, Uncertain response, ToDoubleFunction<Root> kept) {}

    /**
     * A whole budget.
     *
     * @param inputs every symbol, {@code found} included
     * @param found the amount taken apart; empty if the equation has none
     * @param seed of this budget
     */
    Budget make(
            String compound,
            String level,
            SortedMap<String, Uncertain> inputs,
            Optional<Found> found,
            List<Choice> choices,
            long seed) {
        final Propagated propagated = propagate(inputs);
        final Uncertain result = propagated.result();
        final double k = factor(result);
        final double expanded = k * result.standardUncertainty();
        final Whole whole = whole(inputs, found);
        final Optional<SecondOrder> second = SecondOrder.of(whole.equation(), whole.inputs());
        final Optional<MonteCarlo.Simulated> simulated =
                trials
                        ? Optional.of(
                                MonteCarlo.adaptive(seed, coverage)
                                        .run(whole.equation(), whole.inputs()))
                        : Optional.empty();
        final List<String> order = order(inputs);
        return new Budget(
                compound,
                level,
                measurand.name(),
                equation.text(s -> s),
                result,
                coverage,
                k,
                expanded,
                BudgetRows.of(order, inputs, sources(), fromData(), propagated),
                BudgetRows.correlations(order, inputs, propagated),
                second,
                simulated,
                simulated.map(s -> Comparison.of(result, expanded, second, s)),
                choices,
                trail(inputs, result.value()));
    }

    /** The equation with numbers put in. */
    Trail trail(SortedMap<String, Uncertain> inputs, double value) {
        final String numbers =
                equation.text(
                        s -> {
                            final Uncertain x = inputs.get(s);
                            return x == null ? s : Trail.signed(x.value());
                        });
        return new Trail(
                List.of(
                        new Trail.Step(
                                measurand.name(),
                                equation.text(s -> s),
                                numbers,
                                value,
                                measurand.unit())));
    }

    /**
     * The equation down to what has causes of its own: the amount found by a line is written out;
     * that of a curve stays one input with the causes it has to first order.
     */
    private record Whole(Expression equation, SortedMap<String, Uncertain> inputs) {}

    private Whole whole(SortedMap<String, Uncertain> inputs, Optional<Found> found) {
        final SortedMap<String, Uncertain> leaves = new TreeMap<>(inputs);
        Expression full = equation;
        if (found.filter(f -> f.line().law() != MeanLaw.QUADRATIC).isPresent()) {
            final Found parts = found.get();
            final Uncertain intercept = parts.line().intercept();
            final Uncertain slope = parts.line().slope();
            leaves.remove(FOUND);
            leaves.put(RESPONSE, parts.response().weighted(parts.kept()));
            leaves.put(INTERCEPT, intercept.weighted(parts.kept()));
            leaves.put(SLOPE, slope.weighted(parts.kept()));
            final Expression amount =
                    new Expression.Binary(
                            Expression.Operator.OVER,
                            new Expression.Binary(
                                    Expression.Operator.MINUS,
                                    new Expression.Symbol(RESPONSE),
                                    new Expression.Symbol(INTERCEPT)),
                            new Expression.Symbol(SLOPE));
            full = equation.replace(s -> s.name().equals(FOUND) ? amount : s);
        }
        return new Whole(full, leaves);
    }

    /** Symbols in the order of a budget's rows. */
    static List<String> order(SortedMap<String, Uncertain> inputs) {
        final List<String> order = new ArrayList<>();
        if (inputs.containsKey(FOUND)) {
            order.add(FOUND);
        }
        inputs.keySet().stream().filter(s -> !s.equals(FOUND)).forEach(order::add);
        return order;
    }

    private Map<String, String> sources() {
        final Map<String, String> sources = new LinkedHashMap<>();
        sources.put(
                FOUND,
                switch (measurand.found()) {
                    case AMOUNT -> "read off the calibration line of this study";
                    case ADDITION -> "by standard addition in this study";
                    case AREA_SHARE -> "areas of this study";
                });
        measurand.inputs().forEach((symbol, input) -> sources.put(symbol, Inputs.source(input)));
        return sources;
    }

    private Map<String, Boolean> fromData() {
        final Map<String, Boolean> fromData = new LinkedHashMap<>();
        measurand
                .inputs()
                .forEach(
                        (symbol, input) ->
                                Inputs.fromData(input).ifPresent(a -> fromData.put(symbol, a)));
        return fromData;
    }
}
