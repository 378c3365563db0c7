package splitledger.budget;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.ToDoubleFunction;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.study.Choice;
import splitledger.study.Protocol.Conventions;

/**
 * One home for each contribution: two estimates of the same effect on the same side are a double
 * count. The one from the widest conditions stays, the other is dropped with a word (Kadis, J.
 * Chromatogr. A 1499 (2017) 226, on precision counted both inside the line formula and as a term of
 * its own).
 */
final class ComponentMap {
    private static final String SOURCE = "Kadis, J. Chromatogr. A 1499 (2017) 226";

    /** Values from outside are each an estimate of something else. */
    private static final List<Effect> SEVERAL = List.of(Effect.REFERENCE_VALUE, Effect.MODEL);

    private final Optional<Effect> spread;
    private final boolean recalibratedDaily;

    ComponentMap(Optional<Effect> spread, Conventions conventions) {
        this.spread = spread;
        this.recalibratedDaily = "daily".equals(conventions.recalibrated());
    }

    /**
     * How much of each cause of the amount found stays.
     *
     * @param ownScatter share of the variance of the sample's own scatter that the precision factor
     *     does not hold, from 0 to 1
     */
    ToDoubleFunction<Root> kept(double ownScatter) {
        final double part = Math.sqrt(ownScatter);
        return root -> scatterTwice(root) ? part : calibrationTwice(root) ? 0 : 1;
    }

    /** What is dropped from the amount found, in words. */
    List<Choice> choices(String compound) {
        final List<Choice> choices = new ArrayList<>();
        spread.ifPresent(
                effect ->
                        choices.add(
                                new Choice(
                                        Budgets.ID,
                                        compound,
                                        "The scatter of the sample's own injections (the 1/m term of the amount read off the"
                                                + " line) is left out of the budget",
                                        "the precision factor already holds it: "
                                                + effect.words()
                                                + "; both together would count it twice. Only where calibrants of a smaller"
                                                + " amount scatter more than that factor says is the rest of their scatter kept",
                                        SOURCE)));
        if (spread.isPresent() && calibrationHeld(spread.get())) {
            choices.add(
                    new Choice(
                            Budgets.ID,
                            compound,
                            "The uncertainty of the calibration line is left out of the budget",
                            "the precision study was recalibrated daily, so that its scatter holds it already",
                            SOURCE));
        }
        if (spread.filter(Effect.DAY::equals).isPresent() && !recalibratedDaily) {
            choices.add(
                    new Choice(
                            Budgets.ID,
                            compound,
                            "The calibration of one day serves all days",
                            "what was wrong on that day alone is the same error in all results: a bias that recovery shows and"
                                    + " scatter does not",
                            "common practice, no source"));
        }
        return choices;
    }

    /**
     * The inputs with each effect on each side counted once.
     *
     * @param inputs by symbol
     * @param choices what was dropped, in words
     */
    record Once(SortedMap<String, Uncertain> inputs, List<Choice> choices) {
        Once {
            choices = List.copyOf(choices);
        }
    }

    private record Home(Effect effect, ActsOn actsOn) {}

    /** Counts once; {@code found} counts only for amounts of standards, its scatter is no input. */
    Once once(SortedMap<String, Uncertain> inputs, String compound) {
        final SortedMap<String, Uncertain> left = new TreeMap<>(inputs);
        final List<Choice> choices = new ArrayList<>();
        for (Effect effect : Effect.values()) {
            for (ActsOn side : ActsOn.values()) {
                if (!SEVERAL.contains(effect)) {
                    once(new Home(effect, side), left, compound, choices);
                }
            }
        }
        return new Once(left, choices);
    }

    private static void once(
            Home home, SortedMap<String, Uncertain> inputs, String compound, List<Choice> choices) {
        final List<String> claim = new ArrayList<>();
        for (Map.Entry<String, Uncertain> e : inputs.entrySet()) {
            final boolean counts =
                    !e.getKey().equals(BudgetMaker.FOUND)
                            || home.effect() == Effect.STANDARD_AMOUNT;
            if (counts && !e.getValue().only(r -> is(r, home)).roots().isEmpty()) {
                claim.add(e.getKey());
            }
        }
        if (claim.isEmpty()) {
            return;
        }
        // the widest scatter of all stays, even under another name
        final Optional<String> wider =
                inputs.entrySet().stream()
                        .filter(e -> !e.getKey().equals(BudgetMaker.FOUND))
                        .filter(
                                e ->
                                        e.getValue().roots().stream()
                                                .anyMatch(
                                                        r ->
                                                                r.actsOn() == home.actsOn()
                                                                        && r.effect()
                                                                                != home.effect()
                                                                        && r.effect()
                                                                                .contains(
                                                                                        home
                                                                                                .effect())
                                                                        && !home.effect()
                                                                                .contains(
                                                                                        r
                                                                                                .effect())))
                        .map(Map.Entry::getKey)
                        .findFirst();
        final String stays = wider.orElseGet(() -> largest(claim, inputs, home));
        for (String symbol : claim) {
            final Uncertain own = inputs.get(symbol);
            final Uncertain other = inputs.get(stays);
            if (symbol.equals(stays) || own == null || other == null || shared(own, other, home)) {
                continue;
            }
            inputs.put(symbol, own.only(r -> !is(r, home)));
            choices.add(
                    new Choice(
                            Budgets.ID,
                            compound,
                            "The uncertainty of "
                                    + symbol
                                    + " by "
                                    + home.effect().words()
                                    + " is left out of the budget",
                            stays
                                    + " holds the same effect on the same side ("
                                    + home.actsOn().words()
                                    + ")"
                                    + (wider.isPresent()
                                            ? ", from wider conditions"
                                            : ", and is the larger of the two")
                                    + "; both together would count it twice",
                            SOURCE));
        }
    }

    private static String largest(
            List<String> claim, SortedMap<String, Uncertain> inputs, Home home) {
        String largest = claim.get(0);
        double most = -1;
        for (Map.Entry<String, Uncertain> e : inputs.entrySet()) {
            final double size = size(e.getValue(), home);
            if (claim.contains(e.getKey()) && size > most) {
                most = size;
                largest = e.getKey();
            }
        }
        return largest;
    }

    private static boolean is(Root root, Home home) {
        return root.effect() == home.effect() && root.actsOn() == home.actsOn();
    }

    /** The same estimate seen twice is a correlation and no double count. */
    private static boolean shared(Uncertain a, Uncertain b, Home home) {
        final TreeSet<String> pools = new TreeSet<>();
        b.roots().forEach(r -> pools.add(r.pool().id()));
        return a.only(r -> is(r, home)).roots().stream()
                .anyMatch(r -> pools.contains(r.pool().id()));
    }

    private static double size(Uncertain x, Home home) {
        final double u = x.only(r -> is(r, home)).standardUncertainty();
        return x.value() == 0 ? u : u / Math.abs(x.value());
    }

    private boolean scatterTwice(Root root) {
        return root.actsOn() == ActsOn.SAMPLE
                && spread.map(s -> s.contains(root.effect())).orElse(false);
    }

    private boolean calibrationTwice(Root root) {
        return root.actsOn() == ActsOn.CALIBRANT
                && spread.map(this::calibrationHeld).orElse(false)
                && Effect.DAY.contains(root.effect());
    }

    private boolean calibrationHeld(Effect effect) {
        return recalibratedDaily && effect.contains(Effect.DAY);
    }
}
