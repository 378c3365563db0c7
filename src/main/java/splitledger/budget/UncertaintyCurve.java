package splitledger.budget;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import splitledger.propagation.Uncertain;
import splitledger.study.Answer;
import splitledger.study.Budget;
import splitledger.study.Doubles;
import splitledger.study.Figure;
import splitledger.study.Figure.Axis;
import splitledger.study.Figure.Role;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Rows;

/**
 * How the uncertainty grows with the result: u(c) = sqrt(u0^2 + (u1 c)^2), fitted to the budgets of
 * a compound's levels by least squares on u^2 relative to u^2, with neither part below 0
 * (Eurachem/CITAC guide QUAM, 3rd ed., appendix E.5: s0 and x1 there).
 *
 * @param constant u0, in the unit of the measurand
 * @param proportional u1
 * @param largest largest relative difference of a level's u from the curve
 */
record UncertaintyCurve(double constant, double proportional, double largest) {
    private static final int LEAST = 3;
    private static final int STEPS = 60;

    /** The curve; empty with fewer than 3 levels or without any uncertainty. */
    static Optional<UncertaintyCurve> of(List<Budget> budgets) {
        final double[] x = new double[budgets.size()];
        final double[] y = new double[budgets.size()];
        for (int i = 0; i < x.length; i++) {
            final Uncertain r = budgets.get(i).result();
            x[i] = r.value() * r.value();
            y[i] = r.variance();
        }
        final boolean positive = java.util.Arrays.stream(y).allMatch(v -> v > 0);
        if (x.length < LEAST || !positive) {
            return Optional.empty();
        }
        final double[] ab = fit(x, y);
        double largest = 0;
        for (int i = 0; i < x.length; i++) {
            largest = Math.max(largest, Math.abs(Math.sqrt((ab[0] + ab[1] * x[i]) / y[i]) - 1));
        }
        return Optional.of(new UncertaintyCurve(Math.sqrt(ab[0]), Math.sqrt(ab[1]), largest));
    }

    /** y = a + b x with weights 1/y^2 and neither coefficient below 0. */
    private static double[] fit(double[] x, double[] y) {
        double sw = 0;
        double swx = 0;
        double swxx = 0;
        double swy = 0;
        double swxy = 0;
        for (int i = 0; i < x.length; i++) {
            final double w = 1 / (y[i] * y[i]);
            sw += w;
            swx += w * x[i];
            swxx += w * x[i] * x[i];
            swy += w * y[i];
            swxy += w * x[i] * y[i];
        }
        final double d = sw * swxx - swx * swx;
        final double b = d > 0 ? (sw * swxy - swx * swy) / d : 0;
        final double a = (swy - b * swx) / sw;
        if (b < 0) {
            return new double[] {swy / sw, 0};
        }
        return a < 0 ? new double[] {0, swxy / swxx} : new double[] {a, b};
    }

    /** u at a result. */
    double at(double c) {
        return Math.sqrt(constant * constant + proportional * proportional * c * c);
    }

    /** The findings of a compound's curve, or why there is none. */
    static List<Finding> findings(String compound, List<Budget> budgets, String unit) {
        final Key u0 = Key.of(Budgets.ID, compound, "uncertainty-constant", Results.LAW);
        final Key u1 = Key.of(Budgets.ID, compound, "uncertainty-proportional", Results.LAW);
        final Optional<UncertaintyCurve> curve = of(budgets);
        if (curve.isEmpty()) {
            final String why = "needs an uncertainty at " + LEAST + " levels or more";
            return List.of(
                    Finding.of(
                            u0,
                            new Answer.NotEstimable(unit, "too-few-levels", why),
                            Rows.NONE,
                            ""),
                    Finding.of(
                            u1,
                            new Answer.NotEstimable("1", "too-few-levels", why),
                            Rows.NONE,
                            ""));
        }
        final String note =
                "u(c) = sqrt(u0^2 + (u1 c)^2) within "
                        + String.format(Locale.ROOT, "%.1f %%", 100 * curve.get().largest())
                        + " of the standard uncertainty at every level";
        return List.of(
                Finding.of(u0, new Answer.Statistic(curve.get().constant(), unit), Rows.NONE, note),
                Finding.of(
                        u1,
                        new Answer.Statistic(curve.get().proportional(), "1"),
                        Rows.NONE,
                        note));
    }

    /** The levels' uncertainties with the curve. */
    static Optional<Figure> figure(String compound, List<Budget> budgets, String unit) {
        final Optional<UncertaintyCurve> curve = of(budgets);
        if (curve.isEmpty()) {
            return Optional.empty();
        }
        final int n = budgets.size();
        final double[] c = new double[n];
        final double[] u = new double[n];
        double most = 0;
        double highest = 0;
        for (int i = 0; i < n; i++) {
            c[i] = budgets.get(i).result().value();
            u[i] = budgets.get(i).result().standardUncertainty();
            most = Math.max(most, c[i]);
            highest = Math.max(highest, Math.max(u[i], curve.get().at(c[i])));
        }
        final double[] cx = new double[STEPS + 1];
        final double[] uy = new double[STEPS + 1];
        for (int i = 0; i <= STEPS; i++) {
            cx[i] = most * i / STEPS;
            uy[i] = curve.get().at(cx[i]);
        }
        final List<Figure.Layer> layers =
                List.of(
                        new Figure.Line("curve", Role.FIT, Doubles.of(cx), Doubles.of(uy)),
                        new Figure.Points(
                                "levels",
                                Role.DATA,
                                Doubles.of(c),
                                Doubles.of(u),
                                budgets.stream().map(Budget::level).toList()));
        return Optional.of(
                new Figure(
                        Figure.safeId("uncertainty", compound),
                        Budgets.ID,
                        compound,
                        "Standard uncertainty against the result, " + compound,
                        "Each point is the budget of a level; the curve joins a constant part, which rules near 0, with a"
                                + " proportional one, which rules at the top. Between levels read the uncertainty off the curve.",
                        "Standard uncertainty at " + n + " levels with the curve through them.",
                        Axis.covering(budgets.get(0).name(), unit, 0, most),
                        Axis.covering("standard uncertainty", unit, 0, highest),
                        layers));
    }
}
