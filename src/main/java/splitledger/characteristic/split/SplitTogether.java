package splitledger.characteristic.split;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;
import org.apache.commons.math3.util.FastMath;
import splitledger.base.Numbers;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.statistics.GeneralLeastSquares;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.RatioOffset;
import splitledger.study.Answer;
import splitledger.study.Answers;
import splitledger.study.Choice;
import splitledger.study.Finding;
import splitledger.study.Key;
import splitledger.study.Rows;
import splitledger.study.Trail;
import splitledger.study.Tree;

/**
 * What only all compounds together tell: slope of the exponent with boiling point, offset of the
 * ratio, effective and expected ratios. Slopes are those of a straight line through the compounds'
 * exponents, each counting equally; what the compounds of a set-up share drops out of them.
 */
final class SplitTogether {
    private static final double HUNDRED = 100;

    private final SplitSetUps setUps;
    private final SplitOptions options;
    private final SplitFindings pooled;
    private final List<String> stable;
    private final double coverage;
    private final Tree.Mapping block;
    private final Outcome<SplitPressure> pressure;

    SplitTogether(
            SplitSetUps setUps,
            SplitOptions options,
            SplitFindings pooled,
            List<String> stable,
            double coverage,
            Tree.Mapping block) {
        this.setUps = setUps;
        this.options = options;
        this.pooled = pooled;
        this.stable = List.copyOf(stable);
        this.coverage = coverage;
        this.block = block;
        this.pressure = SplitPressure.of(setUps.protocol(), block);
    }

    List<Finding> all() {
        final List<Finding> all = new ArrayList<>();
        all.add(slope());
        all.add(offset());
        for (Kept k : pooled.kept()) {
            all.add(effective(k));
            final OptionalDouble flows = flows(k.told());
            if (flows.isPresent()) {
                all.add(expected(k.told(), flows.getAsDouble()));
            }
            vent(k.told())
                    .ifPresent(v -> pressure().ifPresent(p -> all.add(byPressure(k.told(), v, p))));
        }
        return all;
    }

    /** Change of the exponent per 100 degC of boiling point. */
    Outcome<GeneralLeastSquares> slopeFit() {
        final List<String> known =
                stable.stream().filter(c -> setUps.boilingPoint(c).isPresent()).toList();
        final double[] x =
                known.stream()
                        .mapToDouble(c -> setUps.boilingPoint(c).orElse(Double.NaN) / HUNDRED)
                        .toArray();
        return contrast(known, x);
    }

    /** Change of the exponent per unit of something that compounds differ in. */
    Outcome<GeneralLeastSquares> contrast(List<String> compounds, double... x) {
        double mean = 0;
        for (double v : x) {
            mean += v / x.length;
        }
        double squares = 0;
        for (double v : x) {
            squares += (v - mean) * (v - mean);
        }
        if (compounds.size() < 2 || !(squares > 0)) {
            return Outcome.not(
                    Reason.TOO_FEW_POINTS,
                    "needs 2 compounds that differ and do not decompose, found "
                            + compounds.size());
        }
        final double[] weights = new double[setUps.compounds().size()];
        for (int i = 0; i < x.length; i++) {
            weights[setUps.compounds().indexOf(compounds.get(i))] = (x[i] - mean) / squares;
        }
        return pooled.line()
                .fold(f -> setUps.fit(weights).line(), n -> Outcome.not(n.reason(), n.detail()));
    }

    private Finding slope() {
        final Answer answer =
                slopeFit()
                        .fold(
                                f ->
                                        Answers.student(
                                                f.coefficients().get(0),
                                                "1/(100 degC)",
                                                f.uncertainty(1),
                                                f.degreesOfFreedom(),
                                                coverage),
                                n -> Answers.not("1/(100 degC)", n));
        return finding(
                key("split-exponent-slope", SplitFindings.METHOD),
                answer,
                "errors of the ratio are the same for all compounds of a set-up and cancel here; it describes these "
                        + stable.size()
                        + " compounds");
    }

    /** The offset of the ratio as the table has it, or why there is none. */
    Outcome<RatioOffset> offsetFit() {
        return pooled.line()
                .fold(
                        f -> RatioOffset.of(pooled.fit(), coverage),
                        n -> Outcome.not(n.reason(), n.detail()));
    }

    private Finding offset() {
        final double add = setUps.conventionOffset();
        final Answer answer =
                offsetFit()
                        .fold(
                                o ->
                                        (Answer)
                                                new Answer.Estimate(
                                                        o.value() + add,
                                                        "1",
                                                        o.standardUncertainty(),
                                                        o.degreesOfFreedom(),
                                                        o.lower() + add,
                                                        o.upper() + add,
                                                        coverage,
                                                        Answer.Law.ENDS,
                                                        Optional.empty()),
                                n -> Answers.not("1", n));
        return finding(
                key("convention-offset", "profile"),
                answer,
                "0: the table holds total to column flow, 1: vent to column flow; the exponent is held at 1. A leak, the"
                        + " septum purge counted in, or a wrong column flow looks the same");
    }

    private Finding effective(Kept kept) {
        final double add = setUps.conventionOffset();
        final double value = (kept.told() + add) * FastMath.exp(-kept.log());
        final Key key =
                key("effective-split-ratio", SplitFindings.METHOD)
                        .with("ratio", Numbers.text(kept.told()));
        final String note =
                "total to column flow, as the responses tell it if the setting "
                        + Trail.digits(options.reference())
                        + " is true";
        if (kept.not().isPresent()) {
            return finding(key, Answers.not("1", kept.not().get()), note);
        }
        return finding(
                key,
                Double.isInfinite(kept.degreesOfFreedom())
                        ? new Answer.Statistic(value, "1")
                        : kept.scaled(value, -1, "1", coverage),
                note);
    }

    /** Mean ratio of a setting by the flows of the table. */
    OptionalDouble flows(double told) {
        return setUps.at(told).stream()
                .mapToDouble(SplitSetUps.SetUp::flowRatio)
                .filter(Double::isFinite)
                .average();
    }

    /**
     * (vent + column flow) / column flow = 1 + q: u = q sqrt(u_v^2 + u_c^2) with the relative
     * uncertainties that the protocol states.
     */
    private Finding expected(double told, double ratio) {
        final Key key = key("expected-split-ratio", "flows").with("ratio", Numbers.text(told));
        final OptionalDouble vent = block.number("vent-flow-uncertainty");
        final OptionalDouble column = block.number("column-flow-uncertainty");
        if (vent.isEmpty() || column.isEmpty()) {
            return finding(
                    key,
                    new Answer.Statistic(ratio, "1"),
                    "from the flows of the table; without an interval, since the protocol does not state"
                            + " vent-flow-uncertainty and column-flow-uncertainty");
        }
        final SortedMap<Root, Double> parts = new TreeMap<>();
        parts.put(meter("vent"), (ratio - 1) * vent.getAsDouble() / HUNDRED);
        parts.put(meter("column"), -(ratio - 1) * column.getAsDouble() / HUNDRED);
        return finding(
                key,
                Answers.student(Uncertain.of(ratio, "1", parts), coverage),
                "from the flows of the table with their uncertainties as stated");
    }

    /** A meter, whose error is the same at every setting. */
    private static Root meter(String flow) {
        final String id = SplitLinearity.ID + "/" + flow + "-flow";
        return Root.normal(
                id,
                Pool.known(id, "stated in the protocol"),
                Effect.SPLIT,
                ActsOn.BOTH,
                flow + "-flow-uncertainty");
    }

    private OptionalDouble vent(double told) {
        return setUps.at(told).stream()
                .mapToDouble(SplitSetUps.SetUp::vent)
                .filter(Double::isFinite)
                .average();
    }

    private Optional<SplitPressure> pressure() {
        return pressure.fold(Optional::of, n -> Optional.empty());
    }

    /** What could not be worked from the pressure although the protocol states it, and why. */
    List<Choice> choices() {
        final boolean flows = setUps.settings().stream().anyMatch(s -> vent(s).isPresent());
        return flows ? pressure.fold(SplitPressure::choices, SplitPressure::without) : List.of();
    }

    private Finding byPressure(double told, double vent, SplitPressure by) {
        final Key key = key("expected-split-ratio", "pressure").with("ratio", Numbers.text(told));
        final OptionalDouble u = block.number("vent-flow-uncertainty");
        final Uncertain ratio = by.ratio(vent, u.orElse(0) / HUNDRED, meter("vent"));
        return u.isPresent() && by.whole()
                ? finding(
                        key,
                        Answers.student(ratio, coverage),
                        "from head pressure, column and vent flow with their uncertainties as stated")
                : finding(
                        key,
                        new Answer.Statistic(ratio.value(), "1"),
                        "from head pressure, column and vent flow; without an interval, since the protocol does not state"
                                + " vent-flow-uncertainty, diameter-uncertainty and head-pressure-uncertainty");
    }

    private static Key key(String quantity, String method) {
        return Key.of(SplitLinearity.ID, "", quantity, method);
    }

    private Finding finding(Key key, Answer answer, String note) {
        final Rows rows = setUps.rows(stable);
        return Finding.of(key, answer, rows, note);
    }
}
