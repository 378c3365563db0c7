package splitledger.study;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Shape;
import splitledger.propagation.Uncertain;
import splitledger.study.Standards.Diluted;
import splitledger.study.Standards.Portion;
import splitledger.study.Standards.Solution;
import splitledger.study.Standards.Spread;
import splitledger.study.Standards.Vessel;
import splitledger.study.Standards.Weighed;
import splitledger.study.Standards.Weighing;

/**
 * The amounts of the calibrants with all their causes, so that levels, and compounds, correlate
 * through the stock, the vessels and the temperature they share.
 *
 * <p>Weighed: c = m P / V. Diluted: c = sum of c_parent v / V over the portions. To first order
 * (JCGM 100:2008, 5.1.2). Causes: every purity and every weighing; every piece of glassware, once
 * for all its uses (its tolerance); every filling and delivery by itself (repeatability); one
 * temperature for all.
 *
 * <p>Temperature: a vessel adjusted at 20 degC holds V (1 + g (T0 - 20)) at the laboratory's mean
 * temperature T0, g being the expansion of its material. Amounts are those at T0. A deviation t of
 * the temperature lets it take in less liquid, counted at T0, by V (s - g) t, s being the expansion
 * of the solvent. In a dilution the deviations of pipette and flask cancel, as they do on the
 * bench; in the making of a stock they stay, the same for all levels.
 */
public final class StandardAmounts {
    private static final String PREFIX = "standards/";
    private static final String FILLING = "/filling";
    private static final String MILLILITRES = "mL";
    private static final Map<String, Double> PER_MILLIGRAM_IN_MILLILITRE = units();

    private final Standards tree;
    private final String unit;
    private final double factor;
    private final Map<String, SortedMap<String, Uncertain>> amounts = new LinkedHashMap<>();

    private StandardAmounts(Standards tree, String unit, double factor) {
        this.tree = tree;
        this.unit = unit;
        this.factor = factor;
        tree.solutions().values().forEach(s -> amounts.put(s.name(), make(s)));
    }

    /** Units of amount that can be told from weighings and volumes, in order of the list. */
    public static List<String> knownUnits() {
        return List.copyOf(PER_MILLIGRAM_IN_MILLILITRE.keySet());
    }

    /**
     * The amounts of a tree.
     *
     * @param unit of the amounts, one of {@link #knownUnits}
     * @throws IllegalArgumentException for another unit
     */
    public static StandardAmounts of(Standards tree, String unit) {
        final Double factor = PER_MILLIGRAM_IN_MILLILITRE.get(unit);
        if (factor == null) {
            throw new IllegalArgumentException("no mass concentration: " + unit);
        }
        return new StandardAmounts(tree, unit, factor);
    }

    /** The amount of a compound in a solution; empty if the tree does not tell it. */
    public Optional<Uncertain> amount(String solution, String compound) {
        return Optional.ofNullable(amounts.getOrDefault(solution, new TreeMap<>()).get(compound));
    }

    /** Whether a cause is a filling or delivery in the making of this solution itself. */
    public static boolean isFillingOf(Root root, String solution) {
        return root.id().startsWith(PREFIX + solution + "/") && root.id().endsWith(FILLING);
    }

    /** How the amount is calculated, from the weighing on. */
    public Trail trail(String solution, String compound) {
        final List<Trail.Step> steps = new ArrayList<>();
        steps(solution, compound, steps);
        return new Trail(steps);
    }

    private SortedMap<String, Uncertain> make(Solution solution) {
        final Uncertain volume =
                volume(solution.into(), solution.into().volume(), solution, "into");
        final SortedMap<String, Uncertain> made = new TreeMap<>();
        if (solution instanceof Weighed weighed) {
            weighed.weighings()
                    .forEach((c, w) -> made.put(c, weighed(c, w, volume, solution.name())));
            return made;
        }
        final List<Portion> portions = ((Diluted) solution).portions();
        for (int i = 0; i < portions.size(); i++) {
            final Portion p = portions.get(i);
            final Uncertain taken = volume(p.with(), p.volume(), solution, "with " + (i + 1));
            amounts.getOrDefault(p.of(), new TreeMap<>())
                    .forEach(
                            (c, parent) ->
                                    made.merge(c, diluted(parent, taken, volume), this::sum));
        }
        return made;
    }

    private Uncertain weighed(String compound, Weighing w, Uncertain volume, String solution) {
        final Uncertain mass =
                value(
                        w.mass(),
                        "mg",
                        w.massError(),
                        PREFIX + solution + "/mass/" + compound,
                        "weighing of " + compound + " for " + solution);
        final Uncertain purity =
                value(
                        w.purity(),
                        "1",
                        w.purityError(),
                        PREFIX
                                + "purity/"
                                + compound
                                + "/"
                                + w.purity()
                                + "/"
                                + w.purityError().standardUncertainty(),
                        "purity of " + compound + (w.source().isEmpty() ? "" : ": " + w.source()));
        final double c = factor * w.mass() * w.purity() / volume.value();
        return Uncertain.combine(
                c,
                unit,
                new double[] {c / w.mass(), c / w.purity(), -c / volume.value()},
                List.of(mass, purity, volume));
    }

    private Uncertain diluted(Uncertain parent, Uncertain taken, Uncertain volume) {
        final double ratio = taken.value() / volume.value();
        final double c = parent.value() * ratio;
        return Uncertain.combine(
                c,
                unit,
                new double[] {ratio, parent.value() / volume.value(), -c / volume.value()},
                List.of(parent, taken, volume));
    }

    private Uncertain sum(Uncertain a, Uncertain b) {
        return Uncertain.combine(a.value() + b.value(), unit, new double[] {1, 1}, List.of(a, b));
    }

    /** A volume at the laboratory's mean temperature, in mL. */
    private Uncertain volume(Vessel vessel, double adjusted, Solution solution, String use) {
        final double warmer =
                tree.laboratory().map(t -> t.celsius() - Standards.ADJUSTED_AT).orElse(0.0);
        final double value = adjusted * (1 + vessel.expansion() * warmer);
        final SortedMap<Root, Double> parts = new TreeMap<>();
        if (vessel.tolerance().standardUncertainty() > 0) {
            final String id = PREFIX + "piece/" + vessel.piece();
            final String words = vessel.kind() + " (" + vessel.source() + ")";
            parts.put(
                    root(id, vessel.tolerance().shape(), words),
                    vessel.tolerance().standardUncertainty());
        }
        if (vessel.repeatability() > 0) {
            final String id = PREFIX + solution.name() + "/" + use + FILLING;
            parts.put(
                    root(id, "normal", "repeatability of " + vessel.kind()),
                    vessel.repeatability());
        }
        tree.laboratory()
                .filter(t -> t.halfWidth() > 0)
                .ifPresent(
                        t ->
                                parts.put(
                                        root(
                                                PREFIX + "temperature",
                                                "rectangular",
                                                "temperature of the laboratory"),
                                        -value
                                                * (tree.expansion() - vessel.expansion())
                                                * t.halfWidth()
                                                / new Shape.Rectangular().halfWidthInDeviations()));
        return Uncertain.of(value, MILLILITRES, parts);
    }

    private static Uncertain value(
            double value, String unit, Spread error, String id, String words) {
        return error.standardUncertainty() > 0
                ? Uncertain.of(
                        value, unit, root(id, error.shape(), words), error.standardUncertainty())
                : Uncertain.exact(value, unit);
    }

    private static Root root(String id, String shape, String words) {
        final Shape law =
                switch (shape) {
                    case "rectangular" -> new Shape.Rectangular();
                    case "triangular" -> new Shape.Triangular();
                    default -> new Shape.Normal();
                };
        return new Root(
                id, Pool.known(id, words), Effect.STANDARD_AMOUNT, ActsOn.CALIBRANT, law, words);
    }

    private void steps(String name, String compound, List<Trail.Step> steps) {
        final Solution solution = tree.solutions().get(name);
        final Optional<Uncertain> amount = amount(name, compound);
        if (solution == null || amount.isEmpty()) {
            return;
        }
        final double volume =
                volume(solution.into(), solution.into().volume(), solution, "").value();
        final String words = compound + " in " + name;
        if (solution instanceof Weighed weighed) {
            weighed.weighings().entrySet().stream()
                    .filter(e -> e.getKey().equals(compound))
                    .forEach(
                            e ->
                                    steps.add(
                                            new Trail.Step(
                                                    words,
                                                    "mass * purity / volume",
                                                    Trail.digits(e.getValue().mass())
                                                            + " mg * "
                                                            + Trail.digits(e.getValue().purity())
                                                            + " / "
                                                            + Trail.digits(volume)
                                                            + " mL"
                                                            + conversion(),
                                                    amount.get().value(),
                                                    unit)));
            return;
        }
        final List<String> numbers = new ArrayList<>();
        for (Portion p : ((Diluted) solution).portions()) {
            amount(p.of(), compound)
                    .ifPresent(
                            parent -> {
                                steps(p.of(), compound, steps);
                                final double v = volume(p.with(), p.volume(), solution, "").value();
                                numbers.add(
                                        Trail.digits(parent.value())
                                                + " * "
                                                + Trail.digits(v)
                                                + " mL");
                            });
        }
        final String taken = String.join(" + ", numbers);
        steps.add(
                new Trail.Step(
                        words,
                        "amount of the parent * volume taken / volume made up to",
                        (numbers.size() > 1 ? "(" + taken + ")" : taken)
                                + " / "
                                + Trail.digits(volume)
                                + " mL",
                        amount.get().value(),
                        unit));
    }

    /** From mg/mL to the unit of the amounts. */
    private String conversion() {
        return factor == 1 ? "" : " * " + Trail.digits(factor) + " (mg/mL to " + unit + ")";
    }

    private static Map<String, Double> units() {
        final Map<String, Double> units = new LinkedHashMap<>();
        for (String u :
                List.of("mg/L", "ug/mL", "\u00b5g/mL", "\u03bcg/mL", "ng/uL", "ng/\u00b5L")) {
            units.put(u, 1e3);
        }
        for (String u : List.of("g/L", "mg/mL", "ug/uL")) {
            units.put(u, 1.0);
        }
        for (String u : List.of("ug/L", "\u00b5g/L", "\u03bcg/L", "ng/mL", "pg/uL")) {
            units.put(u, 1e6);
        }
        return units;
    }
}
