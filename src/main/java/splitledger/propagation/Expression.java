package splitledger.propagation;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import org.apache.commons.math3.util.FastMath;

/**
 * A measurement equation as one syntax tree, walked for plain values, for blocks of trials, for
 * exact derivatives (again trees, so second derivatives come for free) and for the worked-by-hand
 * text. Made by {@link ExpressionParser}.
 *
 * <p>Longer than other files: the kinds of node are closed, so they stand together in one place.
 */
public sealed interface Expression {

    /** The value for given symbols. */
    double value(ToDoubleFunction<String> symbols);

    /** The derivative with respect to a symbol, lightly simplified. */
    Expression derivative(String symbol);

    /** The same tree with symbols replaced; a symbol for which the function gives itself stays. */
    Expression replace(Function<Symbol, Expression> by);

    /** The equation as text; every symbol written as the function says. */
    String text(Function<String, String> symbols);

    /** How tightly the outermost operation binds: 1 sum, 2 product, 3 sign, 4 power, 5 atom. */
    int binding();

    /** Adds every symbol to the set. */
    void collect(SortedSet<String> into);

    /** The symbols, in order. */
    default SortedSet<String> symbols() {
        final SortedSet<String> found = new TreeSet<>();
        collect(found);
        return found;
    }

    /** A number. */
    record Constant(double value) implements Expression {
        @Override
        public double value(ToDoubleFunction<String> symbols) {
            return value;
        }

        @Override
        public Expression derivative(String symbol) {
            return new Constant(0);
        }

        @Override
        public Expression replace(Function<Symbol, Expression> by) {
            return this;
        }

        @Override
        public String text(Function<String, String> symbols) {
            final boolean whole = value == Math.rint(value) && Math.abs(value) < 1e15;
            return whole ? Long.toString((long) value) : Double.toString(value);
        }

        @Override
        public int binding() {
            return value < 0 ? 3 : 5;
        }

        @Override
        public void collect(SortedSet<String> into) {
            // a number has no symbols
        }
    }

    /** A named quantity. */
    record Symbol(String name) implements Expression {
        @Override
        public double value(ToDoubleFunction<String> symbols) {
            return symbols.applyAsDouble(name);
        }

        @Override
        public Expression derivative(String symbol) {
            return new Constant(name.equals(symbol) ? 1 : 0);
        }

        @Override
        public Expression replace(Function<Symbol, Expression> by) {
            return by.apply(this);
        }

        @Override
        public String text(Function<String, String> symbols) {
            return symbols.apply(name);
        }

        @Override
        public int binding() {
            return 5;
        }

        @Override
        public void collect(SortedSet<String> into) {
            into.add(name);
        }
    }

    /** The five operations of two operands. */
    enum Operator {
        PLUS(" + ", 1),
        MINUS(" - ", 1),
        TIMES(" * ", 2),
        OVER(" / ", 2),
        POWER("^", 4);

        private final String sign;
        private final int binding;

        Operator(String sign, int binding) {
            this.sign = sign;
            this.binding = binding;
        }

        /** Applies the operation. */
        public double apply(double a, double b) {
            return switch (this) {
                case PLUS -> a + b;
                case MINUS -> a - b;
                case TIMES -> a * b;
                case OVER -> a / b;
                case POWER -> b == 2 ? a * a : FastMath.pow(a, b);
            };
        }
    }

    /** An operation of two operands. */
    record Binary(Operator operator, Expression left, Expression right) implements Expression {
        @Override
        public double value(ToDoubleFunction<String> symbols) {
            return operator.apply(left.value(symbols), right.value(symbols));
        }

        @Override
        public Expression derivative(String symbol) {
            final Expression dl = left.derivative(symbol);
            final Expression dr = right.derivative(symbol);
            return switch (operator) {
                case PLUS -> Simplified.plus(dl, dr);
                case MINUS -> Simplified.minus(dl, dr);
                case TIMES ->
                        Simplified.plus(Simplified.times(dl, right), Simplified.times(left, dr));
                case OVER ->
                        Simplified.minus(
                                Simplified.over(dl, right),
                                Simplified.over(
                                        Simplified.times(left, dr),
                                        Simplified.power(right, new Constant(2))));
                case POWER -> powerDerivative(dl, dr);
            };
        }

        private Expression powerDerivative(Expression dl, Expression dr) {
            final Expression lowered =
                    Simplified.power(left, Simplified.minus(right, new Constant(1)));
            final Expression base = Simplified.times(Simplified.times(right, lowered), dl);
            final Expression exponent =
                    Simplified.times(Simplified.times(this, new Call(FunctionName.LN, left)), dr);
            return Simplified.plus(base, exponent);
        }

        @Override
        public Expression replace(Function<Symbol, Expression> by) {
            return new Binary(operator, left.replace(by), right.replace(by));
        }

        /** Long sums lean to the left: that side is walked in a loop, not deeper and deeper. */
        @Override
        public String text(Function<String, String> symbols) {
            final Deque<Binary> spine = new ArrayDeque<>();
            Expression innermost = this;
            while (innermost instanceof Binary binary) {
                spine.push(binary);
                innermost = binary.left;
            }
            final StringBuilder text = new StringBuilder(innermost.text(symbols));
            for (Binary b : spine) {
                if (!b.leftIsBare()) {
                    text.insert(0, '(').append(')');
                }
                text.append(b.operator.sign);
                final String on = b.right.text(symbols);
                text.append(b.rightIsBare() ? on : "(" + on + ")");
            }
            return text.toString();
        }

        private boolean leftIsBare() {
            return operator == Operator.POWER
                    ? left.binding() > operator.binding
                    : left.binding() >= operator.binding;
        }

        private boolean rightIsBare() {
            return operator == Operator.POWER
                    ? right.binding() >= operator.binding
                    : right.binding() > operator.binding;
        }

        @Override
        public int binding() {
            return operator.binding;
        }

        @Override
        public void collect(SortedSet<String> into) {
            left.collect(into);
            right.collect(into);
        }
    }

    /** A change of sign. */
    record Negated(Expression inner) implements Expression {
        @Override
        public double value(ToDoubleFunction<String> symbols) {
            return -inner.value(symbols);
        }

        @Override
        public Expression derivative(String symbol) {
            return Simplified.minus(new Constant(0), inner.derivative(symbol));
        }

        @Override
        public Expression replace(Function<Symbol, Expression> by) {
            return new Negated(inner.replace(by));
        }

        @Override
        public String text(Function<String, String> symbols) {
            return inner.binding() > 2
                    ? "-" + inner.text(symbols)
                    : "-(" + inner.text(symbols) + ")";
        }

        @Override
        public int binding() {
            return 3;
        }

        @Override
        public void collect(SortedSet<String> into) {
            inner.collect(into);
        }
    }

    /** The functions that an equation may use. */
    enum FunctionName {
        EXP("exp"),
        LN("ln"),
        LOG10("log10"),
        SQRT("sqrt");

        private final String word;

        FunctionName(String word) {
            this.word = word;
        }

        /** The name in an equation. */
        public String word() {
            return word;
        }

        /** Applies the function. */
        public double apply(double x) {
            return switch (this) {
                case EXP -> FastMath.exp(x);
                case LN -> FastMath.log(x);
                case LOG10 -> FastMath.log10(x);
                case SQRT -> Math.sqrt(x);
            };
        }
    }

    /** A function of one argument. */
    record Call(FunctionName function, Expression argument) implements Expression {
        @Override
        public double value(ToDoubleFunction<String> symbols) {
            return function.apply(argument.value(symbols));
        }

        @Override
        public Expression derivative(String symbol) {
            final Expression inner = argument.derivative(symbol);
            final Expression outer =
                    switch (function) {
                        case EXP -> this;
                        case LN -> Simplified.over(new Constant(1), argument);
                        case LOG10 ->
                                Simplified.over(
                                        new Constant(1),
                                        Simplified.times(argument, new Constant(FastMath.log(10))));
                        case SQRT -> Simplified.over(new Constant(0.5), this);
                    };
            return Simplified.times(outer, inner);
        }

        @Override
        public Expression replace(Function<Symbol, Expression> by) {
            return new Call(function, argument.replace(by));
        }

        @Override
        public String text(Function<String, String> symbols) {
            return function.word() + "(" + argument.text(symbols) + ")";
        }

        @Override
        public int binding() {
            return 5;
        }

        @Override
        public void collect(SortedSet<String> into) {
            argument.collect(into);
        }
    }
}
