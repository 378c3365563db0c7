package splitledger.characteristic.calibration;

import java.util.List;
import splitledger.study.Card;
import splitledger.study.Card.Form;
import splitledger.study.Card.Kind;
import splitledger.study.Card.Option;
import splitledger.study.Card.Quantity;

/** Options and quantities of the calibration. */
final class CalibrationCard {
    private static final Card CARD =
            new Card(
                    Calibration.ID,
                    "Calibration",
                    "What does a response mean, and how well does a line describe it?",
                    List.of(
                            new Option("where", Form.WHERE, List.of(), true, "The calibrants."),
                            new Option(
                                    "weights",
                                    Form.WORD,
                                    List.of("none", "1/x", "1/x^2"),
                                    false,
                                    "How the scatter grows with the amount. Without it a constant and a proportional part of it are found from the preparations."),
                            new Option(
                                    "model",
                                    Form.WORD,
                                    List.of("line", "through-origin", "quadratic"),
                                    false,
                                    "How the response depends on the amount. Without it: a line."),
                            new Option(
                                    "deviation-allowed",
                                    Form.NUMBER,
                                    List.of(),
                                    false,
                                    "How far, in percent, the amount read back from a level may be off within the working range. Without it the working range is that of the calibrated amounts."),
                            new Option(
                                    "amount-errors",
                                    Form.WORD,
                                    List.of("each-level", "common"),
                                    false,
                                    "Whether the stated uncertainties of amounts (amount_u) are errors of each level by itself, or one error that all levels share. Without it: each level."),
                            new Option(
                                    "groups",
                                    Form.TEXT,
                                    List.of(),
                                    false,
                                    "Column whose labels are groups with a calibration of their own each (instrument, liner, matrix, way of introducing the sample); their slopes are compared."),
                            new Option(
                                    "reference-group",
                                    Form.TEXT,
                                    List.of(),
                                    false,
                                    "Group that the others are compared with. Without it the first of the table."),
                            new Option(
                                    "additions",
                                    Form.WHERE,
                                    List.of(),
                                    false,
                                    "Preparations of samples to which known amounts were added (column amount: the amount added, 0 for none)."),
                            new Option(
                                    "additions-of",
                                    Form.TEXT,
                                    List.of(),
                                    false,
                                    "Column that tells the samples of the additions apart. Without it they are one sample."),
                            new Option(
                                    "predict",
                                    Form.WHERE,
                                    List.of(),
                                    false,
                                    "Rows whose amounts are wanted; without it those of the measurand's results.")),
                    List.of(
                            new Quantity(
                                    "standard-amount",
                                    Kind.ESTIMATE,
                                    "amount",
                                    List.of("level"),
                                    "Amount of a calibrant as it follows from how it was made."),
                            estimate("intercept", "response", "Response at amount 0 by the line."),
                            estimate("slope", "response per amount", "Response per amount."),
                            statistic(
                                    "intercept-slope-covariance",
                                    "product of both",
                                    "Covariance of intercept and slope."),
                            estimate(
                                    "residual-sd",
                                    "response (relative to the amount under 1/x^2)",
                                    "Scatter of preparation means about the fit."),
                            estimate(
                                    "quadratic",
                                    "response per squared amount",
                                    "Curvature of a quadratic calibration."),
                            estimate(
                                    "signal-sd-constant",
                                    "response",
                                    "Part of the scatter of preparation means that does not depend on the response."),
                            estimate(
                                    "signal-sd-proportional",
                                    "%",
                                    "Part of the scatter of preparation means in proportion to the response."),
                            statistic(
                                    "variance-ratio-top-to-bottom",
                                    "1",
                                    "Variance of preparation means at the highest level over that at the lowest."),
                            statistic(
                                    "homoscedasticity-p",
                                    "1",
                                    "Probability of so much growth of the scatter if there were none; decides nothing."),
                            statistic(
                                    "curvature-p",
                                    "1",
                                    "Probability of so much curvature if the line were straight."),
                            statistic(
                                    "working-range-low",
                                    "amount",
                                    "Lowest level of those read back as allowed."),
                            statistic(
                                    "working-range-high",
                                    "amount",
                                    "Highest level of those read back as allowed."),
                            statistic(
                                    "relative-standard-error",
                                    "%",
                                    "Root mean square of relative deviations."),
                            statistic(
                                    "lack-of-fit-F",
                                    "1",
                                    "Level means about the line against preparations."),
                            statistic(
                                    "lack-of-fit-p",
                                    "1",
                                    "Probability of so large an F for a true line."),
                            statistic("r-squared", "1", "Proves nothing about linearity."),
                            new Quantity(
                                    "back-calculated-deviation",
                                    Kind.ESTIMATE,
                                    "%",
                                    List.of("level"),
                                    "Mean amount found of a level against its own amount."),
                            new Quantity(
                                    "sensitivity-ratio",
                                    Kind.ESTIMATE,
                                    "1",
                                    List.of("factor", "group", "reference"),
                                    "Slope of a group over that of the reference group."),
                            new Quantity(
                                    "matrix-effect",
                                    Kind.ESTIMATE,
                                    "1",
                                    List.of("factor", "group", "reference"),
                                    "Slope in a matrix over that in the reference matrix or solvent."),
                            new Quantity(
                                    "amount-by-addition",
                                    Kind.ESTIMATE,
                                    "amount",
                                    List.of("sample"),
                                    "Amount of a sample by standard additions."),
                            new Quantity(
                                    "predicted-amount",
                                    Kind.ESTIMATE,
                                    "amount",
                                    List.of("injection", "preparation"),
                                    "Amount that belongs to a preparation's response.")),
                    List.of());

    private CalibrationCard() {}

    static Card card() {
        return CARD;
    }

    private static Quantity estimate(String name, String unit, String meaning) {
        return new Quantity(name, Kind.ESTIMATE, unit, List.of(), meaning);
    }

    private static Quantity statistic(String name, String unit, String meaning) {
        return new Quantity(name, Kind.STATISTIC, unit, List.of(), meaning);
    }
}
