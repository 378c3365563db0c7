package splitledger.virtual;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.DoubleUnaryOperator;
import splitledger.base.Numbers;
import splitledger.study.Key;
import splitledger.study.Tree;

/**
 * True breakdown at each inlet temperature, at the flow that really acted: by areas as they are,
 * and with each product's area divided by its response (method {@code response-corrected}); what
 * decomposes of the parent; rate, activation energy, and the temperature at which a limit is
 * reached.
 */
final class LossTruth {
    private static final String OF = "losses";
    private static final String CORRECTED = "response-corrected";
    private static final String TEMPERATURE = "inlet-temperature";
    private static final double COLDEST = 0;
    private static final double HOTTEST = 600;
    private static final int HALVINGS = 60;

    private final TruthSheet sheet;
    private final Design design;

    LossTruth(TruthSheet sheet) {
        this.sheet = sheet;
        this.design = sheet.design();
    }

    void add() {
        for (LinerLoss loss : sheet.physics().losses()) {
            add(loss);
        }
    }

    private void add(LinerLoss loss) {
        final String parent = loss.loss().parent();
        final Map<Double, Map<Double, List<Injection>>> groups = new TreeMap<>();
        final TreeSet<Double> ratios = new TreeSet<>();
        for (Injection i : sheet.injections(TEMPERATURE)) {
            if (!i.onColumn() && amounts(i)[sheet.peaks().of(parent)] > 0) {
                ratios.add(i.split());
                groups.computeIfAbsent(i.temperature(), t -> new TreeMap<>())
                        .computeIfAbsent(i.split(), s -> new ArrayList<>())
                        .add(i);
            }
        }
        if (groups.isEmpty()) {
            return;
        }
        final Map<Double, Double> acting = new TreeMap<>();
        groups.forEach(
                (temperature, bySplit) ->
                        bySplit.forEach(
                                (split, injections) -> {
                                    final double ratio = acting(injections);
                                    acting.putIfAbsent(split, ratio);
                                    at(
                                            loss,
                                            injections.get(0),
                                            ratio,
                                            ratios.size() > 1 ? Numbers.text(split) : "");
                                }));
        for (Map.Entry<Double, Double> e : acting.entrySet()) {
            final String ratio = ratios.size() > 1 ? Numbers.text(e.getKey()) : "";
            final double[] amounts =
                    amounts(groups.values().iterator().next().values().iterator().next().get(0));
            limit(parent).ifPresent(l -> highest(loss, amounts, e.getValue(), ratio, l));
        }
        final List<Double> steps = List.copyOf(groups.keySet());
        final double middle = (steps.get(0) + steps.get(steps.size() - 1)) / 2;
        sheet.add(
                Key.of(OF, parent, "activation-energy", ""),
                loss.loss().activationEnergy().value(),
                "kJ/mol");
        sheet.add(
                Key.of(OF, parent, "apparent-rate", "").with(TEMPERATURE, Numbers.text(middle)),
                loss.rate(middle),
                "1/s");
    }

    private double[] amounts(Injection injection) {
        return sheet.solutions().intended(injection.flask().level(), injection.flask().oil(), 0);
    }

    /** Mean of the ratios that acted. */
    private double acting(List<Injection> injections) {
        return injections.stream()
                .mapToDouble(i -> sheet.physics().ratio(i))
                .average()
                .orElse(sheet.workingRatio());
    }

    private void at(LinerLoss loss, Injection injection, double ratio, String told) {
        final double temperature = injection.temperature();
        final double lost = loss.decomposed(ratio, temperature);
        final double found = found(loss, ratio, temperature);
        if (sheet.isLinear()) {
            put(
                    loss,
                    "breakdown",
                    "",
                    temperature,
                    told,
                    share(loss, amounts(injection), ratio, temperature));
        }
        put(loss, "breakdown", CORRECTED, temperature, told, found);
        put(loss, "unexplained-deficit", "", temperature, told, lost);
        put(loss, "remaining-loss", "", temperature, told, 1 - (1 - lost) / (1 - found));
    }

    private void put(
            LinerLoss loss,
            String quantity,
            String method,
            double temperature,
            String ratio,
            double share) {
        final Key key =
                Key.of(OF, loss.loss().parent(), quantity, method)
                        .with(TEMPERATURE, Numbers.text(temperature));
        sheet.add(
                ratio.isEmpty() ? key : key.with("ratio", ratio), TruthSheet.PERCENT * share, "%");
    }

    /** Areas of the products over these and the parent's. */
    private double share(LinerLoss loss, double[] amounts, double ratio, double temperature) {
        final double[] areas = sheet.physics().expected(amounts, ratio, temperature, "");
        double products = 0;
        for (String product : loss.loss().products().keySet()) {
            products += Peaks.sum(areas[sheet.peaks().of(product)], 0);
        }
        return products / (products + areas[sheet.peaks().of(loss.loss().parent())]);
    }

    /** Moles of the products over these and the parent's. */
    private static double found(LinerLoss loss, double ratio, double temperature) {
        final double lost = loss.decomposed(ratio, temperature);
        final double shares =
                loss.loss().products().values().stream().mapToDouble(Parameter::fraction).sum();
        return shares * lost / (1 - lost + shares * lost);
    }

    /** A limit for the breakdown that the design's own block asks for, as a share. */
    private OptionalDouble limit(String parent) {
        if (design.protocol().get("requirements").orElse(Tree.Mapping.EMPTY)
                instanceof Tree.Sequence list) {
            for (Tree item : list.items()) {
                if (item instanceof Tree.Mapping r
                        && r.text("quantity").orElse("").equals("breakdown")
                        && r.text("of").orElse(parent).equals(parent)
                        && r.text("at-most").orElse("").endsWith("%")) {
                    final String number = r.text("at-most").orElse("").replace("%", "").strip();
                    final OptionalDouble percent =
                            new Tree.Scalar(r.place(), number, false).number();
                    return percent.isPresent()
                            ? OptionalDouble.of(percent.getAsDouble() / TruthSheet.PERCENT)
                            : percent;
                }
            }
        }
        return OptionalDouble.empty();
    }

    /** The temperature at which breakdown reaches the limit, by areas and by moles. */
    private void highest(
            LinerLoss loss, double[] amounts, double ratio, String told, double limit) {
        final Key key = Key.of(OF, loss.loss().parent(), "highest-inlet-temperature", "");
        final Key keyed = told.isEmpty() ? key : key.with("ratio", told);
        if (sheet.isLinear()) {
            reached(t -> share(loss, amounts, ratio, t), limit)
                    .ifPresent(t -> sheet.add(keyed, t, "degC"));
        }
        reached(t -> found(loss, ratio, t), limit)
                .ifPresent(
                        t ->
                                sheet.add(
                                        new Key(
                                                OF,
                                                keyed.compound(),
                                                keyed.condition(),
                                                keyed.quantity(),
                                                CORRECTED),
                                        t,
                                        "degC"));
    }

    /** Breakdown grows with temperature. */
    private static OptionalDouble reached(DoubleUnaryOperator breakdown, double limit) {
        double low = COLDEST;
        double high = HOTTEST;
        if (breakdown.applyAsDouble(low) > limit || breakdown.applyAsDouble(high) < limit) {
            return OptionalDouble.empty();
        }
        for (int i = 0; i < HALVINGS; i++) {
            final double middle = (low + high) / 2;
            if (breakdown.applyAsDouble(middle) > limit) {
                high = middle;
            } else {
                low = middle;
            }
        }
        return OptionalDouble.of(low);
    }
}
