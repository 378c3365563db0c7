package splitledger.propagation;

import java.util.function.Function;
import org.apache.commons.math3.util.FastMath;
import splitledger.propagation.Expression.Binary;
import splitledger.propagation.Expression.Call;
import splitledger.propagation.Expression.Constant;
import splitledger.propagation.Expression.FunctionName;
import splitledger.propagation.Expression.Negated;
import splitledger.propagation.Expression.Symbol;

/**
 * A value of an expression with its Taylor coefficients along two directions s and t, exact to
 * first order in s and second order in t: {@code sum c(i, j) s^i t^j}, i up to 1, j up to 2. The
 * tree is walked once with these in place of numbers; nothing is differenced.
 */
final class Jet {
    private static final int T = 3;

    private final double[] c;

    private Jet(double[] c) {
        this.c = c;
    }

    /** A number. */
    static Jet constant(double value) {
        return new Jet(new double[] {value, 0, 0, 0, 0, 0});
    }

    /** A value that moves by {@code alongS} s + {@code alongT} t. */
    static Jet moving(double value, double alongS, double alongT) {
        return new Jet(new double[] {value, alongT, 0, alongS, 0, 0});
    }

    /** The expression along both directions. */
    static Jet of(Expression e, Function<String, Jet> symbols) {
        if (e instanceof Constant constant) {
            return constant(constant.value());
        }
        if (e instanceof Symbol symbol) {
            return symbols.apply(symbol.name());
        }
        if (e instanceof Negated negated) {
            return of(negated.inner(), symbols).scaled(-1);
        }
        if (e instanceof Call call) {
            return of(call.argument(), symbols).through(call.function());
        }
        final Binary binary = (Binary) e;
        final Jet left = of(binary.left(), symbols);
        final Jet right = of(binary.right(), symbols);
        return switch (binary.operator()) {
            case PLUS -> left.plus(right, 1);
            case MINUS -> left.plus(right, -1);
            case TIMES -> left.times(right);
            case OVER -> left.times(right.power(-1));
            case POWER ->
                    right.isConstant()
                            ? left.power(right.c[0])
                            : right.times(left.through(FunctionName.LN)).through(FunctionName.EXP);
        };
    }

    /** First derivative along s. */
    double first() {
        return c[T];
    }

    /** Mixed second derivative along s and t. */
    double second() {
        return c[T + 1];
    }

    /** Third derivative, once along s and twice along t. */
    double third() {
        return 2 * c[T + 2];
    }

    private boolean isConstant() {
        for (int i = 1; i < c.length; i++) {
            if (c[i] != 0) {
                return false;
            }
        }
        return true;
    }

    private Jet scaled(double factor) {
        final double[] r = new double[c.length];
        for (int i = 0; i < r.length; i++) {
            r[i] = factor * c[i];
        }
        return new Jet(r);
    }

    private Jet plus(Jet other, double sign) {
        final double[] r = new double[c.length];
        for (int i = 0; i < r.length; i++) {
            r[i] = c[i] + sign * other.c[i];
        }
        return new Jet(r);
    }

    private Jet times(Jet other) {
        final double[] a = c;
        final double[] b = other.c;
        final double[] r = new double[a.length];
        for (int j = 0; j < T; j++) {
            for (int k = 0; k <= j; k++) {
                r[j] += a[k] * b[j - k];
                r[T + j] += a[T + k] * b[j - k] + a[k] * b[T + j - k];
            }
        }
        return new Jet(r);
    }

    /** f(value + d) = f + f' d + f''/2 d^2 + f'''/6 d^3; d^4 is beyond the orders kept. */
    private Jet composed(double f, double f1, double f2, double f3) {
        final double[] d = c.clone();
        d[0] = 0;
        final Jet d1 = new Jet(d);
        final Jet d2 = d1.times(d1);
        final Jet sum = d1.scaled(f1).plus(d2, f2 / 2).plus(d2.times(d1), f3 / 6);
        sum.c[0] = f;
        return sum;
    }

    private Jet power(double p) {
        final double x = c[0];
        return composed(
                raised(1, x, p),
                raised(p, x, p - 1),
                raised(p * (p - 1), x, p - 2),
                raised(p * (p - 1) * (p - 2), x, p - 3));
    }

    private static double raised(double factor, double x, double p) {
        return factor == 0 ? 0 : factor * FastMath.pow(x, p);
    }

    private Jet through(FunctionName function) {
        final double x = c[0];
        final double f = function.apply(x);
        return switch (function) {
            case EXP -> composed(f, f, f, f);
            case LN -> composed(f, 1 / x, -1 / (x * x), 2 / (x * x * x));
            case LOG10 -> through(FunctionName.LN).scaled(1 / FastMath.log(10));
            case SQRT -> power(0.5);
        };
    }
}
