package splitledger.characteristic;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.propagation.UncertainLine;
import splitledger.study.Card;
import splitledger.study.Card.Form;
import splitledger.study.Card.Kind;
import splitledger.study.Card.Option;
import splitledger.study.Card.Quantity;
import splitledger.study.Choice;
import splitledger.study.Contribution;
import splitledger.study.Evaluation.Question;
import splitledger.study.Extent;
import splitledger.study.Figure;
import splitledger.study.Finding;
import splitledger.study.Flag;
import splitledger.study.Protocol.Measurand;
import splitledger.study.Rows;
import splitledger.study.StandardAmounts;
import splitledger.study.Study;
import splitledger.study.Tree;
import splitledger.study.Where;

/**
 * What a response means: a line through the means of independently made preparations. Fits, tests,
 * and predicts the amounts of the rows that want results. See {@link CalibrationFit} for one
 * compound.
 */
public final class Calibration implements Characteristic {
    static final String ID = "calibration";

    private static final Card CARD =
            new Card(
                    ID,
                    "Calibration",
                    "What does a response mean, and how well does a line describe it?",
                    List.of(
                            new Option("where", Form.WHERE, List.of(), true, "The calibrants."),
                            new Option(
                                    "weights",
                                    Form.WORD,
                                    List.of("none", "1/x^2"),
                                    false,
                                    "How the scatter grows with the amount. Without it the preparations decide."),
                            new Option(
                                    "amount-errors",
                                    Form.WORD,
                                    List.of("each-level", "common"),
                                    false,
                                    "Whether the stated uncertainties of amounts (amount_u) are errors of each level by itself, or one error that all levels share. Without it: each level."),
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
                                    "Scatter of preparation means about the line."),
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
                                    "predicted-amount",
                                    Kind.ESTIMATE,
                                    "amount",
                                    List.of("injection", "preparation"),
                                    "Amount that belongs to a preparation's response.")),
                    List.of());

    @Override
    public Card card() {
        return CARD;
    }

    @Override
    public Contribution evaluate(
            Study study, Tree.Mapping options, Earlier earlier, Extent extent) {
        final Rows rows = study.table().rows(Where.of(options.mapping("where")));
        final Rows unknowns = unknowns(study, options);
        final Responses responses = Responses.of(study);
        final List<Finding> findings = new ArrayList<>();
        final List<Figure> figures = new ArrayList<>();
        final List<Choice> choices = new ArrayList<>();
        final List<Flag> flags = new ArrayList<>();
        final SortedMap<String, UncertainLine> lines = new TreeMap<>();
        final Optional<StandardAmounts> made =
                study.standards()
                        .map(
                                s ->
                                        StandardAmounts.of(
                                                s, study.protocol().conventions().amountUnit()));
        final boolean common = options.text("amount-errors").orElse("").equals("common");
        for (String compound : study.compounds().targets()) {
            final Calibrants calibrants = Calibrants.of(study, responses, rows, compound);
            flags.addAll(calibrants.leftOut());
            final AmountErrors errors = AmountErrors.of(study, calibrants, made, common);
            final CalibrationFit fit =
                    CalibrationFit.of(
                            study,
                            calibrants,
                            errors,
                            options.text("weights").orElse(""),
                            responses);
            choices.addAll(fit.choices());
            choices.addAll(errors.choices());
            findings.addAll(errors.findings());
            findings.addAll(new CalibrationFindings(study, calibrants, fit).all());
            fit.line().ifPresent(line -> lines.put(compound, line));
            final Predictions predictions = new Predictions(study, responses, fit, calibrants);
            findings.addAll(predictions.findings(unknowns));
            flags.addAll(predictions.leftOut());
            fit.line()
                    .filter(line -> extent.figures())
                    .ifPresent(
                            line ->
                                    figures.addAll(
                                            new CalibrationFigures(
                                                            study, calibrants, line, responses)
                                                    .all()));
        }
        final Question question =
                new Question(
                        ID, CARD.title(), CARD.question(), injected(study, rows), how(responses));
        return new Contribution(question, findings, figures, choices, flags, lines);
    }

    private static Rows unknowns(Study study, Tree.Mapping options) {
        if (options.get("predict").isPresent()) {
            return study.table().rows(Where.of(options.mapping("predict")));
        }
        return study.protocol()
                .measurand()
                .flatMap(Measurand::resultsFor)
                .map(study.table()::rows)
                .orElse(Rows.NONE);
    }

    private static String injected(Study study, Rows rows) {
        final var table = study.table();
        final long injections = rows.stream().mapToObj(table::injection).distinct().count();
        final long preparations =
                rows.stream().mapToObj(r -> table.label("preparation", r)).distinct().count();
        final long levels = rows.stream().mapToObj(r -> table.label("level", r)).distinct().count();
        final String levelWords = table.has("level") ? " at " + levels + " levels" : "";
        return injections + " injections of " + preparations + " preparations" + levelWords + ".";
    }

    private static String how(Responses responses) {
        return "The response is the "
                + responses.words()
                + ". A line is fitted by least squares to the means of preparations; injections of one preparation"
                + " never count as independent standards. Intercept and slope keep their covariance. Lack of fit compares the"
                + " level means with the scatter of preparations within levels. Amounts are read off the line with the exact"
                + " interval (Fieller, J. R. Stat. Soc. B 16 (1954) 175, from memory) and to first order. Source of the"
                + " formulas: Draper and Smith, Applied Regression Analysis, 3rd ed. (from memory).";
    }

    private static Quantity estimate(String name, String unit, String meaning) {
        return new Quantity(name, Kind.ESTIMATE, unit, List.of(), meaning);
    }

    private static Quantity statistic(String name, String unit, String meaning) {
        return new Quantity(name, Kind.STATISTIC, unit, List.of(), meaning);
    }
}
