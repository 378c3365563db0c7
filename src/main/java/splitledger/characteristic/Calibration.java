package splitledger.characteristic;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.IntStream;
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
        final CalibrationFit.Wanted wanted = CalibrationFit.Wanted.of(options);
        final boolean common = options.text("amount-errors").orElse("").equals("common");
        final List<String> targets = study.compounds().targets();
        final List<One> each =
                IntStream.range(0, targets.size())
                        .parallel()
                        .mapToObj(
                                i -> {
                                    final Calibrants calibrants =
                                            Calibrants.of(study, responses, rows, targets.get(i));
                                    final AmountErrors errors =
                                            AmountErrors.of(study, calibrants, common);
                                    return one(
                                            study,
                                            responses,
                                            new Fitted(
                                                    calibrants,
                                                    errors,
                                                    CalibrationFit.of(
                                                            study,
                                                            calibrants,
                                                            errors,
                                                            wanted,
                                                            responses)),
                                            unknowns,
                                            options.number("deviation-allowed"),
                                            extent);
                                })
                        .toList();
        final List<Finding> findings = new ArrayList<>();
        final List<Figure> figures = new ArrayList<>();
        final List<Choice> choices = new ArrayList<>();
        final List<Flag> flags = new ArrayList<>();
        final SortedMap<String, UncertainLine> lines = new TreeMap<>();
        for (One one : each) {
            findings.addAll(one.findings());
            figures.addAll(one.figures());
            choices.addAll(one.choices());
            flags.addAll(one.flags());
            one.line().ifPresent(line -> lines.put(one.compound(), line));
        }
        final Question question =
                new Question(
                        ID, CARD.title(), CARD.question(), injected(study, rows), how(responses));
        return new Contribution(question, findings, figures, choices, flags, lines);
    }

    /** A fit with what it was made from. */
    private record Fitted(Calibrants calibrants, AmountErrors errors, CalibrationFit fit) {}

    /** What one compound gives. */
    private record One(
            String compound,
            List<Finding> findings,
            List<Figure> figures,
            List<Choice> choices,
            List<Flag> flags,
            Optional<UncertainLine> line) {}

    private static One one(
            Study study,
            Responses responses,
            Fitted fitted,
            Rows unknowns,
            OptionalDouble allowed,
            Extent extent) {
        final Calibrants calibrants = fitted.calibrants();
        final CalibrationFit fit = fitted.fit();
        final List<Finding> findings = new ArrayList<>(fitted.errors().findings());
        findings.addAll(new CalibrationFindings(study, calibrants, fit, allowed).all());
        final Predictions predictions = new Predictions(study, responses, fit, calibrants);
        final List<Finding> predicted = predictions.findings(unknowns);
        findings.addAll(predicted);
        final List<Flag> flags = new ArrayList<>(calibrants.leftOut());
        flags.addAll(predictions.leftOut());
        final List<Choice> choices = new ArrayList<>(fit.choices());
        choices.addAll(fitted.errors().choices());
        final List<Figure> figures = new ArrayList<>();
        fit.line()
                .filter(line -> extent.figures())
                .ifPresent(
                        line ->
                                figures.addAll(
                                        new CalibrationFigures(study, calibrants, line, responses)
                                                .all()));
        return new One(calibrants.compound(), findings, figures, choices, flags, fit.line());
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
                + ". It is fitted by least squares to the means of preparations; injections of one preparation"
                + " never count as independent standards. Each mean has the variance s0^2 + (s1 response)^2; both parts are found"
                + " together with the line by restricted maximum likelihood, unless the protocol states weights. Coverage factors"
                + " allow for what is not known of them. Intercept and slope keep their covariance. Lack of fit compares the"
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
