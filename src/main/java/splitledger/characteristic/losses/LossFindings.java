package splitledger.characteristic.losses;

import java.util.ArrayList;
import java.util.Arrays;
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
import splitledger.statistics.CrossingRange;
import splitledger.statistics.Moments;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.Quantiles;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Rows;
import splitledger.study.Trail;

/** Findings about the breakdown of one parent on one basis. */
final class LossFindings {
    private static final double PERCENT = 100;
    private static final String RATE_UNIT = "1/s";

    /** Above this standard uncertainty of the power of time nothing is said about the order. */
    private static final double TELLS = 0.25;

    private final LossOptions options;
    private final LossRows rows;
    private final double coverage;
    private final List<Finding> findings = new ArrayList<>();

    LossFindings(LossOptions options, LossRows rows, double coverage) {
        this.options = options;
        this.rows = rows;
        this.coverage = coverage;
    }

    /** Those made so far. */
    List<Finding> all() {
        return List.copyOf(findings);
    }

    /** The breakdown under every condition. */
    void breakdown(LossBasis basis) {
        for (LossRows.Group g : rows.groups()) {
            final Key key = conditioned(key("breakdown", basis.method()), g);
            final Finding made =
                    Finding.of(
                            key,
                            g.hidden() ? bound(basis, g) : measured(basis, g),
                            g.rows(),
                            note(basis, g));
            findings.add(g.hidden() ? made : made.with(worked(basis, g)));
        }
        if (rows.groups().isEmpty()) {
            add(
                    key("breakdown", basis.method()),
                    Answers.not("%", Reason.NO_ROWS, "no injection holds the parent"),
                    "");
        }
    }

    private Answer measured(LossBasis basis, LossRows.Group g) {
        final Uncertain x = basis.of(g);
        return x.roots().isEmpty()
                ? new Answer.Statistic(PERCENT * x.value(), "%")
                : Answers.student(x.scaled(PERCENT, "%"), coverage);
    }

    /** From what was seen to what can have been there, each end with the scatter of injections. */
    private Answer bound(LossBasis basis, LossRows.Group g) {
        final double low = Moments.ofAll(basis.values(g)).mean();
        final double high = Arrays.stream(basis.atMost(g)).average().orElse(Double.NaN);
        final double half =
                basis.law()
                        .fold(
                                l -> {
                                    final double at = Math.abs(low * (1 - low));
                                    return Quantiles.coverageFactor(
                                                    coverage, l.degreesOfFreedom(at))
                                            * Math.sqrt(l.variance(at) / g.shots().size());
                                },
                                not -> 0.0);
        final double lower = Math.max(0, basis.without(low) - half);
        return new Answer.Bound(
                OptionalDouble.empty(),
                "%",
                lower > 0 ? OptionalDouble.of(PERCENT * lower) : OptionalDouble.empty(),
                Double.isNaN(high)
                        ? OptionalDouble.empty()
                        : OptionalDouble.of(PERCENT * (basis.without(high) + half)),
                coverage,
                "product-not-found",
                "a product was not found in some injection: its area lies between 0 and what the"
                        + " integrator lets pass (the option threshold, else the smallest area of a"
                        + " product that was found)");
    }

    private String note(LossBasis basis, LossRows.Group g) {
        final List<String> words = new ArrayList<>();
        if (!g.hidden() && basis.of(g).roots().isEmpty()) {
            words.add(
                    g.shots().size() == 1
                            ? "one injection and no other repeated: no uncertainty can be given"
                            : "the injections agree exactly: no uncertainty can be told from them");
        }
        if (basis.isCorrected()) {
            words.add(
                    options.responseUncertainty().isPresent()
                            ? "each product divided by its response relative to the parent's"
                            : "each product divided by its response relative to the parent's, taken as"
                                    + " exact: response-uncertainty is not stated");
        } else {
            words.add(
                    "of areas as they are, as the limits of others have it; a limit that is passed asks"
                            + " for work at the bench (liner, seal, temperature), never for corrected"
                            + " results");
        }
        return String.join(". ", words);
    }

    private Trail worked(LossBasis basis, LossRows.Group g) {
        final LossRows.Shot shot = g.shots().get(0);
        final List<String> sum = new ArrayList<>();
        for (double area : shot.areas()) {
            sum.add(Trail.signed(area));
        }
        return new Trail(
                List.of(
                        new Trail.Step(
                                "Breakdown of the first injection"
                                        + (basis.method().equals("raw")
                                                ? ""
                                                : ", before it is corrected ("
                                                        + basis.method()
                                                        + ")"),
                                "sum of products / (parent + sum of products)",
                                "("
                                        + String.join(" + ", sum)
                                        + ") / ("
                                        + Trail.digits(shot.parentArea())
                                        + " + "
                                        + String.join(" + ", sum)
                                        + ")",
                                rawShare(shot) * PERCENT,
                                "%"),
                        new Trail.Step(
                                "Mean of all injections under this condition, corrected as the method says",
                                "mean of x",
                                g.shots().size()
                                        + (g.shots().size() == 1 ? " injection" : " injections"),
                                basis.of(g).value() * PERCENT,
                                "%")));
    }

    private static double rawShare(LossRows.Shot shot) {
        final double products = shot.areas().stream().mapToDouble(Double::doubleValue).sum();
        return products / (shot.parentArea() + products);
    }

    /** Quantities of a fitted line, or their reason. */
    void kinetics(Outcome<LossLine> outcome, LossBasis basis) {
        final OptionalDouble middle = middle();
        Key rate = key("apparent-rate", basis.method());
        if (middle.isPresent()) {
            rate = rate.with("inlet-temperature", Numbers.text(middle.getAsDouble()));
        }
        final Key energy = key("activation-energy", basis.method());
        final Key curvature = key("arrhenius-curvature-p", basis.method());
        if (outcome instanceof Outcome.NotComputed<LossLine> not) {
            add(energy, Answers.not("kJ/mol", not), "");
            add(rate, Answers.not(RATE_UNIT, not), "");
            add(curvature, Answers.not("1", not), "");
            return;
        }
        final LossLine line = ((Outcome.Computed<LossLine>) outcome).value();
        final String order = order(line);
        add(energy, Answers.student(line.activationEnergy(), coverage), order);
        add(rate, rate(line, middle.orElse(Double.NaN)), rateNote(order));
        final double p = line.curvatureP().orElse(Double.NaN);
        add(
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
    OptionalDouble middle() {
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

    /** The temperature at which the breakdown reaches a limit, for every ratio. */
    void highest(Outcome<LossLine> outcome, LossBasis basis, OptionalDouble limit) {
        for (LossRows.Group g : flows()) {
            Key key = key("highest-inlet-temperature", basis.method());
            if (rows.severalRatios()) {
                key = key.with("ratio", Numbers.text(g.ratio()));
            }
            if (limit.isEmpty() || !(limit.getAsDouble() > 0 && limit.getAsDouble() < 1)) {
                add(
                        key,
                        Answers.not(
                                "degC",
                                Reason.NO_LIMIT_STATED,
                                "no requirement on breakdown and no option limit"),
                        "");
                continue;
            }
            final Answer answer =
                    outcome.fold(
                            line -> highest(line, limit.getAsDouble(), g),
                            not -> Answers.not("degC", not));
            add(
                    key,
                    answer,
                    "for a breakdown of "
                            + Digits.three(PERCENT * limit.getAsDouble())
                            + " %; for this flow, liner and amount only");
        }
    }

    /** One condition of every ratio. */
    private List<LossRows.Group> flows() {
        final List<LossRows.Group> one = new ArrayList<>();
        for (LossRows.Group g : rows.groups()) {
            if (one.stream().noneMatch(o -> Double.compare(o.ratio(), g.ratio()) == 0)) {
                one.add(g);
            }
        }
        return one;
    }

    private Answer highest(LossLine line, double limit, LossRows.Group flow) {
        final double wanted = FastMath.log(-FastMath.log1p(-limit));
        final CrossingRange range =
                CrossingRange.of(
                        t -> line.logTimes(t, flow).value() - wanted,
                        t -> {
                            final Uncertain at = line.logTimes(t, flow);
                            return Quantiles.coverageFactor(coverage, at.degreesOfFreedom())
                                    * at.standardUncertainty();
                        },
                        line.coldest(),
                        line.hottest());
        if (range.value().isPresent() && range.lower().isPresent() && range.upper().isPresent()) {
            final double at = range.value().getAsDouble();
            final Uncertain h = line.logTimes(at, flow);
            final double step = (line.hottest() - line.coldest()) / 1e4;
            final double steepness =
                    (line.logTimes(at + step, flow).value()
                                    - line.logTimes(at - step, flow).value())
                            / (2 * step);
            return Answers.ends(
                    h.scaled(1 / steepness, "degC").at(at),
                    range.lower().getAsDouble(),
                    range.upper().getAsDouble(),
                    coverage);
        }
        final String measured =
                "; measured from "
                        + Trail.digits(line.coldest())
                        + " to "
                        + Trail.digits(line.hottest())
                        + " degC, and nothing is said beyond";
        if (range.lower().isEmpty() && range.upper().isEmpty()) {
            return Answers.not(
                    "degC", Reason.OUTSIDE_RANGE, "the limit may be reached anywhere" + measured);
        }
        return new Answer.Bound(
                range.value(),
                "degC",
                range.lower(),
                range.upper(),
                coverage,
                Reason.OUTSIDE_RANGE.code(),
                (range.value().isPresent()
                                ? "one end of the interval lies outside the temperatures measured"
                                : range.below()
                                        ? "the limit is passed at the lowest temperature already"
                                        : "the limit is not reached at the highest temperature")
                        + measured);
    }

    private Key key(String quantity, String method) {
        return Key.of(Losses.ID, rows.parent(), quantity, method);
    }

    /** A key with the conditions of a group. */
    Key conditioned(Key key, LossRows.Group g) {
        Key all = key;
        if (!Double.isNaN(g.temperature())) {
            all = all.with("inlet-temperature", Numbers.text(g.temperature()));
        }
        return rows.severalRatios() && !Double.isNaN(g.ratio())
                ? all.with("ratio", Numbers.text(g.ratio()))
                : all;
    }

    /** Adds a finding about all rows. */
    void add(Key key, Answer answer, String note) {
        add(key, answer, allRows(), note);
    }

    /** Adds a finding. */
    void add(Key key, Answer answer, Rows about, String note) {
        findings.add(Finding.of(key, answer, about, note));
    }

    private Rows allRows() {
        return Rows.of(
                rows.groups().stream()
                        .flatMap(g -> g.shots().stream())
                        .mapToInt(LossRows.Shot::row)
                        .sorted()
                        .toArray());
    }
}
