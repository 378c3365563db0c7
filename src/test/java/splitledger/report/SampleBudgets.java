package splitledger.report;

import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.MonteCarlo;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.SecondOrder;
import splitledger.propagation.Uncertain;
import splitledger.study.Budget;
import splitledger.study.Choice;
import splitledger.study.Trail;

/**
 * Invented budgets whose shares add up: slope and intercept correlate, so that one share is
 * negative.
 */
final class SampleBudgets {
    private static final double CORRELATION = -0.8;

    private SampleBudgets() {}

    static Budget of(String compound, String level) {
        final double size =
                switch (level) {
                    case "L1" -> 2;
                    case "L2" -> 5;
                    case "L6" -> 50;
                    default -> 80;
                };
        final double slope = 0.012 * size;
        final double intercept = 0.004 * size;
        final double precision = 0.02 * size + 0.05;
        final double stock = 0.006 * size;
        final double variance =
                slope * slope
                        + intercept * intercept
                        + 2 * CORRELATION * slope * intercept
                        + precision * precision
                        + stock * stock;
        final double u = Math.sqrt(variance);
        final double both = CORRELATION * slope * intercept;
        return new Budget(
                compound,
                level,
                "mass fraction in the oil",
                "(y - a) / b * V / oil * precision / R",
                result(size, slope, intercept, precision, stock),
                0.95,
                2.07,
                2.07 * u,
                List.of(
                        row(
                                "a",
                                Effect.MODEL,
                                ActsOn.CALIBRANT,
                                "intercept of the calibration line",
                                intercept,
                                100 * (intercept * intercept + both) / variance),
                        row(
                                "b",
                                Effect.MODEL,
                                ActsOn.CALIBRANT,
                                "slope of the calibration line",
                                slope,
                                100 * (slope * slope + both) / variance),
                        row(
                                "precision",
                                Effect.DAY,
                                ActsOn.SAMPLE,
                                "precision between days and analysts, mean of two results",
                                precision,
                                100 * precision * precision / variance),
                        row(
                                "stock",
                                Effect.STANDARD_AMOUNT,
                                ActsOn.CALIBRANT,
                                "",
                                stock,
                                100 * stock * stock / variance),
                        exactRow()),
                List.of(new Budget.Correlation("a", "b", CORRELATION, "fitted to the same points")),
                Optional.of(new SecondOrder(1.001 * u, 0)),
                level.equals("L2")
                        ? Optional.empty()
                        : Optional.of(
                                new MonteCarlo.Simulated(
                                        200_000,
                                        size,
                                        1.01 * u,
                                        !level.equals("L6"),
                                        size - 2.06 * u,
                                        size + 2.09 * u,
                                        size - 2.08 * u,
                                        size + 2.07 * u,
                                        level.equals("L1") ? 3 : 0,
                                        size,
                                        true,
                                        0.001 * u,
                                        new MonteCarlo.Histogram(
                                                size - 3 * u, 3 * u, List.of(0.1 / u, 0.2 / u)))),
                Optional.empty(),
                List.of(
                        new Choice(
                                "budget",
                                compound,
                                "The discrimination factor is set to 1.",
                                "calibrant and sample hold the same compound under the same"
                                        + " conditions",
                                "worked by hand")),
                new Trail(
                        List.of(
                                new Trail.Step(
                                        "Combined standard uncertainty",
                                        "u = sqrt(sum of squares and twice the covariances)",
                                        "sqrt(" + variance + ")",
                                        u,
                                        "mg/g"))));
    }

    private static Uncertain result(
            double size, double slope, double intercept, double precision, double stock) {
        final Pool line = new Pool("line", 16, "calibration");
        final Pool days = new Pool("days", 9, "precision study");
        final TreeMap<Root, Double> parts = new TreeMap<>();
        parts.put(root("line-1", line), slope + CORRELATION * intercept);
        parts.put(root("line-2", line), intercept * Math.sqrt(1 - CORRELATION * CORRELATION));
        parts.put(root("days-1", days), precision);
        parts.put(root("stock", Pool.known("stock", "certificate")), stock);
        return Uncertain.of(size, "mg/g", parts);
    }

    private static Root root(String id, Pool pool) {
        return Root.normal(id, pool, Effect.MODEL, ActsOn.CALIBRANT, "invented");
    }

    private static Budget.Row row(
            String symbol,
            Effect effect,
            ActsOn actsOn,
            String words,
            double contribution,
            double share) {
        return new Budget.Row(
                symbol,
                Optional.of(effect),
                Optional.of(actsOn),
                words,
                "study, invented",
                1.25,
                "1",
                contribution / 8,
                symbol.equals("stock") ? "B" : "A",
                symbol.equals("stock") ? "rectangular" : "t",
                symbol.equals("stock") ? Double.POSITIVE_INFINITY : 16,
                8,
                contribution,
                Optional.of(share));
    }

    private static Budget.Row exactRow() {
        return new Budget.Row(
                "V",
                Optional.empty(),
                Optional.empty(),
                SampleEvaluation.HOSTILE,
                SampleEvaluation.FORMULA,
                10,
                "mL",
                0,
                "B",
                "normal",
                Double.POSITIVE_INFINITY,
                5,
                0,
                Optional.of(0.0));
    }
}
