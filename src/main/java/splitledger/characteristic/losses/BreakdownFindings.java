package splitledger.characteristic.losses;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import splitledger.propagation.Uncertain;
import splitledger.statistics.Moments;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.Quantiles;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Trail;

/** The breakdown of one parent under every condition, on one basis. */
final class BreakdownFindings {
    private static final double PERCENT = 100;

    private final LossOptions options;
    private final LossRows rows;
    private final double coverage;
    private final LossFindings to;

    BreakdownFindings(LossOptions options, LossRows rows, double coverage, LossFindings to) {
        this.options = options;
        this.rows = rows;
        this.coverage = coverage;
        this.to = to;
    }

    /** Adds them. */
    void add(LossBasis basis) {
        for (LossRows.Group g : rows.groups()) {
            final Key key = to.conditioned(to.key("breakdown", basis.method()), g);
            final Finding made =
                    Finding.of(
                            key,
                            g.hidden() ? bound(basis, g) : measured(basis, g),
                            g.rows(),
                            note(basis, g));
            to.add(g.hidden() ? made : made.with(worked(basis, g)));
        }
        if (rows.groups().isEmpty()) {
            to.add(
                    to.key("breakdown", basis.method()),
                    Answers.not("%", Reason.NO_ROWS, "no injection holds the parent"),
                    "");
        }
    }

    private Answer measured(LossBasis basis, LossRows.Group g) {
        final Uncertain x = basis.of(g);
        return x.roots().isEmpty()
                ? new Answer.Statistic(PERCENT * x.value(), "%")
                : Answers.student(x.scaled(PERCENT, "%"), coverage);
    }

    /** From what was seen to what can have been there, each end with the scatter of injections. */
    private Answer bound(LossBasis basis, LossRows.Group g) {
        final double low = Moments.ofAll(basis.values(g)).mean();
        final double high = Arrays.stream(basis.atMost(g)).average().orElse(Double.NaN);
        final double half =
                basis.law()
                        .fold(
                                l -> {
                                    final double at = Math.abs(low * (1 - low));
                                    return Quantiles.coverageFactor(
                                                    coverage, l.degreesOfFreedom(at))
                                            * Math.sqrt(l.variance(at) / g.shots().size());
                                },
                                not -> 0.0);
        final double lower = Math.max(0, basis.without(low) - half);
        return new Answer.Bound(
                OptionalDouble.empty(),
                "%",
                lower > 0 ? OptionalDouble.of(PERCENT * lower) : OptionalDouble.empty(),
                Double.isNaN(high)
                        ? OptionalDouble.empty()
                        : OptionalDouble.of(PERCENT * (basis.without(high) + half)),
                coverage,
                "product-not-found",
                "a product was not found in some injection: its area lies between 0 and what the"
                        + " integrator lets pass (the option threshold, else the smallest area of a"
                        + " product that was found)");
    }

    private String note(LossBasis basis, LossRows.Group g) {
        final List<String> words = new ArrayList<>();
        if (!g.hidden() && basis.of(g).roots().isEmpty()) {
            words.add(
                    g.shots().size() == 1
                            ? "one injection and no other repeated: no uncertainty can be given"
                            : "the injections agree exactly: no uncertainty can be told from them");
        }
        if (basis.isCorrected()) {
            words.add(
                    options.responseUncertainty().isPresent()
                            ? "each product divided by its response relative to the parent's"
                            : "each product divided by its response relative to the parent's, taken as"
                                    + " exact: response-uncertainty is not stated");
        } else {
            words.add(
                    "of areas as they are, as the limits of others have it; a limit that is passed asks"
                            + " for work at the bench (liner, seal, temperature), never for corrected"
                            + " results");
        }
        return String.join(". ", words);
    }

    private Trail worked(LossBasis basis, LossRows.Group g) {
        final LossRows.Shot shot = g.shots().get(0);
        final List<String> sum = new ArrayList<>();
        for (double area : shot.areas()) {
            sum.add(Trail.signed(area));
        }
        return new Trail(
                List.of(
                        new Trail.Step(
                                "Breakdown of the first injection"
                                        + (basis.method().equals("raw")
                                                ? ""
                                                : ", before it is corrected ("
                                                        + basis.method()
                                                        + ")"),
                                "sum of products / (parent + sum of products)",
                                "("
                                        + String.join(" + ", sum)
                                        + ") / ("
                                        + Trail.digits(shot.parentArea())
                                        + " + "
                                        + String.join(" + ", sum)
                                        + ")",
                                rawShare(shot) * PERCENT,
                                "%"),
                        new Trail.Step(
                                "Mean of all injections under this condition, corrected as the method says",
                                "mean of x",
                                g.shots().size()
                                        + (g.shots().size() == 1 ? " injection" : " injections"),
                                basis.of(g).value() * PERCENT,
                                "%")));
    }

    private static double rawShare(LossRows.Shot shot) {
        final double products = shot.areas().stream().mapToDouble(Double::doubleValue).sum();
        return products / (shot.parentArea() + products);
    }
}
