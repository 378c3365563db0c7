package splitledger.budget;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.IntStream;
import splitledger.budget.Sources.Source;
import splitledger.propagation.Expression;
import splitledger.propagation.ExpressionException;
import splitledger.propagation.ExpressionParser;
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
import splitledger.study.Protocol.Found;
import splitledger.study.Protocol.Measurand;
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
    private final Inputs inputs;
    private final BudgetMaker maker;
    private final EquationUnits.Checked units;
    private final boolean usesFound;
    private final boolean figured;
    private final BudgetAtPlace worked;
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
        final Expression equation = equation(measurand);
        this.inputs = new Inputs(study, measurand, findings);
        final ComponentMap map =
                new ComponentMap(inputs.widestSpread(), study.protocol().conventions());
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
        this.figured = extent.figures();
        this.usesFound = equation.symbols().contains(BudgetMaker.FOUND);
        this.decisions = new Decisions(study, measurand, inputs, map, units, usesFound);
        this.worked =
                new BudgetAtPlace(study, measurand, lines, seed, inputs, map, maker, decisions);
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
                results.addAll(
                        writer.ofSources(sources, found.bySample(sources), worked::inputsOf));
                places.addAll(new Places(study, measurand, lines).of(compound, sources));
            } else {
                places.add(Places.alone(compound));
            }
        }
        final List<Outcome<BudgetAtPlace.Done>> outcomes =
                IntStream.range(0, places.size())
                        .parallel()
                        .mapToObj(i -> worked.at(places.get(i), found))
                        .toList();
        final List<Budget> budgets = new ArrayList<>();
        for (int i = 0; i < places.size(); i++) {
            final Place place = places.get(i);
            final Outcome<BudgetAtPlace.Done> outcome = outcomes.get(i);
            results.addAll(
                    writer.ofBudget(
                            place.key(),
                            place.source().isPresent(),
                            outcome.fold(
                                    d -> Outcome.of(d.budget()),
                                    not -> Outcome.not(not.reason(), not.detail()))));
            if (outcome instanceof Outcome.Computed<BudgetAtPlace.Done> computed) {
                final BudgetAtPlace.Done d = computed.value();
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
            String compound, List<Budget> budgets, List<Outcome<BudgetAtPlace.Done>> outcomes) {
        final List<Budget> own = of(compound, budgets);
        final List<Figure> figures = new ArrayList<>();
        if (own.isEmpty()) {
            return figures;
        }
        final Budget middle = own.get(own.size() / 2);
        figures.add(ShareFigure.of(middle));
        outcomes.forEach(
                o -> {
                    if (o instanceof Outcome.Computed<BudgetAtPlace.Done> d
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
