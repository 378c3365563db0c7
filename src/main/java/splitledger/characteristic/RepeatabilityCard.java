package splitledger.characteristic;

import java.util.List;
import splitledger.study.Card;
import splitledger.study.Card.Form;
import splitledger.study.Card.Kind;
import splitledger.study.Card.Option;
import splitledger.study.Card.Quantity;

/** Options and quantities of {@link Repeatability}. */
final class RepeatabilityCard {
    private static final List<String> FACTOR = List.of("factor");

    static final Card CARD =
            new Card(
                    Repeatability.ID,
                    "Repeatability and intermediate precision",
                    "How do injections, preparations, days, analysts and instruments agree?",
                    List.of(
                            new Option("where", Form.WHERE, List.of(), true, "The repeated rows."),
                            new Option(
                                    "factors",
                                    Form.TEXTS,
                                    List.of(),
                                    false,
                                    "Columns of conditions that change (day, analyst, instrument); without it all rows are one set of conditions."),
                            new Option(
                                    "nested-in",
                                    Form.NAMES,
                                    List.of(),
                                    false,
                                    "Factors whose labels start anew within another factor, as in analyst: day; without it the labels tell."),
                            new Option(
                                    "per",
                                    Form.TEXT,
                                    List.of(),
                                    false,
                                    "Column that divides the response, such as the test portion."),
                            new Option(
                                    "mean-of",
                                    Form.NUMBER,
                                    List.of(),
                                    false,
                                    "Injections that a result averages; without it those of the table.")),
                    quantities(),
                    List.of());

    private static List<Quantity> quantities() {
        return List.of(
                estimate("mean", "response", List.of(), "Mean of all rows."),
                estimate(
                        "sd-injection",
                        "response",
                        List.of(),
                        "Scatter of injections of one preparation."),
                estimate("rsd-injection", "%", List.of(), "The same relative to the mean."),
                estimate(
                        "sd-repeatability",
                        "response",
                        List.of(),
                        "Scatter of independent results under the same conditions."),
                estimate("rsd-repeatability", "%", List.of(), "The same relative to the mean."),
                estimate(
                        "sd-between",
                        "response",
                        FACTOR,
                        "Scatter that days, analysts, instruments or preparations bring; a bound with few labels."),
                estimate(
                        "difference-between",
                        "response",
                        FACTOR,
                        "Difference of the two labels of a factor that has two."),
                estimate(
                        "sd-intermediate",
                        "response",
                        List.of(),
                        "Scatter of independent results under conditions that change as in the table."),
                estimate("rsd-intermediate", "%", List.of(), "The same relative to the mean."),
                estimate(
                        "variance-share",
                        "%",
                        FACTOR,
                        "Part of the variance of a result that a factor brings."),
                estimate(
                        "repeatability-limit",
                        "response",
                        List.of(),
                        "Difference that two results exceed in one case of twenty."),
                statistic("robust-mean", "response", "Mean that outliers move little."),
                statistic("robust-sd", "response", "Standard deviation that outliers move little."),
                estimate("drift-per-injection", "%", List.of(), "Drift under the same conditions."),
                statistic("drift-p", "1", "Probability of so much drift by chance."),
                estimate(
                        "carry-over",
                        "%",
                        List.of(),
                        "Part of the injection before that appears again."),
                estimate(
                        "share-common-mode",
                        "%",
                        List.of(),
                        "Part of the scatter of injections that all peaks share."),
                estimate(
                        "internal-standard-gain",
                        "1",
                        List.of(),
                        "Scatter with the internal standard over scatter without; below 1 it helps."));
    }

    private RepeatabilityCard() {}

    private static Quantity statistic(String name, String unit, String meaning) {
        return new Quantity(name, Kind.STATISTIC, unit, List.of(), meaning);
    }

    private static Quantity estimate(
            String name, String unit, List<String> conditions, String meaning) {
        return new Quantity(name, Kind.ESTIMATE, unit, conditions, meaning);
    }
}
