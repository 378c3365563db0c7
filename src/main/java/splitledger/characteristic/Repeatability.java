package splitledger.characteristic;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.stream.Collectors;
import splitledger.statistics.NestedScatter;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.Quantiles;
import splitledger.statistics.VarianceEstimate;
import splitledger.study.Answer;
import splitledger.study.Answers;
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
import splitledger.study.InjectionTable;
import splitledger.study.Key;
import splitledger.study.Rows;
import splitledger.study.Study;
import splitledger.study.Trail;
import splitledger.study.Tree;
import splitledger.study.Where;

/**
 * How injections and preparations agree under the same conditions: scatter within preparations, and
 * of preparations within the same day, analyst or whatever the protocol names as factors.
 */
public final class Repeatability implements Characteristic {
    static final String ID = "repeatability";
    private static final String METHOD = "moments";
    private static final double NEAR_ZERO = 3;

    private static final Card CARD =
            new Card(
                    ID,
                    "Repeatability",
                    "How do repeated injections, and independent preparations, agree under the same conditions?",
                    List.of(
                            new Option("where", Form.WHERE, List.of(), true, "The repeated rows."),
                            new Option(
                                    "factors",
                                    Form.TEXTS,
                                    List.of(),
                                    false,
                                    "Columns whose every combination is one set of conditions; without it all rows are one."),
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
                    List.of(
                            estimate(
                                    "sd-injection",
                                    "response",
                                    "Scatter of injections of one preparation."),
                            estimate(
                                    "sd-repeatability",
                                    "response",
                                    "Scatter of independent results."),
                            estimate("rsd-repeatability", "%", "The same relative to the mean."),
                            estimate(
                                    "repeatability-limit",
                                    "response",
                                    "Difference that two results exceed in one case of twenty.")),
                    List.of());

    @Override
    public Card card() {
        return CARD;
    }

    @Override
    public Contribution evaluate(
            Study study, Tree.Mapping options, Earlier earlier, Extent extent) {
        final Rows rows = study.table().rows(Where.of(options.mapping("where")));
        final Responses responses = Responses.per(study, options.text("per").orElse(""));
        final List<String> factors =
                options.texts("factors").stream().filter(f -> !f.equals("preparation")).toList();
        final List<Finding> findings = new ArrayList<>();
        final List<Figure> figures = new ArrayList<>();
        final List<Choice> choices = new ArrayList<>();
        final List<Flag> flags = new ArrayList<>();
        for (String compound : study.compounds().targets()) {
            final Responses.Picked picked = responses.pick(rows, compound, true);
            flags.addAll(picked.leftOut());
            findings.addAll(
                    of(
                            study,
                            picked,
                            factors,
                            options.number("mean-of"),
                            responses,
                            compound,
                            choices));
            if (extent.figures() && !picked.used().isEmpty()) {
                figures.add(RunOrderFigure.of(study, picked, compound, responses));
            }
        }
        final Question question =
                new Question(
                        ID,
                        CARD.title(),
                        CARD.question(),
                        injected(study, rows, factors),
                        how(responses, factors));
        return new Contribution(question, findings, figures, choices, flags, new TreeMap<>());
    }

    private static List<Finding> of(
            Study study,
            Responses.Picked picked,
            List<String> factors,
            OptionalDouble meanOf,
            Responses responses,
            String compound,
            List<Choice> choices) {
        final String unit = responses.unit();
        final Rows rows = picked.rows();
        final List<Finding> findings = new ArrayList<>();
        if (picked.used().isEmpty()) {
            final Answer none =
                    Answers.not(unit, Reason.NO_ROWS, "no row of this compound has a response");
            for (String quantity : CARD.quantities().stream().map(Quantity::name).toList()) {
                findings.add(Finding.of(key(compound, quantity), none, rows, ""));
            }
            return findings;
        }
        final NestedScatter scatter = scatter(study.table(), picked, factors);
        final double m = meanOf.orElse(scatter.size());
        final double coverage = study.protocol().conventions().coverage();
        findings.add(
                Finding.of(
                        key(compound, "sd-injection"),
                        injection(scatter, unit, coverage),
                        rows,
                        ""));
        final Optional<VarianceEstimate> result = scatter.resultVariance(m);
        final String words =
                "mean "
                        + Trail.digits(scatter.mean())
                        + " "
                        + unit
                        + "; a result is the mean of "
                        + Trail.digits(m)
                        + (m == 1 ? " injection" : " injections")
                        + " of one preparation";
        if (result.isEmpty()) {
            final Answer none =
                    Answers.not(
                            unit,
                            Reason.TOO_FEW_PREPARATIONS,
                            "needs 2 preparations under the same conditions, found "
                                    + scatter.preparations()
                                    + " in "
                                    + scatter.groups()
                                    + " sets of conditions; repeated injections of one preparation do not show it");
            for (String quantity :
                    List.of("sd-repeatability", "rsd-repeatability", "repeatability-limit")) {
                findings.add(Finding.of(key(compound, quantity), none, rows, ""));
            }
            return findings;
        }
        final VarianceEstimate v = result.get();
        findings.add(
                Finding.of(
                        key(compound, "sd-repeatability"),
                        Answers.sd(v, 1, unit, coverage),
                        rows,
                        words));
        findings.add(
                Finding.of(
                        key(compound, "rsd-repeatability"),
                        relative(scatter, v, coverage),
                        rows,
                        words));
        final double limit =
                Quantiles.coverageFactor(coverage, v.degreesOfFreedom()) * Math.sqrt(2);
        findings.add(
                Finding.of(
                        key(compound, "repeatability-limit"),
                        Answers.sd(v, limit, unit, coverage),
                        rows,
                        "t sqrt(2) times the standard deviation of repeatability; 2.8 times it at many degrees of freedom"));
        negative(scatter, compound, choices);
        return findings;
    }

    private static NestedScatter scatter(
            InjectionTable table, Responses.Picked picked, List<String> factors) {
        final double[] y = picked.used().stream().mapToDouble(Responses.Response::value).toArray();
        final List<String> groups =
                picked.used().stream()
                        .map(
                                r ->
                                        factors.stream()
                                                .map(f -> cell(table, f, r.row()))
                                                .collect(Collectors.joining("\u0000")))
                        .toList();
        final List<String> preparations =
                picked.used().stream().map(Responses.Response::preparation).toList();
        return NestedScatter.of(y, groups, preparations);
    }

    private static String cell(InjectionTable table, String column, int row) {
        return table.numbers(column).isPresent()
                ? Double.toString(table.number(column, row))
                : table.label(column, row);
    }

    private static Answer injection(NestedScatter scatter, String unit, double coverage) {
        if (scatter.injectionMs().isEmpty()) {
            return Answers.not(
                    unit,
                    Reason.TOO_FEW_INJECTIONS,
                    "needs a preparation that was injected twice, found none");
        }
        return Answers.sd(
                new VarianceEstimate(scatter.injectionMs().getAsDouble(), scatter.injectionDf()),
                1,
                unit,
                coverage);
    }

    private static Answer relative(NestedScatter scatter, VarianceEstimate v, double coverage) {
        final double mean = Math.abs(scatter.mean());
        if (!(mean > NEAR_ZERO * v.sd() / Math.sqrt(scatter.preparations()))) {
            return Answers.not(
                    "%",
                    Reason.MEAN_NEAR_ZERO,
                    "the mean "
                            + Trail.digits(scatter.mean())
                            + " is not told from 0: a relative value means nothing");
        }
        return Answers.sd(v, 100 / mean, "%", coverage);
    }

    private static void negative(NestedScatter scatter, String compound, List<Choice> choices) {
        final boolean below =
                scatter.injectionMs().isPresent()
                        && scatter.preparationMs().isPresent()
                        && scatter.preparationMs().getAsDouble()
                                < scatter.injectionMs().getAsDouble();
        if (below) {
            choices.add(
                    new Choice(
                            ID,
                            compound,
                            "The variance between preparations comes out negative and counts as 0",
                            "preparations agree better than their injections would let them: no scatter of preparation is"
                                    + " seen, which with few preparations happens by chance",
                            "Searle, Casella and McCulloch, Variance Components, 1992 (from memory)"));
        }
    }

    private static String injected(Study study, Rows rows, List<String> factors) {
        final InjectionTable table = study.table();
        final long injections = rows.stream().mapToObj(table::injection).distinct().count();
        final long preparations =
                rows.stream().mapToObj(r -> table.label("preparation", r)).distinct().count();
        final String byFactor =
                factors.stream()
                        .map(
                                f ->
                                        rows.stream()
                                                        .mapToObj(r -> cell(table, f, r))
                                                        .distinct()
                                                        .count()
                                                + " of "
                                                + f)
                        .collect(Collectors.joining(", "));
        return injections
                + " injections of "
                + preparations
                + " preparations"
                + (byFactor.isEmpty() ? "." : "; labels: " + byFactor + ".");
    }

    private static String how(Responses responses, List<String> factors) {
        final String conditions =
                factors.isEmpty()
                        ? "all rows count as one set of conditions"
                        : "each combination of "
                                + String.join(", ", factors)
                                + " is one set of conditions";
        return "The response is the "
                + responses.words()
                + "; "
                + conditions
                + ". Scatter of injections is taken within preparations, scatter of independent results from the means of"
                + " preparations within the same conditions (method of moments; Searle, Casella and McCulloch, Variance"
                + " Components, 1992, from memory). Intervals of standard deviations by chi-square; the mean counts as known.";
    }

    private static Key key(String compound, String quantity) {
        return Key.of(ID, compound, quantity, METHOD);
    }

    private static Quantity estimate(String name, String unit, String meaning) {
        return new Quantity(name, Kind.ESTIMATE, unit, List.of(), meaning);
    }
}
