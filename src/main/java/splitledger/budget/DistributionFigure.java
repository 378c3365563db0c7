package splitledger.budget;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import splitledger.propagation.MonteCarlo.Histogram;
import splitledger.propagation.MonteCarlo.Simulated;
import splitledger.statistics.Quantiles;
import splitledger.study.Budget;
import splitledger.study.Doubles;
import splitledger.study.Figure;
import splitledger.study.Figure.Axis;
import splitledger.study.Figure.Role;
import splitledger.study.Trail;

/** How the result is distributed by both methods, with the ends of their intervals. */
final class DistributionFigure {
    private static final int POINTS = 121;

    private DistributionFigure() {}

    /** The figure; empty without trials or if the trials do not scatter. */
    static Optional<Figure> of(Budget budget) {
        return budget.simulated()
                .filter(s -> !s.histogram().densities().isEmpty())
                .map(s -> figure(budget, s));
    }

    private static Figure figure(Budget budget, Simulated trials) {
        final double value = budget.result().value();
        final double u = budget.result().standardUncertainty();
        final double df = budget.result().degreesOfFreedom();
        final Histogram h = trials.histogram();
        final double end = h.from() + h.step() * h.densities().size();
        final double from = Math.min(h.from(), value - budget.expanded());
        final double to = Math.max(end, value + budget.expanded());
        double most = h.densities().stream().mapToDouble(Double::doubleValue).max().orElse(1);
        final double[] x = new double[u > 0 ? POINTS : 0];
        final double[] y = new double[x.length];
        for (int i = 0; i < x.length; i++) {
            x[i] = from + (to - from) * i / (POINTS - 1);
            y[i] = Quantiles.tDensity((x[i] - value) / u, df) / u;
            most = Math.max(most, y[i]);
        }
        final Axis across = Axis.covering(budget.name(), plain(budget), from, to);
        final Axis up = Axis.covering("probability density", perUnit(plain(budget)), 0, most);
        final List<Figure.Layer> layers = new ArrayList<>();
        layers.add(steps(h));
        if (u > 0) {
            final String law = Double.isInfinite(df) ? "normal density" : "t density";
            layers.add(
                    new Figure.Line(
                            "law of propagation, " + law, Role.FIT, Doubles.of(x), Doubles.of(y)));
            ends(
                    layers,
                    "value ± U",
                    Role.CONFIDENCE,
                    value - budget.expanded(),
                    value + budget.expanded(),
                    most);
        }
        ends(
                layers,
                "Monte Carlo interval, equal tails",
                Role.REFERENCE,
                trials.lower(),
                trials.upper(),
                most);
        return new Figure(
                Figure.safeId("distribution", budget.compound() + " " + budget.level()),
                Budgets.ID,
                budget.compound(),
                "How the result is distributed, " + ShareFigure.about(budget),
                "Where the curve follows the steps, value and U say all there is; where it does not, the Monte"
                        + " Carlo interval is the one to quote.",
                alternative(budget, trials),
                across,
                up,
                layers);
    }

    private static Figure.Band steps(Histogram h) {
        final int n = h.densities().size();
        final double[] x = new double[2 * n];
        final double[] top = new double[2 * n];
        for (int i = 0; i < n; i++) {
            x[2 * i] = h.from() + i * h.step();
            x[2 * i + 1] = h.from() + (i + 1) * h.step();
            top[2 * i] = h.densities().get(i);
            top[2 * i + 1] = top[2 * i];
        }
        return new Figure.Band(
                "Monte Carlo trials",
                Role.DATA,
                Doubles.of(x),
                Doubles.of(new double[2 * n]),
                Doubles.of(top));
    }

    private static void ends(
            List<Figure.Layer> layers,
            String name,
            Role role,
            double lower,
            double upper,
            double most) {
        // one line with a gap, so that both ends carry one name
        layers.add(
                new Figure.Line(
                        name,
                        role,
                        Doubles.of(lower, lower, Double.NaN, upper, upper),
                        Doubles.of(0, most, Double.NaN, 0, most)));
    }

    private static String alternative(Budget budget, Simulated trials) {
        final double value = budget.result().value();
        return String.format(
                Locale.ROOT,
                "Law of propagation: %s to %s; Monte Carlo: %s to %s%s.",
                Trail.digits(value - budget.expanded()),
                Trail.digits(value + budget.expanded()),
                Trail.digits(trials.lower()),
                Trail.digits(trials.upper()),
                plain(budget).isEmpty() ? "" : " " + plain(budget));
    }

    /** The unit of a density. */
    private static String perUnit(String unit) {
        if (unit.isEmpty()) {
            return "";
        }
        return unit.matches("\\w+") ? "1/" + unit : "1/(" + unit + ")";
    }

    private static String plain(Budget budget) {
        return budget.result().unit().equals("1") ? "" : budget.result().unit();
    }
}
