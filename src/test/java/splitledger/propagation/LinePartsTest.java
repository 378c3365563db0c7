package splitledger.propagation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static splitledger.statistics.Outcomes.value;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import splitledger.statistics.LineFit;
import splitledger.statistics.LineFitter;
import splitledger.statistics.Weighting;

class LinePartsTest {
    private static final double[] X = {1, 2, 3, 4, 5};
    private static final double[] Y = {10.1, 19.9, 30.2, 39.8, 50.1};

    private static LineFit fit(Weighting weighting, double[] x) {
        return value(LineFitter.withDefaults().withWeighting(weighting).fit(x, Y));
    }

    private static Root root(String id) {
        return Root.normal(
                id, Pool.known(id, id), Effect.STANDARD_AMOUNT, ActsOn.CALIBRANT, "worked by hand");
    }

    private static LineParts parts(LineFit line, Root root, double... sizes) {
        final List<Uncertain> amounts = new ArrayList<>();
        for (int i = 0; i < X.length; i++) {
            amounts.add(Uncertain.of(X[i], "mg/L", root, sizes[i]));
        }
        return LineParts.of(line, amounts, Y);
    }

    /** Against the difference of two fits at amounts moved by a millionth. */
    @ParameterizedTest
    @EnumSource
    void aPartIsTheDerivativeOfTheFit(Weighting weighting) {
        final LineFit line = fit(weighting, X);
        for (int i = 0; i < X.length; i++) {
            final double step = 1e-6;
            final double[] up = X.clone();
            final double[] down = X.clone();
            up[i] += step;
            down[i] -= step;
            final double[] sizes = new double[X.length];
            sizes[i] = 1;
            final LineParts parts = parts(line, root("one"), sizes);
            final double slope =
                    (fit(weighting, up).slope() - fit(weighting, down).slope()) / (2 * step);
            final double intercept =
                    (fit(weighting, up).intercept() - fit(weighting, down).intercept())
                            / (2 * step);

            assertThat(parts.slope().get(root("one"))).isCloseTo(slope, within(1e-7));
            assertThat(parts.intercept().get(root("one"))).isCloseTo(intercept, within(1e-7));
        }
    }

    @ParameterizedTest
    @EnumSource
    void aRelativeErrorOfAllAmountsMovesTheSlopeAlone(Weighting weighting) {
        final LineFit line = fit(weighting, X);
        final LineParts parts = parts(line, root("stock"), 0.01, 0.02, 0.03, 0.04, 0.05);

        assertThat(parts.slope().get(root("stock"))).isCloseTo(-0.01 * line.slope(), within(1e-13));
        assertThat(parts.intercept().get(root("stock"))).isCloseTo(0, within(1e-13));
    }

    /** Every amount too large by c: the line is shifted, its slope stays. */
    @Test
    void anErrorOfTheSameSizeEverywhereMovesTheInterceptAlone() {
        final LineFit line = fit(Weighting.NONE, X);
        final LineParts parts = parts(line, root("blank"), 0.1, 0.1, 0.1, 0.1, 0.1);

        assertThat(parts.slope().get(root("blank"))).isCloseTo(0, within(1e-13));
        assertThat(parts.intercept().get(root("blank")))
                .isCloseTo(-0.1 * line.slope(), within(1e-13));
    }

    @Test
    void theOrderOfThePointsDoesNotMatter() {
        final LineFit line = fit(Weighting.INVERSE_SQUARE, X);
        final List<Uncertain> amounts = new ArrayList<>();
        final List<Uncertain> turned = new ArrayList<>();
        final double[] y = new double[Y.length];
        for (int i = 0; i < X.length; i++) {
            amounts.add(Uncertain.of(X[i], "mg/L", root("level " + i / 2), 0.01 * (i + 1)));
            turned.add(0, amounts.get(i));
            y[Y.length - 1 - i] = Y[i];
        }
        final LineParts one = LineParts.of(line, amounts, Y);
        final LineParts other = LineParts.of(line, turned, y);

        one.slope().forEach((r, p) -> assertThat(other.slope().get(r)).isCloseTo(p, within(1e-15)));
        one.intercept()
                .forEach(
                        (r, p) -> assertThat(other.intercept().get(r)).isCloseTo(p, within(1e-15)));
    }

    @Test
    void theNumberOfAmountsMustBeThatOfThePoints() {
        final LineFit line = fit(Weighting.NONE, X);
        assertThatThrownBy(() -> LineParts.of(line, List.of(), Y))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("0 amounts");
    }

    /**
     * Worked by hand: x0 = (y0 - a)/b; a common relative error e of the amounts adds x0^2 e^2 to
     * u^2(x0), and amounts of two compounds from one stock share it.
     */
    @Test
    void anAmountReadOffTheLineCarriesTheSharedErrorAndItsSign() {
        final LineFit line = fit(Weighting.NONE, X);
        final LineParts shared = parts(line, root("stock"), 0.01, 0.02, 0.03, 0.04, 0.05);
        final Pool pool = new Pool("cal", 3, "scatter about the line");
        final WeightedLine exact =
                new WeightedLine("a", line, "mg/L", "pA s", pool, Optional.empty(), 1);
        final WeightedLine one =
                new WeightedLine("a", line, "mg/L", "pA s", pool, Optional.empty(), 1, shared);
        final WeightedLine two =
                new WeightedLine(
                        "b",
                        line,
                        "mg/L",
                        "pA s",
                        new Pool("other", 3, "scatter about another line"),
                        Optional.empty(),
                        1,
                        shared);
        final Uncertain plain = value(exact.predict(25, 1, "P", 0.95)).amount();
        final Uncertain found = value(one.predict(25, 1, "P", 0.95)).amount();
        final Uncertain other = value(two.predict(25, 1, "P", 0.95)).amount();
        final double x0 = found.value();

        assertThat(found.variance()).isCloseTo(plain.variance() + 1e-4 * x0 * x0, within(1e-14));
        assertThat(found.part(root("stock"))).isCloseTo(0.01 * x0, within(1e-14));
        assertThat(found.covariance(other)).isCloseTo(1e-4 * x0 * x0, within(1e-14));
        assertThat(value(one.predict(25, 1, "P", 0.95)).exact().standardUncertainty())
                .isCloseTo(found.standardUncertainty(), within(1e-13));
    }

    /** Without any scatter the exact interval's ends are where x0 (1 +- k e) puts them. */
    @Test
    void theExactIntervalHoldsTheSharedErrorToo() {
        final double[] straight = {10, 20, 30, 40, 50};
        final LineFit line = value(LineFitter.withDefaults().fit(X, straight));
        final List<Uncertain> amounts = new ArrayList<>();
        for (double x : X) {
            amounts.add(Uncertain.of(x, "mg/L", root("stock"), 0.01 * x));
        }
        final WeightedLine uncertain =
                new WeightedLine(
                        "a",
                        line,
                        "mg/L",
                        "pA s",
                        new Pool("cal", 3, "scatter about the line"),
                        Optional.empty(),
                        1,
                        LineParts.of(line, amounts, straight));
        final UncertainLine.Predicted found = value(uncertain.predict(25, 1, "P", 0.95));
        // (25 - 10 x)^2 <= (1.959964 * 0.1 x)^2
        final double k = 1.959963984540054;

        assertThat(found.exact().lower()).isCloseTo(25 / (10 + k * 0.1), within(1e-9));
        assertThat(found.exact().upper()).isCloseTo(25 / (10 - k * 0.1), within(1e-9));
        assertThat(uncertain.at(3).standardUncertainty()).isCloseTo(0.3, within(1e-12));
    }
}
