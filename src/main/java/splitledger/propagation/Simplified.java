package splitledger.propagation;

import splitledger.propagation.Expression.Binary;
import splitledger.propagation.Expression.Constant;
import splitledger.propagation.Expression.Operator;

/**
 * Builders of expressions that fold numbers and drop zeros and ones, so that derivatives stay
 * small.
 */
final class Simplified {
    private Simplified() {}

    static Expression plus(Expression a, Expression b) {
        return is(a, 0) ? b : is(b, 0) ? a : folded(Operator.PLUS, a, b);
    }

    static Expression minus(Expression a, Expression b) {
        return is(b, 0) ? a : folded(Operator.MINUS, a, b);
    }

    static Expression times(Expression a, Expression b) {
        if (is(a, 0) || is(b, 0)) {
            return new Constant(0);
        }
        return is(a, 1) ? b : is(b, 1) ? a : folded(Operator.TIMES, a, b);
    }

    static Expression over(Expression a, Expression b) {
        if (is(a, 0)) {
            return new Constant(0);
        }
        return is(b, 1) ? a : folded(Operator.OVER, a, b);
    }

    static Expression power(Expression a, Expression b) {
        if (is(b, 0)) {
            return new Constant(1);
        }
        return is(b, 1) ? a : folded(Operator.POWER, a, b);
    }

    private static Expression folded(Operator operator, Expression a, Expression b) {
        if (a instanceof Constant x && b instanceof Constant y) {
            return new Constant(operator.apply(x.value(), y.value()));
        }
        return new Binary(operator, a, b);
    }

    private static boolean is(Expression e, double number) {
        return e instanceof Constant c && c.value() == number;
    }
}
