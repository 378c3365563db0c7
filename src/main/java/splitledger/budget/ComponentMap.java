package splitledger.budget;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Root;
import splitledger.study.Choice;
import splitledger.study.Protocol.Conventions;

/**
 * One home for each contribution: two estimates of the same scatter on the same side are a double
 * count. The one from the widest conditions stays, the other is dropped with a word (Kadis, J.
 * Chromatogr. A 1499 (2017) 226, on precision counted both inside the line formula and as a term of
 * its own).
 */
final class ComponentMap {
    private static final String SOURCE = "Kadis, J. Chromatogr. A 1499 (2017) 226";

    private final Optional<Effect> spread;
    private final boolean recalibratedDaily;

    ComponentMap(Optional<Effect> spread, Conventions conventions) {
        this.spread = spread;
        this.recalibratedDaily = "daily".equals(conventions.recalibrated());
    }

    /** Which roots of the amount found stay. */
    Predicate<Root> kept() {
        return root -> !scatterTwice(root) && !calibrationTwice(root);
    }

    /** What is dropped, in words. */
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
                                                + "; both together would count it twice",
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
        return choices;
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
