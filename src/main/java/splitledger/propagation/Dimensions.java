package splitledger.propagation;

import java.util.Optional;
import java.util.function.Function;
import splitledger.propagation.Expression.Binary;
import splitledger.propagation.Expression.Call;
import splitledger.propagation.Expression.Constant;
import splitledger.propagation.Expression.FunctionName;
import splitledger.propagation.Expression.Negated;
import splitledger.propagation.Expression.Operator;
import splitledger.propagation.Expression.Symbol;

/**
 * The unit that an equation gives from the units of its symbols. Numbers written in the equation
 * are pure numbers: whether 1000 is a dilution or a conversion between mL and L, the equation does
 * not say.
 */
public final class Dimensions {
    private Dimensions() {}

    /** What came out. */
    public sealed interface Found {}

    /** A unit; terms of a sum agree. */
    public record Known(Unit unit) implements Found {}

    /** A symbol's unit is not understood, or a power is not a whole number. */
    public record Unknown() implements Found {}

    /** Two terms of a sum, or an exponent or a function's argument, that do not fit, in words. */
    public record Clash(String words) implements Found {}

    /**
     * Walks the equation.
     *
     * @param units of the symbols; empty if not understood
     */
    public static Found of(Expression e, Function<String, Optional<Unit>> units) {
        if (e instanceof Constant) {
            return new Known(Unit.ONE);
        }
        if (e instanceof Symbol s) {
            return units.apply(s.name()).<Found>map(Known::new).orElseGet(Unknown::new);
        }
        if (e instanceof Negated n) {
            return of(n.inner(), units);
        }
        if (e instanceof Call call) {
            return call(call, of(call.argument(), units));
        }
        final Binary b = (Binary) e;
        final Found left = of(b.left(), units);
        final Found right = of(b.right(), units);
        if (left instanceof Clash) {
            return left;
        }
        if (right instanceof Clash || !(left instanceof Known l)) {
            return right instanceof Clash ? right : left;
        }
        return right instanceof Known r ? binary(b, l.unit(), r.unit()) : right;
    }

    /** Product of the numbers that the whole equation is multiplied and divided by. */
    public static double number(Expression e) {
        if (e instanceof Constant c) {
            return c.value();
        }
        if (e instanceof Negated n) {
            return -number(n.inner());
        }
        if (e instanceof Binary b && b.operator() == Operator.TIMES) {
            return number(b.left()) * number(b.right());
        }
        if (e instanceof Binary b && b.operator() == Operator.OVER) {
            return number(b.left()) / number(b.right());
        }
        return 1;
    }

    private static Found call(Call call, Found argument) {
        if (!(argument instanceof Known known)) {
            return argument;
        }
        if (call.function() == FunctionName.SQRT) {
            return known.unit().powers().isEmpty()
                    ? new Known(new Unit(Math.sqrt(known.unit().factor()), known.unit().powers()))
                    : new Unknown();
        }
        return known.unit().powers().isEmpty()
                ? new Known(Unit.ONE)
                : new Clash(call.text(s -> s) + " is taken of a quantity with a unit");
    }

    private static Found binary(Binary b, Unit left, Unit right) {
        return switch (b.operator()) {
            case TIMES -> new Known(left.times(right));
            case OVER -> new Known(left.times(right.inverse()));
            case POWER -> power(b, left);
            case PLUS, MINUS -> sum(b, left, right);
        };
    }

    private static Found power(Binary b, Unit base) {
        if (b.right() instanceof Constant c
                && c.value() == Math.rint(c.value())
                && Math.abs(c.value()) < 10) {
            return new Known(base.raised((int) c.value()));
        }
        return base.powers().isEmpty() && base.factor() == 1 ? new Known(base) : new Unknown();
    }

    private static Found sum(Binary b, Unit left, Unit right) {
        final boolean sameSize =
                Math.abs(left.factor() - right.factor()) <= 1e-9 * Math.abs(left.factor());
        if (left.isLike(right) && sameSize) {
            return new Known(left);
        }
        final String terms = b.left().text(s -> s) + " and " + b.right().text(s -> s);
        return new Clash(
                left.isLike(right)
                        ? terms + " are added in units of different size"
                        : terms + " are added, but their units are of different kinds");
    }
}
