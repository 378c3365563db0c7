package splitledger.characteristic.maintenance;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import splitledger.base.Numbers;
import splitledger.characteristic.Digits;
import splitledger.characteristic.precision.PrecisionFindings;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.study.Answer;
import splitledger.study.Choice;
import splitledger.study.Finding;
import splitledger.study.Place;
import splitledger.study.Study;
import splitledger.study.Tree;

/**
 * How much responses differ between occasions on which nothing was done.
 *
 * @param sd relative standard deviation; 0 if nothing is known of it
 * @param freedom its degrees of freedom
 * @param source where it comes from; if nothing is known, why
 */
public record OccasionScatter(double sd, double freedom, String source) {
    /** Option of the protocol: relative standard deviation in percent. */
    public static final String SCATTER = "occasion-scatter";

    /** Option of the protocol: its degrees of freedom. */
    public static final String FREEDOM = "occasion-freedom";

    /** Option of the protocol: where it comes from. */
    public static final String SOURCE = "occasion-source";

    private static final Set<String> FACTORS = Set.of("occasion", "day");
    private static final double PERCENT = 100;
    private static final String BATCHES =
            "this batch of injections against that batch: scatter between occasions is not in it";

    /** As the protocol states it, else as repeatability has found it. */
    static OccasionScatter of(Tree.Mapping options, Study study, List<Finding> earlier) {
        final OptionalDouble stated = options.number(SCATTER);
        if (stated.isPresent()) {
            return new OccasionScatter(
                    stated.getAsDouble() / PERCENT,
                    options.number(FREEDOM).orElse(Double.POSITIVE_INFINITY),
                    options.text(SOURCE).orElse("stated in the protocol"));
        }
        return found(study, earlier);
    }

    /**
     * The largest relative scatter between occasions or days that repeatability has estimated for a
     * compound. A bound alone (few labels) is not taken, nor scatter of ratios to an internal
     * standard, which is not that of areas.
     *
     * @param study whose findings they are
     * @param findings of its characteristic {@code repeatability}, among others
     */
    public static OccasionScatter found(Study study, List<Finding> findings) {
        if (study.compounds().internalStandard().isPresent()) {
            return none("responses are ratios to an internal standard, which areas are not");
        }
        OccasionScatter largest = none("repeatability gives none between days or occasions");
        for (Finding f : findings) {
            if (!isBetween(f)) {
                continue;
            }
            final double sd = relative(f, findings);
            if (f.answer() instanceof Answer.Estimate e && sd > largest.sd()) {
                largest =
                        new OccasionScatter(
                                sd,
                                e.degreesOfFreedom(),
                                "sd-between of "
                                        + f.key().compound()
                                        + ", "
                                        + f.key().conditionText()
                                        + ", as repeatability found it");
            } else if (largest.sd() == 0) {
                largest = none(why(f.answer()));
            }
        }
        return largest;
    }

    private static OccasionScatter none(String why) {
        return new OccasionScatter(0, Double.POSITIVE_INFINITY, why);
    }

    private static String why(Answer answer) {
        if (answer instanceof Answer.Bound bound) {
            return "repeatability gives a bound only: " + bound.detail();
        }
        return answer instanceof Answer.NotEstimable not
                ? not.detail()
                : "repeatability estimates none between days or occasions";
    }

    private static boolean isBetween(Finding f) {
        return f.key().quantity().equals("sd-between")
                && f.key().method().equals(PrecisionFindings.MOMENTS)
                && f.key().condition().size() == 1
                && FACTORS.contains(f.key().condition().getOrDefault("factor", ""));
    }

    /** sd-between over the mean, which is sd-repeatability over rsd-repeatability. */
    private static double relative(Finding between, List<Finding> all) {
        final String compound = between.key().compound();
        final OptionalDouble sd = value("sd-repeatability", compound, all);
        final OptionalDouble rsd = value("rsd-repeatability", compound, all);
        if (!(between.answer() instanceof Answer.Estimate e)
                || sd.isEmpty()
                || rsd.isEmpty()
                || !(sd.getAsDouble() > 0)) {
            return 0;
        }
        return e.value() * rsd.getAsDouble() / PERCENT / sd.getAsDouble();
    }

    private static OptionalDouble value(String quantity, String compound, List<Finding> all) {
        for (Finding f : all) {
            if (f.key().quantity().equals(quantity)
                    && f.key().compound().equals(compound)
                    && f.key().condition().isEmpty()
                    && f.key().method().equals(PrecisionFindings.MOMENTS)
                    && f.answer() instanceof Answer.Estimate e) {
                return OptionalDouble.of(e.value());
            }
        }
        return OptionalDouble.empty();
    }

    /** The cause that shifts all responses of an occasion. */
    Root root(String when) {
        return Root.normal(
                Maintenance.ID + "/occasion/" + when,
                new Pool(Maintenance.ID + "/occasions", freedom, source),
                Effect.DAY,
                ActsOn.BOTH,
                source);
    }

    /** What a reader must know beside each change. */
    String note() {
        return sd > 0 ? "" : BATCHES;
    }

    /** The decision, in words; nothing to decide without a change. */
    Choice choice() {
        return sd > 0
                ? new Choice(
                        Maintenance.ID,
                        "",
                        "Scatter between occasions enters every change",
                        "relative standard deviation "
                                + Digits.three(PERCENT * sd)
                                + " % of an occasion, "
                                + (Double.isInfinite(freedom)
                                        ? "taken as known"
                                        : Digits.three(freedom) + " degrees of freedom")
                                + "; more injections do not lessen it",
                        source)
                : new Choice(
                        Maintenance.ID,
                        "",
                        "This batch of injections is compared with that batch",
                        "scatter between occasions is not in the intervals, and 'restored' says nothing of it: "
                                + source,
                        "stated in the protocol, or found by repeatability, it would enter");
    }

    /** Options of a protocol that state this; the same options if nothing is known. */
    public Tree.Mapping in(Tree.Mapping options) {
        if (!(sd > 0)) {
            return options;
        }
        final Map<String, Tree> all = new LinkedHashMap<>(options.entries());
        all.put(SCATTER, text(Numbers.text(PERCENT * sd)));
        all.put(FREEDOM, text(Numbers.text(freedom)));
        all.put(SOURCE, text(source));
        return new Tree.Mapping(Place.NONE, all);
    }

    private static Tree text(String text) {
        return new Tree.Scalar(Place.NONE, text, true);
    }
}
