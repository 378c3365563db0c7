package splitledger.budget;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import splitledger.budget.Sources.Source;
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
import splitledger.study.Key;
import splitledger.study.Protocol.Found;
import splitledger.study.Protocol.Measurand;
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
    private final Beyond beyond;
    private final Decisions decisions;

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
        final double coverage = study.protocol().conventions().coverage();
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
                        coverage,
                        extent.monteCarlo());
        this.beyond = new Beyond(measurand, maker, coverage);
        this.figured = extent.figures();
        this.usesFound = equation.symbols().contains(BudgetMaker.FOUND);
        this.decisions = new Decisions(study, measurand, inputs, map, units, usesFound);
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
        final Results writer = new Results(study, measurand, maker, findings);
        final Sources found = new Sources(study, measurand, findings);
        for (String compound : compounds) {
            choices.addAll(decisions.of(compound));
            if (usesFound) {
                final List<Source> sources = found.of(compound);
                results.addAll(writer.ofSources(sources, found.bySample(sources), this::inputsOf));
                places.addAll(places(compound, sources));
            } else {
                places.add(
                        new Place(
                                Key.of(ID, compound, "result", Results.LAW),
                                "",
                                Double.NaN,
                                1,
                                Optional.empty()));
            }
        }
        final List<Outcome<Done>> outcomes =
                IntStream.range(0, places.size())
                        .parallel()
                        .mapToObj(i -> done(places.get(i), found))
                        .toList();
        final List<Budget> budgets = new ArrayList<>();
        for (int i = 0; i < places.size(); i++) {
            final Place place = places.get(i);
            final Outcome<Done> outcome = outcomes.get(i);
            results.addAll(
                    writer.ofBudget(
                            place.key(),
                            place.source().isPresent(),
                            outcome.fold(
                                    d -> Outcome.of(d.budget()),
                                    not -> Outcome.not(not.reason(), not.detail()))));
            if (outcome instanceof Outcome.Computed<Done> computed) {
                final Done d = computed.value();
                budgets.add(d.budget());
                results.addAll(Beyond.shrink(place.key(), d.changes()));
                d.topDown().ifPresent(results::add);
                d.otherwise().forEach((way, x) -> results.add(writer.under(place.key(), way, x)));
                d.dropped().stream().filter(c -> !choices.contains(c)).forEach(choices::add);
            }
        }
        for (String compound : compounds) {
            results.addAll(ofLevels(compound, places, budgets));
            if (figured) {
                figures.addAll(figures(compound, budgets, outcomes));
            }
        }
        results.addAll(Conformity.unanswered(measurand, results));
        final Question question =
                new Question(ID, CARD.title(), CARD.question(), injected(results), how());
        return new Made(
                new Contribution(
                        question, results, figures, choices, units.flags(), new TreeMap<>()),
                budgets);
    }

    /** A budget with what follows from it. */
    private record Done(
            Budget budget,
            List<Beyond.Change> changes,
            Optional<Finding> topDown,
            Map<String, Uncertain> otherwise,
            List<Choice> dropped) {}

    /** How the uncertainty grows over the calibration levels. */
    private List<Finding> ofLevels(String compound, List<Place> places, List<Budget> budgets) {
        final boolean levels =
                places.stream()
                        .anyMatch(p -> p.compound().equals(compound) && p.source().isEmpty());
        return usesFound && levels
                ? UncertaintyCurve.findings(compound, of(compound, budgets), measurand.unit())
                : List.of();
    }

    private static List<Budget> of(String compound, List<Budget> budgets) {
        return budgets.stream().filter(b -> b.compound().equals(compound)).toList();
    }

    private List<Figure> figures(
            String compound, List<Budget> budgets, List<Outcome<Done>> outcomes) {
        final List<Budget> own = of(compound, budgets);
        final List<Figure> figures = new ArrayList<>();
        if (own.isEmpty()) {
            return figures;
        }
        final Budget middle = own.get(own.size() / 2);
        figures.add(ShareFigure.of(middle));
        outcomes.forEach(
                o -> {
                    if (o instanceof Outcome.Computed<Done> d
                            && d.value().budget().equals(middle)) {
                        ShrinkFigure.of(middle, d.value().changes()).ifPresent(figures::add);
                    }
                });
        if (usesFound) {
            UncertaintyCurve.figure(compound, own, measurand.unit()).ifPresent(figures::add);
        }
        DistributionFigure.of(middle).ifPresent(figures::add);
        return figures;
    }

    /** The calibration levels; where there is no line, each result itself. */
    private List<Place> places(String compound, List<Source> sources) {
        if (measurand.found() != Found.AMOUNT) {
            return sources.stream().map(Budgets::itself).toList();
        }
        final UncertainLine line = lines.get(compound);
        if (line == null) {
            return List.of();
        }
        final int[] counts =
                sources.stream()
                        .mapToInt(s -> s.rows().size())
                        .filter(n -> n > 0)
                        .sorted()
                        .toArray();
        final double usual = counts.length == 0 ? 1 : counts[counts.length / 2];
        final double injections = measurand.reporting().injections().orElse(usual);
        final List<Place> places = new ArrayList<>();
        Levels.of(study, compound)
                .forEach(
                        (label, amount) ->
                                places.add(
                                        new Place(
                                                Key.of(ID, compound, "result", Results.LAW)
                                                        .with("level", label),
                                                label,
                                                amount,
                                                injections,
                                                Optional.empty())));
        return places;
    }

    private static Place itself(Source source) {
        final double amount = source.found().fold(Uncertain::value, not -> Double.NaN);
        final String label =
                source.key().condition().isEmpty()
                        ? ""
                        : String.join(", ", source.key().condition().values());
        return new Place(
                source.key(),
                label,
                amount,
                Math.max(1, source.rows().size()),
                Optional.of(source));
    }

    private Outcome<Done> done(Place place, Sources sources) {
        final boolean level = place.source().isEmpty();
        final Rows rows = measurand.resultsFor().map(study.table()::rows).orElse(Rows.NONE);
        final Rows own =
                place.compound().isEmpty()
                        ? rows
                        : rows.only(row -> study.table().compound(row).equals(place.compound()));
        final String label = level ? "level/" + place.level() : place.key().conditionText();
        final Asked asked =
                new Asked(
                        place.compound(),
                        level ? own : place.source().orElseThrow().rows(),
                        level,
                        label,
                        level ? label : sources.sample(place.source().orElseThrow()),
                        place.amount(),
                        level ? measurand.reporting().preparations() : 1);
        return inputs.of(asked)
                .fold(
                        all -> done(place, asked, all),
                        not -> Outcome.not(not.reason(), not.detail()));
    }

    private Outcome<Done> done(Place place, Asked asked, SortedMap<String, Uncertain> given) {
        if (place.source().isPresent()
                && place.source().get().found() instanceof Outcome.NotComputed<Uncertain> not) {
            return Outcome.not(not.reason(), not.detail());
        }
        final Optional<BudgetMaker.Found> found =
                usesFound && place.source().isEmpty()
                        ? Optional.of(found(place, asked))
                        : Optional.empty();
        final SortedMap<String, Uncertain> whole = new TreeMap<>(given);
        final SortedMap<String, Uncertain> left = new TreeMap<>(given);
        found.ifPresent(
                f -> {
                    final Uncertain amount = f.line().amount(f.response(), place.amount());
                    whole.put(BudgetMaker.FOUND, amount);
                    left.put(BudgetMaker.FOUND, amount.weighted(f.kept()));
                });
        place.source()
                .flatMap(
                        s ->
                                s.found()
                                        .<Optional<Uncertain>>fold(
                                                Optional::of, not -> Optional.empty()))
                .ifPresent(
                        x -> {
                            whole.put(BudgetMaker.FOUND, x);
                            left.put(BudgetMaker.FOUND, x.weighted(map.kept(0)));
                        });
        final ComponentMap.Once once = map.once(left, place.compound());
        final List<Choice> choices = new ArrayList<>(decisions.of(place.compound()));
        choices.addAll(once.choices());
        try {
            final Budget budget =
                    maker.make(
                            place.compound(),
                            place.level(),
                            once.inputs(),
                            found.map(f -> without(f, left, once.inputs())),
                            choices,
                            Seeds.of(seed, place.compound(), place.level(), measurand.equation()));
            return Outcome.of(
                    new Done(
                            budget,
                            usesFound ? beyond.changes(once.inputs()) : List.of(),
                            usesFound ? beyond.topDown(place.key(), whole) : Optional.empty(),
                            place.source().isEmpty()
                                    ? underBothDecisions(place.compound(), once.inputs())
                                    : Map.of(),
                            once.choices()));
        } catch (ArithmeticException e) {
            return Outcome.not(Outcome.Reason.NO_FINITE_VALUE, String.valueOf(e.getMessage()));
        }
    }

    /** The amount taken apart without the causes that another input holds. */
    private static BudgetMaker.Found without(
            BudgetMaker.Found found,
            SortedMap<String, Uncertain> before,
            SortedMap<String, Uncertain> after) {
        final Uncertain all = before.get(BudgetMaker.FOUND);
        final Uncertain left = after.get(BudgetMaker.FOUND);
        if (all == null || left == null || all.roots().equals(left.roots())) {
            return found;
        }
        final List<Root> gone = new ArrayList<>(all.roots());
        gone.removeAll(left.roots());
        return new BudgetMaker.Found(
                found.line(),
                found.response(),
                root -> gone.contains(root) ? 0 : found.kept().applyAsDouble(root));
    }

    /** The result corrected for the recovery, and with its deviation in the uncertainty. */
    private Map<String, Uncertain> underBothDecisions(
            String compound, SortedMap<String, Uncertain> given) {
        final Map<String, Uncertain> results = new LinkedHashMap<>();
        final Optional<String> symbol = RecoveryInput.symbol(measurand);
        inputs.recoveries(compound)
                .forEach(
                        (way, factor) -> {
                            final SortedMap<String, Uncertain> other = new TreeMap<>(given);
                            symbol.ifPresent(s -> other.put(s, factor));
                            results.put(way, maker.propagate(other).result());
                        });
        return results;
    }

    private BudgetMaker.Found found(Place place, Asked asked) {
        final UncertainLine line = lines.get(place.compound());
        if (line == null) {
            throw new IllegalStateException("no line for " + place.compound());
        }
        final UncertainLine near = line.near(place.amount(), place.injections());
        final double preparations = Math.sqrt(asked.preparations());
        final Uncertain response =
                near.response(
                                near.mean(place.amount()),
                                place.amount(),
                                place.injections(),
                                asked.label())
                        .weighted(r -> 1 / preparations);
        return new BudgetMaker.Found(near, response, kept(place.compound(), line, place.amount()));
    }

    /** How much of each cause of an amount stays beside the precision factor. */
    private ToDoubleFunction<Root> kept(String compound, UncertainLine line, double amount) {
        return map.kept(
                inputs.precision(compound, amount)
                        .map(p -> OwnScatter.beside(line, amount, p))
                        .orElse(0.0));
    }

    /** All inputs of one result; {@code found} with what the component map leaves. */
    private Outcome<SortedMap<String, Uncertain>> inputsOf(
            Source source, String sample, Uncertain found) {
        final String compound = source.key().compound();
        final UncertainLine line = lines.get(compound);
        final Asked asked =
                new Asked(
                        compound,
                        source.rows(),
                        false,
                        source.key().conditionText(),
                        sample,
                        found.value(),
                        1);
        return inputs.of(asked)
                .fold(
                        all -> {
                            final SortedMap<String, Uncertain> complete = new TreeMap<>(all);
                            complete.put(
                                    BudgetMaker.FOUND,
                                    found.weighted(
                                            measurand.found() == Found.AMOUNT && line != null
                                                    ? kept(compound, line, found.value())
                                                    : map.kept(0)));
                            return Outcome.of(map.once(complete, compound).inputs());
                        },
                        not -> Outcome.not(not.reason(), not.detail()));
    }

    /** The unit of a symbol as stated; empty if nothing states one. */
    private Optional<String> unit(String symbol) {
        if (symbol.equals(BudgetMaker.FOUND)) {
            return Optional.of(
                    measurand.found() == Found.AREA_SHARE
                            ? "%"
                            : study.protocol().conventions().amountUnit());
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
