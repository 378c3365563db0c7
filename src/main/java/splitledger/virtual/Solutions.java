package splitledger.virtual;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.util.FastMath;
import splitledger.statistics.RandomStream;

/**
 * What a flask really holds. Errors of weighing and diluting belong to the flask, those of a stock
 * to all levels made of it, those of the day and of the analyst to the procedure from a test
 * portion on; calibrants are made by dilution alone and have none of the latter.
 */
final class Solutions {
    private static final double PORTION_STEP = 10;

    private final Design design;
    private final Streams streams;
    private final Peaks peaks;
    private final int standard;
    private final Map<String, double[]> stocks = new HashMap<>();
    private final double[] impurities;

    Solutions(Design design) {
        this(design, new Peaks(design));
    }

    Solutions(Design design, Peaks peaks) {
        this.design = design;
        this.peaks = peaks;
        this.streams = new Streams(design.seed());
        this.standard = peaks.of(design.standardName());
        this.impurities = peaks.array(design.impurities());
        for (Effects.Stock stock : design.stocks()) {
            final double[] factors = new double[peaks.size()];
            for (int i = 0; i < factors.length; i++) {
                factors[i] = streams.factor(stock.mass(), "stock", stock.name(), peaks.name(i));
            }
            stock.levels().forEach(level -> stocks.put(level, factors));
        }
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

    /** True amount of a compound over the stated one in the levels of a stock. */
    double stock(String level, int peak) {
        final double[] factors = stocks.get(level);
        return factors == null ? 1 : factors[peak];
    }

    /**
     * What a flask would hold without any error but the stock's, mg/L, of what the procedure
     * recovers where there is an oil; the internal standard included, impurities not.
     *
     * @param portion test portion, mg; without meaning where the flask holds no oil
     */
    double[] intended(String level, String oil, double portion) {
        final double[] added = peaks.array(design.levels().getOrDefault(level, Map.of()));
        final double[] weighed = peaks.array(design.oils().getOrDefault(oil, Map.of()));
        final double[] amounts = peaks.nothing();
        final double volume = design.preparation().volume().value();
        for (int i = 0; i < amounts.length; i++) {
            final boolean there = !(Double.isNaN(added[i]) && Double.isNaN(weighed[i]));
            if (there) {
                amounts[i] =
                        Peaks.sum(added[i], 0) * stock(level, i)
                                + Peaks.sum(weighed[i], 0) * portion / volume;
                if (!oil.isEmpty()) {
                    amounts[i] *= design.recovery(peaks.name(i));
                }
            }
        }
        design.standard().ifPresent(s -> amounts[standard] = s.amount().value());
        return amounts;
    }

    /** What the flask really holds, mg/L, impurities not included. */
    double[] made(Flask flask) {
        final Design.Preparation p = design.preparation();
        return made(
                flask,
                streams.factor(p.dilution(), "dilution", flask.label()),
                streams.factor(p.standardAddition(), "internal standard", flask.label()));
    }

    /**
     * What the flask was meant to hold: as it was made, but without the errors that every
     * preparation, of calibrants too, has of its own, in dilution and in adding the internal
     * standard.
     */
    double[] meant(Flask flask) {
        return made(flask, 1, 1);
    }

    private double[] made(Flask flask, double diluted, double standardAdded) {
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
        final double[] amounts = intended(flask.level(), flask.oil(), weighed);
        for (int i = 0; i < amounts.length; i++) {
            if (i == standard) {
                amounts[i] *= standardAdded;
            } else if (!Double.isNaN(amounts[i])) {
                final double procedure = oil ? procedure(flask, peaks.name(i)) : 1;
                amounts[i] = amounts[i] * diluted * procedure;
            }
        }
        return amounts;
    }

    private double procedure(Flask flask, String compound) {
        final Design.Preparation p = design.preparation();
        return streams.factor(p.between(), "day", flask.day(), compound)
                * streams.factor(p.analysts(), "analyst", flask.analyst(), compound)
                * streams.factor(
                        p.dayByAnalyst(), "day by analyst", flask.day(), flask.analyst(), compound);
    }

    /** The solution of a flask as it goes into a vial, mg/L. */
    double[] whole(Flask flask) {
        return withImpurities(made(flask));
    }

    /** Adds, in place, what every solution holds. */
    double[] withImpurities(double[] amounts) {
        for (int i = 0; i < amounts.length; i++) {
            if (!Double.isNaN(impurities[i])) {
                amounts[i] = Peaks.sum(amounts[i], impurities[i]);
            }
        }
        return amounts;
    }

    /** What is left in a vial that stood open, if one did at this injection, mg/L. */
    double[] inVial(Injection injection, double[] whole) {
        final List<Plan.Incident> incidents = design.incidents();
        double[] amounts = whole;
        for (Plan.Incident open : incidents) {
            if (open.flask().equals(injection.flask().label())
                    && open.injection() == injection.number()) {
                amounts = amounts.clone();
                for (int i = 0; i < amounts.length; i++) {
                    amounts[i] *= left(open, peaks.name(i));
                }
            }
        }
        return amounts;
    }

    private double left(Plan.Incident open, String compound) {
        final double above =
                Math.max(0, design.compound(compound).boilingPoint() - open.at().value())
                        / open.fall().value();
        final double lost = open.compoundLost().fraction() * FastMath.exp(-above);
        return (1 - lost) / (1 - open.solventLost().fraction());
    }
}
