package splitledger.study;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import splitledger.base.Numbers;
import splitledger.propagation.Comparison;
import splitledger.propagation.MonteCarlo.Simulated;

/** What the law of propagation and Monte Carlo say of one budget, and which of them to quote. */
public final class MethodsCompared {
    private static final int FEW_FREEDOM = 4;
    private static final double LEANING = 0.05;

    private MethodsCompared() {}

    /** Sentences; empty if Monte Carlo was not run. */
    public static String words(Budget budget) {
        if (budget.simulated().isEmpty() || budget.comparison().isEmpty()) {
            return "";
        }
        final Simulated trials = budget.simulated().get();
        final Comparison c = budget.comparison().get();
        final List<String> sentences = new ArrayList<>();
        sentences.add(agreement(budget, trials, c));
        if (!c.reasons().isEmpty()) {
            sentences.add(
                    (c.validated() ? "What tells them apart at all: " : "Why: ")
                            + String.join(
                                    "; ", c.reasons().stream().map(r -> reason(budget, r)).toList())
                            + ".");
        }
        if (!trials.settled() && trials.trials() > 1) {
            sentences.add(
                    "The trials ended at "
                            + trials.trials()
                            + " before their ends had settled to two digits of the standard uncertainty.");
        }
        return String.join(" ", sentences);
    }

    /** One clause beside the result where Monte Carlo does not confirm its U; else empty. */
    public static String warning(Budget budget) {
        final boolean confirmed = budget.comparison().map(Comparison::validated).orElse(true);
        return budget.simulated()
                .filter(s -> !confirmed)
                .map(
                        s ->
                                "Monte Carlo does not confirm U: quote its interval, "
                                        + ends(s.lower(), s.upper(), budget)
                                        + unit(budget))
                .orElse("");
    }

    private static String unit(Budget budget) {
        return budget.result().unit().equals("1") ? "" : " " + budget.result().unit();
    }

    private static String agreement(Budget budget, Simulated trials, Comparison c) {
        final String unit = unit(budget);
        final String differences =
                digits(c.lowerDifference())
                        + " and "
                        + digits(c.upperDifference())
                        + unit
                        + " (Monte Carlo minus law of propagation, lower and upper end)";
        if (c.validated()) {
            return "Both methods agree: the ends of their intervals differ by "
                    + differences
                    + ", no more than "
                    + allowed(budget, trials, c)
                    + " (JCGM 101:2008, clause 8)."
                    + " Quote value and U of the law of propagation.";
        }
        final boolean leans =
                c.reasons().stream()
                        .anyMatch(
                                r ->
                                        r.kind() == Comparison.Kind.SKEWNESS
                                                && Math.abs(r.size()) > LEANING);
        return "The methods differ: the ends of their intervals are apart by "
                + differences
                + ", more than "
                + allowed(budget, trials, c)
                + " (JCGM 101:2008, clause 8). Quote the Monte Carlo interval, "
                + ends(trials.lower(), trials.upper(), budget)
                + unit
                + (leans
                        ? " with equal tails, or the shortest, "
                                + ends(trials.shortestLower(), trials.shortestUpper(), budget)
                                + unit
                        : "")
                + ", in place of value and U.";
    }

    private static String allowed(Budget budget, Simulated trials, Comparison c) {
        return "half a unit of the last meaningful digit of the standard uncertainty, "
                + digits(c.tolerance())
                + unit(budget)
                + (trials.endError() > 0
                        ? ", and twice the trials' own error of "
                                + digits(trials.endError())
                                + unit(budget)
                        : "");
    }

    private static String reason(Budget budget, Comparison.Reason r) {
        final String unit = unit(budget);
        return switch (r.kind()) {
            case SHIFT ->
                    "the equation is curved over the range of its inputs, which moves the centre by "
                            + digits(r.size())
                            + unit;
            case CURVATURE ->
                    Double.isInfinite(r.size())
                            ? "the equation is flat at the values of its inputs, so that to first order there"
                                    + " is no uncertainty"
                            : "the equation is curved over the range of its inputs: with terms of second order"
                                    + " the standard uncertainty is "
                                    + digits(r.size())
                                    + " times as large";
            case SKEWNESS ->
                    "the distribution has a longer tail towards "
                            + (r.size() > 0 ? "large" : "small")
                            + " values";
            case SHAPE ->
                    digits(100 * r.size())
                            + " % of the variance comes from inputs that are "
                            + r.about()
                            + ", not normal";
            case FEW_DEGREES_OF_FREEDOM ->
                    "variance estimates with few degrees of freedom follow t distributions, whose standard"
                            + " deviation is larger by the root of nu/(nu - 2)"
                            + (Double.isInfinite(r.size())
                                    ? " and does not exist at 2 or fewer"
                                    : ": together "
                                            + digits(r.size())
                                            + " times the standard uncertainty of the law. That is no"
                                            + " difference of the intervals by itself");
        };
    }

    private static String ends(double lower, double upper, Budget budget) {
        final double u = budget.result().standardUncertainty();
        final double size = u > 0 ? u : (upper - lower) / FEW_FREEDOM;
        return atPlaceOf(lower, size) + " to " + atPlaceOf(upper, size);
    }

    /** A number at the second digit of an uncertainty. */
    private static String atPlaceOf(double number, double u) {
        if (!(u > 0)) {
            return Numbers.text(number);
        }
        final BigDecimal like = new BigDecimal(u).round(new MathContext(2));
        return Numbers.text(
                new BigDecimal(number)
                        .setScale(like.scale(), java.math.RoundingMode.HALF_EVEN)
                        .doubleValue());
    }

    private static String digits(double value) {
        return Double.isInfinite(value)
                ? "infinitely many"
                : Numbers.text(new BigDecimal(value).round(new MathContext(2)).doubleValue());
    }
}
