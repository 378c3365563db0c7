package splitledger.budget;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.ToDoubleFunction;
import splitledger.budget.Sources.Source;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.propagation.UncertainLine;
import splitledger.statistics.Outcome;
import splitledger.study.Budget;
import splitledger.study.Choice;
import splitledger.study.Finding;
import splitledger.study.Protocol.Found;
import splitledger.study.Protocol.Measurand;
import splitledger.study.Rows;
import splitledger.study.Study;

/** The budget of one place: its inputs put together, each cause counted once, and propagated. */
final class BudgetAtPlace {
    private final Study study;
    private final Measurand measurand;
    private final SortedMap<String, UncertainLine> lines;
    private final long seed;
    private final Inputs inputs;
    private final ComponentMap map;
    private final BudgetMaker maker;
    private final Beyond beyond;
    private final Decisions decisions;

    BudgetAtPlace(
            Study study,
            Measurand measurand,
            SortedMap<String, UncertainLine> lines,
            long seed,
            Inputs inputs,
            ComponentMap map,
            BudgetMaker maker,
            Decisions decisions) {
        this.study = study;
        this.measurand = measurand;
        this.lines = lines;
        this.seed = seed;
        this.inputs = inputs;
        this.map = map;
        this.maker = maker;
        this.beyond = new Beyond(measurand, maker, study.protocol().conventions().coverage());
        this.decisions = decisions;
    }

    /** A budget with what follows from it. */
    record Done(
            Budget budget,
            List<Beyond.Change> changes,
            Optional<Finding> topDown,
            Map<String, Uncertain> otherwise,
            List<Choice> dropped) {}

    /** The budget of a place; not computed where an input or the result has no finite value. */
    Outcome<Done> at(Place place, Sources sources) {
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
                maker.usesFound() && place.source().isEmpty()
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
                            maker.usesFound() ? beyond.changes(once.inputs()) : List.of(),
                            maker.usesFound()
                                    ? beyond.topDown(place.key(), whole)
                                    : Optional.empty(),
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
    Outcome<SortedMap<String, Uncertain>> inputsOf(Source source, String sample, Uncertain found) {
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
}
