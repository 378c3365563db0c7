package splitledger.characteristic.losses;

import java.util.List;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;
import org.apache.commons.math3.util.FastMath;
import splitledger.base.Numbers;
import splitledger.characteristic.Digits;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.Quantiles;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Key;

/** What the Arrhenius line of one parent says of its rate, its activation energy and its order. */
final class KineticsFindings {
    private static final String RATE_UNIT = "1/s";

    /** Above this standard uncertainty of the power of time nothing is said about the order. */
    private static final double TELLS = 0.25;

    private final LossOptions options;
    private final LossRows rows;
    private final double coverage;
    private final LossFindings to;

    KineticsFindings(LossOptions options, LossRows rows, double coverage, LossFindings to) {
        this.options = options;
        this.rows = rows;
        this.coverage = coverage;
        this.to = to;
    }

    /** Quantities of a fitted line, or their reason. */
    void add(Outcome<LossLine> outcome, LossBasis basis) {
        final OptionalDouble middle = middle();
        Key rate = to.key("apparent-rate", basis.method());
        if (middle.isPresent()) {
            rate = rate.with("inlet-temperature", Numbers.text(middle.getAsDouble()));
        }
        final Key energy = to.key("activation-energy", basis.method());
        final Key curvature = to.key("arrhenius-curvature-p", basis.method());
        if (outcome instanceof Outcome.NotComputed<LossLine> not) {
            to.add(energy, Answers.not("kJ/mol", not), "");
            to.add(rate, Answers.not(RATE_UNIT, not), "");
            to.add(curvature, Answers.not("1", not), "");
            return;
        }
        final LossLine line = ((Outcome.Computed<LossLine>) outcome).value();
        final String order = order(line);
        to.add(energy, Answers.student(line.activationEnergy(), coverage), order);
        to.add(rate, rate(line, middle.orElse(Double.NaN)), rateNote(order));
        final double p = line.curvatureP().orElse(Double.NaN);
        to.add(
                curvature,
                Double.isNaN(p)
                        ? Answers.not("1", Reason.NO_SCATTER, "nothing scatters about the line")
                        : new Answer.Statistic(p, "1"),
                "a small value speaks for two regimes: a surface that is at work at low temperature, or a"
                        + " loss limited by how fast the vapour reaches it; then one activation energy"
                        + " describes neither");
    }

    private String rateNote(String order) {
        final OptionalDouble u = options.relative("residence-time-uncertainty");
        return order
                + (u.isPresent()
                        ? ". The uncertainty of the residence time, as stated, is in it"
                        : ". The residence time is taken as exact: its uncertainty is not stated");
    }

    /** "First order" is said only where two flows were tried and time has the exponent 1. */
    private String order(LossLine line) {
        return line.order()
                .fold(
                        o -> {
                            final double half =
                                    Quantiles.coverageFactor(coverage, o.degreesOfFreedom())
                                            * o.standardUncertainty();
                            final String found =
                                    "the loss grows with the time in the liner to the power "
                                            + Digits.three(o.value())
                                            + " (from "
                                            + Digits.three(o.value() - half)
                                            + " to "
                                            + Digits.three(o.value() + half)
                                            + (options.relative("residence-time-uncertainty")
                                                            .isPresent()
                                                    ? ")"
                                                    : ", flows taken as exact)");
                            if (Math.abs(o.value() - 1) > half) {
                                return found + ": not as first order has it; apparent rate";
                            }
                            return found
                                    + (o.standardUncertainty() <= TELLS
                                            ? ": consistent with first order"
                                            : ": too uncertain to tell the order; apparent rate");
                        },
                        not -> "apparent rate, order not tested: needs at least two flows");
    }

    private Answer rate(LossLine line, double middle) {
        if (!rows.absolute()) {
            return Answers.not(
                    RATE_UNIT,
                    Reason.NO_RESIDENCE_TIME,
                    "the time in the liner is not known: liner-volume, inlet-pressure or a flow is"
                            + " missing. Activation energy and highest temperature need only how it"
                            + " changes");
        }
        if (!(middle >= line.coldest() && middle <= line.hottest())) {
            return Answers.not(
                    RATE_UNIT,
                    Reason.OUTSIDE_RANGE,
                    "the middle of the series lies outside the temperatures on the line");
        }
        final double u = options.relative("residence-time-uncertainty").orElse(0);
        final Root root =
                Root.normal(
                        "losses/residence-time",
                        Pool.known("losses/residence-time", "residence time, as stated"),
                        Effect.REFERENCE_VALUE,
                        ActsOn.BOTH,
                        "losses");
        final SortedMap<Root, Double> part = new TreeMap<>();
        part.put(root, -u);
        final Uncertain k = line.logRate(middle);
        final Uncertain all =
                Uncertain.combine(
                        k.value(),
                        "1",
                        new double[] {1, 1},
                        List.of(k, Uncertain.of(0, "1", part)));
        final double value = FastMath.exp(all.value());
        final double half =
                Quantiles.coverageFactor(coverage, all.degreesOfFreedom())
                        * all.standardUncertainty();
        return Answers.ends(
                all.scaled(value, RATE_UNIT).at(value),
                FastMath.exp(all.value() - half),
                FastMath.exp(all.value() + half),
                coverage);
    }

    /** Middle of the series, degC. */
    private OptionalDouble middle() {
        final double[] steps =
                rows.groups().stream()
                        .mapToDouble(LossRows.Group::temperature)
                        .filter(t -> !Double.isNaN(t))
                        .sorted()
                        .toArray();
        return steps.length == 0
                ? OptionalDouble.empty()
                : OptionalDouble.of((steps[0] + steps[steps.length - 1]) / 2);
    }
}
