package splitledger.characteristic.calibration;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import splitledger.characteristic.Responses;
import splitledger.propagation.ScatterLine;
import splitledger.statistics.AmountPrediction;
import splitledger.statistics.MeanLaw;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Choice;
import splitledger.study.Finding;
import splitledger.study.Flag;
import splitledger.study.Key;
import splitledger.study.Rows;
import splitledger.study.Study;
import splitledger.study.Tree;

/**
 * Amounts of one compound by standard additions: a line through the responses of one sample's
 * preparations against the amounts added (0 for the sample as it is); the amount is where the line
 * meets a response of 0, with its sign turned. The interval is Fieller's; only the line scatters.
 * Errors of the amounts added that several preparations share move the line ({@link AmountErrors}).
 *
 * @param findings one a sample
 * @param choices of the lines
 * @param leftOut rows that could not serve
 */
record Additions(List<Finding> findings, List<Choice> choices, List<Flag> leftOut) {
    private static final String QUANTITY = "amount-by-addition";
    private static final String NOTE =
            "in the unit of the amounts added; constant interference is in it, proportional interference is not";

    /**
     * Of one compound.
     *
     * @param rows of the additions
     * @param options block of the calibration: {@code additions-of} names the column that tells
     *     samples apart, without it all are one sample
     */
    static Additions of(
            Study study, Responses responses, Rows rows, String compound, Tree.Mapping options) {
        final String column = options.text("additions-of").orElse("");
        final Map<String, Rows> samples = new LinkedHashMap<>();
        if (column.isEmpty()) {
            samples.put("", rows);
        } else {
            rows.stream()
                    .mapToObj(row -> study.table().label(column, row))
                    .distinct()
                    .forEach(
                            label ->
                                    samples.put(
                                            label,
                                            rows.only(
                                                    row ->
                                                            study.table()
                                                                    .label(column, row)
                                                                    .equals(label))));
        }
        final List<Finding> findings = new ArrayList<>();
        final List<Choice> choices = new ArrayList<>();
        final List<Flag> leftOut = new ArrayList<>();
        final boolean common = options.text("amount-errors").orElse("").equals("common");
        final String weights = options.text("weights").orElse("");
        final CalibrationFit.Wanted wanted =
                new CalibrationFit.Wanted(MeanLaw.LINE, weights.startsWith("1/") ? "" : weights);
        samples.forEach(
                (label, own) -> {
                    final Calibrants calibrants =
                            Calibrants.of(study, responses, own, compound)
                                    .named("addition=" + label);
                    final AmountErrors errors =
                            AmountErrors.of(study, calibrants, AmountErrors.made(study), common);
                    final CalibrationFit fit =
                            CalibrationFit.of(study, calibrants, errors, wanted, responses);
                    choices.addAll(errors.choices());
                    choices.addAll(fit.choices());
                    leftOut.addAll(calibrants.leftOut());
                    final Key key = Key.of(Calibration.ID, compound, QUANTITY, fit.method());
                    findings.add(
                            Finding.of(
                                    label.isEmpty() ? key : key.with("sample", label),
                                    answer(study, fit),
                                    calibrants.rows(),
                                    NOTE));
                });
        return new Additions(findings, choices, leftOut);
    }

    private static Answer answer(Study study, CalibrationFit fit) {
        final String unit = study.protocol().conventions().amountUnit();
        final Optional<ScatterLine> line = fit.scatterLine();
        if (line.isEmpty()) {
            return fit.outcome()
                    .fold(
                            exact ->
                                    Answers.not(
                                            unit,
                                            Reason.NO_SCATTER,
                                            "the points lie exactly on the line"),
                            not -> Answers.not(unit, not));
        }
        final Outcome<AmountPrediction> found = line.get().byAddition();
        return found.fold(
                p ->
                        new Answer.Estimate(
                                p.amount(),
                                unit,
                                p.standardUncertainty(),
                                line.get().isGiven() && !line.get().isMoved()
                                        ? line.get().fit().freedom()
                                        : p.degreesOfFreedom(),
                                p.lower(),
                                p.upper(),
                                study.protocol().conventions().coverage(),
                                Answer.Law.ENDS,
                                Optional.empty()),
                not -> Answers.not(unit, not));
    }
}
