package splitledger.characteristic.precision;

import java.util.List;
import splitledger.study.Card;
import splitledger.study.Card.Form;
import splitledger.study.Card.Kind;
import splitledger.study.Card.Option;
import splitledger.study.Card.Quantity;

/** Options and quantities of {@link Repeatability}. */
final class RepeatabilityCard {
    private static final List<String> FACTOR = List.of("factor", "level");
    private static final List<String> LEVEL = List.of("level");

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
                                    "Injections that a result averages; without it those of the table."),
                            new Option(
                                    "level",
                                    Form.TEXT,
                                    List.of(),
                                    false,
                                    "Column that tells samples or levels apart: each is looked at alone, then how scatter grows; without it all rows are one level."),
                            new Option(
                                    "upper-limit-b",
                                    Form.NUMBER,
                                    List.of(),
                                    false,
                                    "Upper limit of the content less 100 %, in percent, for the limit of the pharmacopoeia; without it that limit is not given."),
                            new Option(
                                    "mass-fraction",
                                    Form.NUMBER,
                                    List.of(),
                                    false,
                                    "Mass fraction of the analyte in the test portion (1e-6 is 1 mg/kg), for the predicted scatter; without it none is given.")),
                    quantities(),
                    List.of());

    private static List<Quantity> quantities() {
        return List.of(
                estimate("mean", "response", LEVEL, "Mean of all rows."),
                estimate(
                        "sd-injection",
                        "response",
                        LEVEL,
                        "Scatter of injections of one preparation."),
                estimate("rsd-injection", "%", LEVEL, "The same relative to the mean."),
                estimate(
                        "sd-repeatability",
                        "response",
                        LEVEL,
                        "Scatter of independent results under the same conditions."),
                estimate("rsd-repeatability", "%", LEVEL, "The same relative to the mean."),
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
                        LEVEL,
                        "Scatter of independent results under conditions that change as in the table."),
                estimate("rsd-intermediate", "%", LEVEL, "The same relative to the mean."),
                estimate(
                        "variance-share",
                        "%",
                        FACTOR,
                        "Part of the variance of a result that a factor brings."),
                estimate(
                        "repeatability-limit",
                        "response",
                        LEVEL,
                        "Difference that two results exceed in one case of twenty."),
                levelled(
                        "amount-studied",
                        "amount",
                        "Amount at which precision was studied, read off the calibration line."),
                levelled("robust-mean", "response", "Mean that outliers move little."),
                levelled("robust-sd", "response", "Standard deviation that outliers move little."),
                estimate("drift-per-injection", "%", LEVEL, "Drift under the same conditions."),
                levelled("drift-p", "1", "Probability of so much drift by chance."),
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
                        "Scatter with the internal standard over scatter without; below 1 it helps."),
                levelled(
                        "pharmacopoeial-limit",
                        "%",
                        "Largest relative scatter of repeated injections that the pharmacopoeia allows."),
                levelled(
                        "horwitz-rsd",
                        "%",
                        "Relative scatter across laboratories predicted from the mass fraction."),
                levelled(
                        "horwitz-ratio",
                        "1",
                        "Relative scatter of independent results over the predicted one."),
                statistic(
                        "scatter-constant",
                        "response",
                        "Part of the scatter that is the same at every level; 0 if it is proportional."),
                statistic(
                        "scatter-proportional",
                        "%",
                        "Part of the scatter that grows with the level; 0 if it is constant."),
                statistic(
                        "scatter-constant-p",
                        "1",
                        "Probability of such scatter if it were the same at every level."),
                statistic(
                        "scatter-proportional-p",
                        "1",
                        "Probability of such scatter if it were proportional to the level."));
    }

    private RepeatabilityCard() {}

    private static Quantity statistic(String name, String unit, String meaning) {
        return new Quantity(name, Kind.STATISTIC, unit, List.of(), meaning);
    }

    /** A statistic that each level may have. */
    private static Quantity levelled(String name, String unit, String meaning) {
        return new Quantity(name, Kind.STATISTIC, unit, LEVEL, meaning);
    }

    private static Quantity estimate(
            String name, String unit, List<String> conditions, String meaning) {
        return new Quantity(name, Kind.ESTIMATE, unit, conditions, meaning);
    }
}
