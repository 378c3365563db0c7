package splitledger.budget;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import splitledger.propagation.Expression;
import splitledger.propagation.ExpressionException;
import splitledger.propagation.ExpressionParser;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.propagation.UncertainLine;
import splitledger.statistics.Outcome;
import splitledger.study.Budget;
import splitledger.study.Card;
import splitledger.study.Choice;
import splitledger.study.Contribution;
import splitledger.study.Evaluation.Question;
import splitledger.study.Extent;
import splitledger.study.Figure;
import splitledger.study.Finding;
import splitledger.study.Protocol.Measurand;
import splitledger.study.Protocol.NotCorrected;
import splitledger.study.Rows;
import splitledger.study.Study;

/**
 * Results with their uncertainty for every preparation that wants one, and a budget at every
 * calibration level.
 */
public final class Budgets {
    static final String ID = "budget";

    private static final Card CARD = BudgetCard.card();

    private final Study study;
    private final Measurand measurand;
    private final SortedMap<String, UncertainLine> lines;
    private final List<Finding> findings;
    private final long seed;
    private final Inputs inputs;
    private final ComponentMap map;
    private final BudgetMaker maker;
    private final EquationUnits.Checked units;
    private final boolean usesFound;
    private final boolean figured;

    private Budgets(
            Study study,
            Measurand measurand,
            SortedMap<String, UncertainLine> lines,
            List<Finding> findings,
            long seed,
            Extent extent) {
        this.study = study;
        this.measurand = measurand;
        this.lines = lines;
        this.findings = findings;
        this.seed = seed;
        final Expression equation = equation(measurand);
        this.inputs = new Inputs(study, measurand, findings);
        this.map = new ComponentMap(inputs.widestSpread(), study.protocol().conventions());
        this.units = EquationUnits.of(measurand, equation, this::unit);
        this.maker =
                new BudgetMaker(
                        measurand,
                        units.factor() == 1
                                ? equation
                                : new Expression.Binary(
                                        Expression.Operator.TIMES,
                                        new Expression.Constant(units.factor()),
                                        equation),
                        study.protocol().conventions().coverage(),
                        extent.monteCarlo());
        this.figured = extent.figures();
        this.usesFound = equation.symbols().contains(BudgetMaker.FOUND);
    }

    /** What the budgets are. */
    public static Card card() {
        return CARD;
    }

    /**
     * Results and budgets.
     *
     * @param contribution findings, figures and choices
     * @param budgets in order of compound and level
     */
    public record Made(Contribution contribution, List<Budget> budgets) {
        public Made {
            budgets = List.copyOf(budgets);
        }
    }

    /**
     * Makes them.
     *
     * @param measurand of the protocol
     * @param lines calibration lines by compound
     * @param findings of all characteristics
     * @param seed of the evaluation
     * @param extent what may be left out
     */
    public static Made make(
            Study study,
            Measurand measurand,
            SortedMap<String, UncertainLine> lines,
            List<Finding> findings,
            long seed,
            Extent extent) {
        return new Budgets(study, measurand, lines, findings, seed, extent).made();
    }

    private Made made() {
        final List<Finding> results = new ArrayList<>();
        final List<Choice> choices = new ArrayList<>();
        final List<Figure> figures = new ArrayList<>();
        final List<Place> places = new ArrayList<>();
        final List<String> targets = study.compounds().targets();
        final List<String> compounds =
                usesFound || (inputs.useFindings() && !targets.isEmpty()) ? targets : List.of("");
        final Results writer = new Results(study, measurand, maker);
        for (String compound : compounds) {
            choices.addAll(choices(compound));
            if (usesFound) {
                results.addAll(writer.ofPreparations(compound, findings, this::inputsOf));
                places.addAll(levels(compound, results));
            } else {
                places.add(new Place(compound, "", Double.NaN, 1));
            }
        }
        final List<Outcome<Budget>> outcomes =
                IntStream.range(0, places.size())
                        .parallel()
                        .mapToObj(i -> budget(places.get(i)))
                        .toList();
        final List<Budget> budgets = new ArrayList<>();
        for (int i = 0; i < places.size(); i++) {
            results.addAll(
                    writer.ofBudget(
                            places.get(i).compound(), places.get(i).level(), outcomes.get(i)));
            outcomes.get(i).fold(budgets::add, not -> false);
        }
        for (String compound : figured ? compounds : List.<String>of()) {
            final List<Budget> own =
                    budgets.stream().filter(b -> b.compound().equals(compound)).toList();
            if (!own.isEmpty()) {
                figures.add(ShareFigure.of(own.get(own.size() / 2)));
                DistributionFigure.of(own.get(own.size() / 2)).ifPresent(figures::add);
            }
        }
        final Question question =
                new Question(ID, CARD.title(), CARD.question(), injected(results), how());
        return new Made(
                new Contribution(
                        question, results, figures, choices, units.flags(), new TreeMap<>()),
                budgets);
    }

    /** Where a budget is made. */
    private record Place(String compound, String level, double amount, double injections) {}

    /** One place a calibration level, with as many injections as results usually average. */
    private List<Place> levels(String compound, List<Finding> results) {
        final UncertainLine line = lines.get(compound);
        if (line == null) {
            return List.of();
        }
        final double[] counts =
                results.stream()
                        .filter(f -> f.key().compound().equals(compound))
                        .filter(f -> f.key().quantity().equals("result") && !f.rows().isEmpty())
                        .mapToDouble(f -> f.rows().size())
                        .sorted()
                        .toArray();
        final double injections = counts.length == 0 ? 1 : counts[counts.length / 2];
        final List<Place> places = new ArrayList<>();
        Levels.of(study, compound)
                .forEach(
                        (label, amount) ->
                                places.add(new Place(compound, label, amount, injections)));
        return places;
    }

    private Outcome<Budget> budget(Place place) {
        final List<Choice> choices = choices(place.compound());
        final Rows rows = measurand.resultsFor().map(study.table()::rows).orElse(Rows.NONE);
        final Rows own =
                place.compound().isEmpty()
                        ? rows
                        : rows.only(row -> study.table().compound(row).equals(place.compound()));
        final Outcome<SortedMap<String, Uncertain>> given =
                inputs.of(place.compound(), own, true, "level/" + place.level());
        return given.fold(
                all -> {
                    final Optional<BudgetMaker.Found> found =
                            usesFound ? Optional.of(found(place)) : Optional.empty();
                    final SortedMap<String, Uncertain> complete = new TreeMap<>(all);
                    found.ifPresent(
                            f ->
                                    complete.put(
                                            BudgetMaker.FOUND,
                                            f.line()
                                                    .amount(f.response(), place.amount())
                                                    .only(map.kept())));
                    try {
                        return Outcome.of(
                                maker.make(
                                        place.compound(),
                                        place.level(),
                                        complete,
                                        found,
                                        choices,
                                        Seeds.of(
                                                seed,
                                                place.compound(),
                                                place.level(),
                                                measurand.equation())));
                    } catch (ArithmeticException e) {
                        return Outcome.not(
                                Outcome.Reason.NO_FINITE_VALUE, String.valueOf(e.getMessage()));
                    }
                },
                not -> Outcome.not(not.reason(), not.detail()));
    }

    private BudgetMaker.Found found(Place place) {
        final UncertainLine line = lines.get(place.compound());
        if (line == null) {
            throw new IllegalStateException("no line for " + place.compound());
        }
        final Predicate<Root> kept = map.kept();
        final UncertainLine near = line.near(place.amount(), place.injections());
        final Uncertain response =
                near.response(
                                near.mean(place.amount()),
                                place.amount(),
                                place.injections(),
                                "level/" + place.level())
                        .only(kept);
        return new BudgetMaker.Found(near, response, kept);
    }

    /** All inputs of one result; {@code found} with what the component map leaves. */
    private Outcome<SortedMap<String, Uncertain>> inputsOf(
            String compound, Rows rows, String label, Uncertain found) {
        return inputs.of(compound, rows, false, label)
                .fold(
                        all -> {
                            final SortedMap<String, Uncertain> complete = new TreeMap<>(all);
                            complete.put(BudgetMaker.FOUND, found.only(map.kept()));
                            return Outcome.of(complete);
                        },
                        not -> Outcome.not(not.reason(), not.detail()));
    }

    private List<Choice> choices(String compound) {
        final List<Choice> choices = new ArrayList<>();
        units.choices()
                .forEach(c -> choices.add(new Choice(ID, compound, c.what(), c.why(), c.source())));
        if (usesFound) {
            choices.addAll(map.choices(compound));
        }
        measurand
                .inputs()
                .forEach(
                        (symbol, input) -> {
                            if (input instanceof NotCorrected) {
                                choices.add(
                                        new Choice(
                                                ID,
                                                compound,
                                                symbol + " is set to 1 without uncertainty",
                                                "the protocol says that results are not corrected for it; whatever bias it"
                                                        + " stands for is not in the uncertainty",
                                                "stated in the protocol"));
                            }
                        });
        study.compounds()
                .internalStandard()
                .filter(s -> usesFound && s.standardUncertainty() > 0)
                .ifPresent(
                        s ->
                                choices.add(
                                        new Choice(
                                                ID,
                                                compound,
                                                "The uncertainty of the internal standard's amount does not enter",
                                                "calibrants and samples hold the same amount of the same solution, so that"
                                                        + " its error cancels",
                                                "common practice, no source")));
        return choices;
    }

    /** The unit of a symbol as stated; empty if nothing states one. */
    private Optional<String> unit(String symbol) {
        if (symbol.equals(BudgetMaker.FOUND)) {
            return Optional.of(study.protocol().conventions().amountUnit());
        }
        return Optional.ofNullable(measurand.inputs().get(symbol)).flatMap(inputs::unit);
    }

    private static Expression equation(Measurand measurand) {
        try {
            return ExpressionParser.parse(measurand.equation());
        } catch (ExpressionException e) {
            throw new IllegalStateException("reading has checked the equation before", e);
        }
    }

    private String injected(List<Finding> results) {
        final long count =
                results.stream()
                        .filter(
                                f ->
                                        f.key().quantity().equals("result")
                                                && !f.key().condition().containsKey("level"))
                        .count();
        return count
                + " results by "
                + measurand.name()
                + " = "
                + measurand.equation()
                + ", in "
                + measurand.unit()
                + ".";
    }

    private static String how() {
        return "Every input is a value with its independent causes; the law of propagation to first order gives the combined"
                + " standard uncertainty (JCGM 100:2008, 5.1.2 and 5.2.2), degrees of freedom by variance estimate"
                + " (Welch-Satterthwaite, JCGM 100:2008, G.4.1), k from Student's t. At the calibration levels the distributions"
                + " are propagated by Monte Carlo beside it (JCGM 101:2008, clause 7, until two digits of the standard uncertainty are settled) and"
                + " compared with it (clause 8). Sampling and heterogeneity of"
                + " the material are not included.";
    }
}
