package splitledger.characteristic.split;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
import org.apache.commons.math3.util.FastMath;
import splitledger.characteristic.losses.LossOptions;
import splitledger.study.Choice;
import splitledger.study.Criterion;
import splitledger.study.Study;
import splitledger.study.Trail;
import splitledger.study.Tree;

/**
 * What the protocol wants of the split, completed where it leaves something open.
 *
 * @param reference the setting, as the table has it, that the others are compared with
 * @param margin of the exponent about 1
 * @param labile compounds that decompose in the inlet or are formed there
 * @param choices what was completed and why
 */
record SplitOptions(double reference, double margin, List<String> labile, List<Choice> choices) {
    private static final double USUAL_DEVIATION = 5;
    private static final String ID = SplitLinearity.ID;

    static SplitOptions of(Study study, Tree.Mapping options, List<Double> settings) {
        final List<Choice> choices = new ArrayList<>();
        final double reference = reference(options, settings, choices);
        final double range =
                settings.isEmpty()
                        ? Double.NaN
                        : FastMath.log(settings.get(settings.size() - 1) / settings.get(0));
        final double margin = margin(study, options, range, choices);
        final Tree.Mapping losses =
                study.protocol().characteristics().getOrDefault("losses", Tree.Mapping.EMPTY);
        final List<String> labile = new ArrayList<>(options.texts("labile"));
        LossOptions.labile(losses).stream().filter(c -> !labile.contains(c)).forEach(labile::add);
        if (!labile.isEmpty()) {
            choices.add(
                    new Choice(
                            ID,
                            "",
                            "The exponent of all compounds together is taken without "
                                    + String.join(", ", labile),
                            "what decomposes in the inlet, or is formed there, does so the more the longer it stays: its"
                                    + " response changes with the flow and hence with the ratio",
                            "common practice, no source"));
        }
        return new SplitOptions(reference, margin, List.copyOf(labile), List.copyOf(choices));
    }

    private static double reference(
            Tree.Mapping options, List<Double> settings, List<Choice> choices) {
        if (settings.isEmpty()) {
            return Double.NaN;
        }
        final OptionalDouble wanted = options.number("reference-ratio");
        if (wanted.isEmpty()) {
            final double middle = settings.get(settings.size() / 2);
            choices.add(
                    new Choice(
                            ID,
                            "",
                            "The reference is the middle setting, " + Trail.digits(middle),
                            "the protocol names no reference-ratio; the ratio of the method would be the one to name",
                            "common practice, no source"));
            return middle;
        }
        final double nearest =
                settings.stream()
                        .min(
                                Comparator.comparingDouble(
                                        s -> Math.abs(FastMath.log(s / wanted.getAsDouble()))))
                        .orElse(Double.NaN);
        if (nearest != wanted.getAsDouble()) {
            choices.add(
                    new Choice(
                            ID,
                            "",
                            "The reference is the setting " + Trail.digits(nearest),
                            "no row has the reference-ratio "
                                    + Trail.digits(wanted.getAsDouble())
                                    + "; this setting is the nearest",
                            "common practice, no source"));
        }
        return nearest;
    }

    private static double margin(
            Study study, Tree.Mapping options, double range, List<Choice> choices) {
        if (options.number("margin").isPresent()) {
            return options.number("margin").getAsDouble();
        }
        for (Criterion c : study.protocol().requirements()) {
            if (c.quantity().equals("split-exponent")
                    && c.limit() instanceof Criterion.Limit.Within w
                    && w.equals() == 1) {
                return w.margin();
            }
        }
        final double deviation = options.number("deviation").orElse(USUAL_DEVIATION);
        final double margin = FastMath.log(1 + deviation / 100) / range;
        choices.add(
                new Choice(
                        ID,
                        "",
                        "The margin of the exponent is " + Trail.digits(margin),
                        "no requirement names one; this exponent changes the response by "
                                + Trail.digits(deviation)
                                + " % from the lowest to the highest ratio",
                        options.number("deviation").isPresent()
                                ? "the protocol's deviation"
                                : "5 %: common practice, no source"));
        return margin;
    }
}
