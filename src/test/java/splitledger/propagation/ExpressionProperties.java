package splitledger.propagation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Label;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.lifecycle.BeforeTry;
import splitledger.propagation.Expression.Binary;
import splitledger.propagation.Expression.Call;
import splitledger.propagation.Expression.Constant;
import splitledger.propagation.Expression.FunctionName;
import splitledger.propagation.Expression.Negated;
import splitledger.propagation.Expression.Operator;
import splitledger.propagation.Expression.Symbol;

class ExpressionProperties {
    private static final List<String> SYMBOLS = List.of("a", "b", "c_2");

    private double a;
    private double b;
    private double c;

    @BeforeTry
    void reset() {
        a = b = c = 0;
    }

    private double of(String symbol) {
        return switch (symbol) {
            case "a" -> a;
            case "b" -> b;
            default -> c;
        };
    }

    @Property(tries = 1000)
    @Label("the text of a tree reads back as a tree of the same text and the same value")
    void textReadsBack(
            @ForAll("trees") Expression tree,
            @ForAll @DoubleRange(min = 0.2, max = 3) double x,
            @ForAll @DoubleRange(min = 0.2, max = 3) double y,
            @ForAll @DoubleRange(min = 0.2, max = 3) double z) {
        set(x, y, z);
        final String text = tree.text(s -> s);
        final Expression again = Given.parse(text);

        assertThat(again.text(s -> s)).isEqualTo(text);
        assertThat(again.value(this::of)).isEqualTo(Double.valueOf(tree.value(this::of)));
    }

    @Property(tries = 1000)
    @Label("derivatives agree with differences of values")
    void derivativesAgreeWithDifferences(
            @ForAll("trees") Expression tree,
            @ForAll @DoubleRange(min = 0.5, max = 2) double x,
            @ForAll @DoubleRange(min = 0.5, max = 2) double y,
            @ForAll @DoubleRange(min = 0.5, max = 2) double z) {
        set(x, y, z);
        final double exact = tree.derivative("a").value(this::of);
        final double third = tree.derivative("a").derivative("a").derivative("a").value(this::of);
        final double here = tree.value(this::of);
        final double h = 1e-5;
        a = x + h;
        final double above = tree.value(this::of);
        final double thirdAbove =
                tree.derivative("a").derivative("a").derivative("a").value(this::of);
        a = x - h;
        final double below = tree.value(this::of);
        final double thirdBelow =
                tree.derivative("a").derivative("a").derivative("a").value(this::of);
        // a kink or a pole nearby: no difference means anything there
        Assume.that(allFinite(exact, third, thirdAbove, thirdBelow, here, above, below));
        final double worst =
                Math.max(Math.abs(third), Math.max(Math.abs(thirdAbove), Math.abs(thirdBelow)));
        Assume.that(worst * h * h < 1e-3 * (Math.abs(exact) + 1e-6));

        // error of the difference: third derivative h^2 / 6, rounding of the values over h
        final double allowed =
                worst * h * h + 1e-13 / h * (Math.abs(here) + size(tree)) + 1e-12 * Math.abs(exact);
        assertThat((above - below) / (2 * h)).isCloseTo(exact, within(allowed));
    }

    @Property(tries = 500)
    @Label("blocks of trials give the values that single trials give")
    void blocksAgreeWithValues(
            @ForAll("trees") Expression tree, @ForAll("columns") double[][] columns) {
        final int n = columns[0].length;
        final BlockProgram program = new BlockProgram(tree, SYMBOLS, n);
        for (int run = 0; run < 2; run++) {
            final double[] found = program.run(columns, n);
            for (int i = 0; i < n; i++) {
                set(columns[0][i], columns[1][i], columns[2][i]);
                assertThat(found[i]).isEqualTo(Double.valueOf(tree.value(this::of)));
            }
        }
    }

    @Property
    @Label("a derivative by a symbol that does not occur is 0")
    void strangersDoNotMatter(@ForAll("trees") Expression tree) {
        set(1.1, 1.3, 0.7);
        final double slope = tree.derivative("stranger").value(this::of);
        Assume.that(!Double.isNaN(tree.value(this::of)));

        assertThat(slope).isIn(0.0, -0.0);
    }

    private void set(double x, double y, double z) {
        a = x;
        b = y;
        c = z;
    }

    private static boolean allFinite(double... values) {
        for (double v : values) {
            if (Double.isNaN(v) || Math.abs(v) > 1e12) {
                return false;
            }
        }
        return true;
    }

    /** Largest value of a part: what rounding is relative to when parts cancel. */
    private double size(Expression e) {
        double inner = 0;
        if (e instanceof Binary binary) {
            inner = Math.max(size(binary.left()), size(binary.right()));
        } else if (e instanceof Negated negated) {
            inner = size(negated.inner());
        } else if (e instanceof Call call) {
            inner = size(call.argument());
        }
        // a function may enlarge a relative error by its own steepness
        final double own = Math.abs(e.value(this::of));
        return Double.isNaN(own) ? inner : Math.max(own, inner) * (1 + inner);
    }

    @Provide
    Arbitrary<double[][]> columns() {
        return Arbitraries.doubles()
                .between(-3, 3)
                .array(double[].class)
                .ofSize(5)
                .array(double[][].class)
                .ofSize(3);
    }

    /** Trees up to five operations deep. */
    @Provide
    Arbitrary<Expression> trees() {
        return tree(4);
    }

    private static Arbitrary<Expression> tree(int depth) {
        final Arbitrary<Expression> leaf =
                Arbitraries.oneOf(
                        Arbitraries.of(SYMBOLS).map(Symbol::new),
                        Arbitraries.doubles()
                                .between(0, 3)
                                .ofScale(3)
                                .map(v -> (Expression) new Constant(v)));
        if (depth == 0) {
            return leaf;
        }
        final Arbitrary<Expression> inner = Arbitraries.lazy(() -> tree(depth - 1));
        return Arbitraries.frequencyOf(
                net.jqwik.api.Tuple.of(1, leaf),
                net.jqwik.api.Tuple.of(
                        4,
                        Combinators.combine(Arbitraries.of(Operator.class), inner, inner)
                                .as((o, l, r) -> (Expression) new Binary(o, l, r))),
                net.jqwik.api.Tuple.of(1, inner.map(i -> (Expression) new Negated(i))),
                net.jqwik.api.Tuple.of(
                        1,
                        Combinators.combine(Arbitraries.of(FunctionName.class), inner)
                                .as((f, i) -> (Expression) new Call(f, i))));
    }

    /** So that the list of values in a failure is short. */
    @Override
    public String toString() {
        return Map.of("a", a, "b", b, "c_2", c).toString();
    }
}
