package splitledger.propagation;

import java.util.ArrayList;
import java.util.List;
import splitledger.propagation.Expression.Binary;
import splitledger.propagation.Expression.Call;
import splitledger.propagation.Expression.Constant;
import splitledger.propagation.Expression.FunctionName;
import splitledger.propagation.Expression.Negated;
import splitledger.propagation.Expression.Operator;
import splitledger.propagation.Expression.Symbol;

/**
 * An expression laid out in postfix order for blocks of trials: each step works on whole arrays, so
 * that the tree is walked once a block and not once a trial. One instance serves one thread.
 */
final class BlockProgram {
    private sealed interface Step {
        record Load(int column) implements Step {}

        record Fixed(double value) implements Step {}

        record Two(Operator operator) implements Step {}

        record Minus() implements Step {}

        record Apply(FunctionName function) implements Step {}
    }

    private final List<Step> steps = new ArrayList<>();
    private final double[][] stack;

    /**
     * Lays out an expression.
     *
     * @param symbols names of the columns, in their order; must hold every symbol of the expression
     * @param block largest number of trials in one call
     */
    BlockProgram(Expression expression, List<String> symbols, int block) {
        final int depth = layOut(expression, symbols);
        stack = new double[depth][block];
    }

    /**
     * Runs the first {@code n} trials of the columns; the returned array is reused by the next
     * call.
     */
    double[] run(double[][] columns, int n) {
        int top = -1;
        for (Step step : steps) {
            if (step instanceof Step.Load load) {
                System.arraycopy(columns[load.column()], 0, stack[++top], 0, n);
            } else if (step instanceof Step.Fixed fixed) {
                java.util.Arrays.fill(stack[++top], 0, n, fixed.value());
            } else if (step instanceof Step.Two two) {
                top--;
                apply(two.operator(), stack[top], stack[top + 1], n);
            } else if (step instanceof Step.Minus) {
                final double[] a = stack[top];
                for (int i = 0; i < n; i++) {
                    a[i] = -a[i];
                }
            } else if (step instanceof Step.Apply call) {
                final double[] a = stack[top];
                for (int i = 0; i < n; i++) {
                    a[i] = call.function().apply(a[i]);
                }
            }
        }
        return stack[0];
    }

    private static void apply(Operator operator, double[] a, double[] b, int n) {
        switch (operator) {
            case PLUS -> {
                for (int i = 0; i < n; i++) {
                    a[i] += b[i];
                }
            }
            case MINUS -> {
                for (int i = 0; i < n; i++) {
                    a[i] -= b[i];
                }
            }
            case TIMES -> {
                for (int i = 0; i < n; i++) {
                    a[i] *= b[i];
                }
            }
            case OVER -> {
                for (int i = 0; i < n; i++) {
                    a[i] /= b[i];
                }
            }
            case POWER -> {
                for (int i = 0; i < n; i++) {
                    a[i] = operator.apply(a[i], b[i]);
                }
            }
        }
    }

    /** Appends the steps of a subtree and returns how many stack places it needs. */
    private int layOut(Expression e, List<String> symbols) {
        if (e instanceof Symbol s) {
            steps.add(new Step.Load(symbols.indexOf(s.name())));
            return 1;
        }
        if (e instanceof Constant c) {
            steps.add(new Step.Fixed(c.value()));
            return 1;
        }
        if (e instanceof Negated negated) {
            final int depth = layOut(negated.inner(), symbols);
            steps.add(new Step.Minus());
            return depth;
        }
        if (e instanceof Call call) {
            final int depth = layOut(call.argument(), symbols);
            steps.add(new Step.Apply(call.function()));
            return depth;
        }
        final Binary binary = (Binary) e;
        final int left = layOut(binary.left(), symbols);
        final int right = layOut(binary.right(), symbols);
        steps.add(new Step.Two(binary.operator()));
        return Math.max(left, 1 + right);
    }
}
