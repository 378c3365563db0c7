package splitledger.virtual;

import java.util.LinkedHashMap;
import java.util.Map;
import org.apache.commons.math3.util.FastMath;
import splitledger.statistics.RandomStream;

/**
 * What a flask really holds. Errors of weighing and diluting belong to the flask, those of the day
 * and of the analyst to the procedure from a test portion on; calibrants are made by dilution alone
 * and have neither.
 */
final class Solutions {
    private static final double PORTION_STEP = 10;

    private final Design design;
    private final Streams streams;

    Solutions(Design design) {
        this.design = design;
        this.streams = new Streams(design.seed());
    }

    /**
     * The test portion as the balance shows it, mg, to one decimal; only of flasks with an oil.
     * Uniform over the range of the design.
     */
    double portion(Flask flask) {
        final Design.Range range = design.preparation().portion();
        final RandomStream random = streams.of("portion", flask.label());
        final double mg = range.from() + random.nextDouble() * (range.to() - range.from());
        return Math.rint(mg * PORTION_STEP) / PORTION_STEP;
    }

    /**
     * What a flask would hold without any error, mg/L by compound in the order of the columns; the
     * internal standard included, impurities not.
     *
     * @param portion test portion, mg; without meaning where the flask holds no oil
     */
    Map<String, Double> intended(String level, String oil, double portion) {
        final Map<String, Double> amounts = new LinkedHashMap<>();
        final Map<String, Double> added = design.levels().getOrDefault(level, Map.of());
        final Map<String, Double> weighed = design.oils().getOrDefault(oil, Map.of());
        final double volume = design.preparation().volume().value();
        for (String compound : design.compounds().keySet()) {
            if (compound.equals(design.standard().compound())) {
                amounts.put(compound, design.standard().amount().value());
            } else if (added.containsKey(compound) || weighed.containsKey(compound)) {
                amounts.put(
                        compound,
                        added.getOrDefault(compound, 0.0)
                                + weighed.getOrDefault(compound, 0.0) * portion / volume);
            }
        }
        return amounts;
    }

    /** What the flask really holds, mg/L by compound, impurities not included. */
    Map<String, Double> made(Flask flask) {
        final Design.Preparation p = design.preparation();
        final String label = flask.label();
        final boolean oil = !flask.oil().isEmpty();
        double weighed = 0;
        if (oil) {
            final double mass =
                    portion(flask) + p.balance().value() * streams.normal("balance", label);
            final double volume =
                    p.volume().value() + p.flaskVolume().value() * streams.normal("flask", label);
            weighed = mass * p.volume().value() / volume;
        }
        final Map<String, Double> amounts = intended(flask.level(), flask.oil(), weighed);
        final double diluted = factor(p.dilution(), "dilution", label);
        final double standard = factor(p.standardAddition(), "internal standard", label);
        for (Map.Entry<String, Double> e : amounts.entrySet()) {
            final String compound = e.getKey();
            if (compound.equals(design.standard().compound())) {
                e.setValue(e.getValue() * standard);
            } else {
                final double procedure =
                        oil
                                ? factor(p.between(), "day", flask.day(), compound)
                                        * factor(p.analysts(), "analyst", flask.analyst(), compound)
                                : 1;
                e.setValue(e.getValue() * diluted * procedure);
            }
        }
        return amounts;
    }

    /** What is in the vial at this injection: the flask's solution, unless the vial stood open. */
    Map<String, Double> inVial(Injection injection) {
        final Map<String, Double> amounts = made(injection.flask());
        design.impurities()
                .forEach((compound, amount) -> amounts.merge(compound, amount, Double::sum));
        for (Design.Incident open : design.incidents()) {
            if (open.flask().equals(injection.flask().label())
                    && open.injection() == injection.number()) {
                amounts.replaceAll((compound, amount) -> amount * left(open, compound));
            }
        }
        return amounts;
    }

    private double left(Design.Incident open, String compound) {
        final double above =
                Math.max(0, design.compound(compound).boilingPoint() - open.at().value())
                        / open.fall().value();
        final double lost = open.compoundLost().fraction() * FastMath.exp(-above);
        return (1 - lost) / (1 - open.solventLost().fraction());
    }

    private double factor(Parameter scatter, String cause, String... on) {
        return 1 + scatter.fraction() * streams.normal(cause, on);
    }
}
