package splitledger.budget;

import java.util.List;
import splitledger.study.Card;
import splitledger.study.Card.Kind;
import splitledger.study.Card.Quantity;

/** Quantities of results and budgets. */
final class BudgetCard {
    private static final List<String> CONDITIONS =
            List.of(
                    "evidence",
                    "injection",
                    "level",
                    "preparation",
                    "recovery",
                    "replicates",
                    "sample",
                    "source");

    private static final Card CARD =
            new Card(
                    Budgets.ID,
                    "Results and their uncertainty",
                    "What is the uncertainty of each result, and where does it come from?",
                    List.of(),
                    List.of(
                            quantity(
                                    "result",
                                    Kind.ESTIMATE,
                                    "of the measurand",
                                    "The reported value."),
                            quantity(
                                    "combined-standard-uncertainty",
                                    Kind.STATISTIC,
                                    "of the measurand",
                                    "u by the law of propagation."),
                            quantity(
                                    "effective-degrees-of-freedom",
                                    Kind.STATISTIC,
                                    "1",
                                    "By pools."),
                            quantity("coverage-factor", Kind.STATISTIC, "1", "k."),
                            quantity(
                                    "expanded-uncertainty",
                                    Kind.STATISTIC,
                                    "of the measurand",
                                    "U = k u."),
                            quantity(
                                    "relative-expanded-uncertainty",
                                    Kind.STATISTIC,
                                    "%",
                                    "U relative to the result."),
                            quantity(
                                    "second-order-standard-uncertainty",
                                    Kind.STATISTIC,
                                    "of the measurand",
                                    "u by the law of propagation with terms of second order."),
                            quantity(
                                    "mc-lower",
                                    Kind.STATISTIC,
                                    "of the measurand",
                                    "Lower end by Monte Carlo."),
                            quantity(
                                    "mc-upper",
                                    Kind.STATISTIC,
                                    "of the measurand",
                                    "Upper end by Monte Carlo."),
                            quantity(
                                    "mc-standard-uncertainty",
                                    Kind.STATISTIC,
                                    "of the measurand",
                                    "Standard deviation of the trials."),
                            quantity(
                                    "mc-shortest-lower",
                                    Kind.STATISTIC,
                                    "of the measurand",
                                    "Lower end of the shortest interval by Monte Carlo."),
                            quantity(
                                    "mc-shortest-upper",
                                    Kind.STATISTIC,
                                    "of the measurand",
                                    "Upper end of the shortest interval by Monte Carlo."),
                            quantity(
                                    "propagation-validated",
                                    Kind.STATISTIC,
                                    "1",
                                    "1 if both methods agree, else 0."),
                            quantity(
                                    "uncertainty-constant",
                                    Kind.STATISTIC,
                                    "of the measurand",
                                    "u0 of u(c) = sqrt(u0^2 + (u1 c)^2) over the levels."),
                            quantity(
                                    "uncertainty-proportional",
                                    Kind.STATISTIC,
                                    "1",
                                    "u1 of u(c) = sqrt(u0^2 + (u1 c)^2) over the levels."),
                            quantity(
                                    "shrink",
                                    Kind.STATISTIC,
                                    "1",
                                    "Expanded uncertainty after a change, over that of now."),
                            quantity(
                                    "top-down-ratio",
                                    Kind.ESTIMATE,
                                    "1",
                                    "Uncertainty from precision and bias over that from the list of causes."),
                            quantity(
                                    "conformance-probability",
                                    Kind.STATISTIC,
                                    "1",
                                    "Probability that the measurand lies within the specification."),
                            quantity(
                                    "guard-band",
                                    Kind.STATISTIC,
                                    "of the measurand",
                                    "Distance to a limit that a result must keep to be accepted."),
                            quantity(
                                    "conforms",
                                    Kind.STATISTIC,
                                    "1",
                                    "1 if the result conforms with its guard band, 0 if it does not."),
                            quantity(
                                    "e-n",
                                    Kind.STATISTIC,
                                    "1",
                                    "Difference from a value from outside over both expanded uncertainties."),
                            quantity(
                                    "zeta",
                                    Kind.STATISTIC,
                                    "1",
                                    "Difference from a value from outside over both standard uncertainties.")),
                    List.of("calibration", "repeatability"));

    private BudgetCard() {}

    static Card card() {
        return CARD;
    }

    private static Quantity quantity(String name, Kind kind, String unit, String meaning) {
        return new Quantity(name, kind, unit, CONDITIONS, meaning);
    }
}
