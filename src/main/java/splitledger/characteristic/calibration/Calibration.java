package splitledger.characteristic.calibration;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.IntStream;
import splitledger.characteristic.Characteristic;
import splitledger.characteristic.Earlier;
import splitledger.characteristic.Responses;
import splitledger.propagation.UncertainLine;
import splitledger.study.Card;
import splitledger.study.Choice;
import splitledger.study.Contribution;
import splitledger.study.Evaluation.Question;
import splitledger.study.Extent;
import splitledger.study.Figure;
import splitledger.study.Finding;
import splitledger.study.Flag;
import splitledger.study.Protocol.AmountOf;
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
    /** Its name in protocols and findings. */
    public static final String ID = "calibration";

    private static final Card CARD = CalibrationCard.card();

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
        final Optional<StandardAmounts> made = AmountErrors.made(study);
        final List<String> targets = study.compounds().targets();
        final List<One> each =
                IntStream.range(0, targets.size())
                        .parallel()
                        .mapToObj(
                                i -> {
                                    final Calibrants calibrants =
                                            Calibrants.of(study, responses, rows, targets.get(i));
                                    final AmountErrors errors =
                                            AmountErrors.of(study, calibrants, made, common);
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
                                            new Asked(options, rows, unknowns),
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

    /** What the protocol asks of each compound. */
    private record Asked(Tree.Mapping options, Rows rows, Rows unknowns) {}

    /** What one compound gives. */
    private record One(
            String compound,
            List<Finding> findings,
            List<Figure> figures,
            List<Choice> choices,
            List<Flag> flags,
            Optional<UncertainLine> line) {}

    private static One one(
            Study study, Responses responses, Fitted fitted, Asked asked, Extent extent) {
        final Calibrants calibrants = fitted.calibrants();
        final CalibrationFit fit = fitted.fit();
        final List<Finding> findings = new ArrayList<>(fitted.errors().findings());
        findings.addAll(
                new CalibrationFindings(
                                study, calibrants, fit, asked.options().number("deviation-allowed"))
                        .all());
        final Predictions predictions = new Predictions(study, responses, fit, calibrants);
        final List<Finding> predicted = predictions.findings(asked.unknowns());
        findings.addAll(predicted);
        final List<Flag> flags = new ArrayList<>(calibrants.leftOut());
        flags.addAll(predictions.leftOut());
        final List<Choice> choices = new ArrayList<>(fit.choices());
        choices.addAll(fitted.errors().choices());
        fit.scatterLine()
                .ifPresent(
                        line ->
                                flags.addAll(
                                        new CalibrationChecks(study, calibrants, fit, line)
                                                .flags()));
        if (asked.options().get("groups").isPresent()) {
            final GroupFits groups =
                    GroupFits.of(
                            study,
                            responses,
                            asked.rows(),
                            calibrants.compound(),
                            asked.options(),
                            asked.options());
            findings.addAll(
                    GroupFindings.of(
                            calibrants.compound(),
                            groups,
                            study.protocol().conventions().coverage()));
        }
        if (asked.options().get("additions").isPresent()) {
            final Additions additions =
                    Additions.of(
                            study,
                            responses,
                            study.table().rows(Where.of(asked.options().mapping("additions"))),
                            calibrants.compound(),
                            asked.options());
            findings.addAll(additions.findings());
            choices.addAll(additions.choices());
            flags.addAll(additions.leftOut());
        }
        final List<Figure> figures = new ArrayList<>();
        fit.line()
                .filter(line -> extent.figures())
                .ifPresent(
                        line ->
                                figures.addAll(
                                        new CalibrationFigures(
                                                        study,
                                                        calibrants,
                                                        fit,
                                                        line,
                                                        responses,
                                                        predicted)
                                                .all()));
        return new One(calibrants.compound(), findings, figures, choices, flags, fit.line());
    }

    private static Rows unknowns(Study study, Tree.Mapping options) {
        if (options.get("predict").isPresent()) {
            return study.table().rows(Where.of(options.mapping("predict")));
        }
        final List<Where> wanted = new ArrayList<>();
        study.protocol()
                .measurand()
                .ifPresent(
                        m -> {
                            m.resultsFor().ifPresent(wanted::add);
                            m.inputs().values().stream()
                                    .filter(AmountOf.class::isInstance)
                                    .forEach(i -> wanted.add(((AmountOf) i).rows()));
                        });
        final BitSet rows = new BitSet();
        wanted.forEach(where -> study.table().rows(where).stream().forEach(rows::set));
        return Rows.of(rows.stream().toArray());
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
}
