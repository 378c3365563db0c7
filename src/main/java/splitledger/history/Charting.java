package splitledger.history;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.util.FastMath;
import splitledger.statistics.MovingAverage;
import splitledger.statistics.MovingRange;
import splitledger.statistics.Outcome;
import splitledger.statistics.RunRules;
import splitledger.statistics.SpreadChart;

/**
 * Sets limits on one series and says what its points show. Standard deviations are held against the
 * others' by F; everything else by moving ranges on its scale. Limits are not widened by a value's
 * own uncertainty: much of it (masses, response factors) is the same in all dossiers, and it often
 * grows with the very change that is looked for. {@link TrendWords} says where it is large.
 */
final class Charting {
    private static final double SAME = 1e-12;
    private static final double FAR = 8;
    private static final double STEP = 3;

    private final Watched watched;
    private final Scale scale;
    private final TrendOptions options;
    private final List<ChartPoint> points = new ArrayList<>();
    private final List<String> remarks;

    private Charting(Watched watched, Scale scale, TrendOptions options, List<String> remarks) {
        this.watched = watched;
        this.scale = scale;
        this.options = options;
        this.remarks = new ArrayList<>(remarks);
    }

    /** A chart of values in order of time, all given. */
    static Chart chart(
            SeriesKey key,
            List<DatedValue> values,
            List<History.Work> works,
            List<DatedValue> missing,
            List<String> remarks,
            TrendOptions options) {
        final Scale scale = key.watched().scale().forAll(values);
        final Charting charting = new Charting(key.watched(), scale, options, remarks);
        if (scale != key.watched().scale()) {
            charting.remarks.add(
                    "Limits are set on another scale than usual ("
                            + scale.words()
                            + "), since not every value fits the usual one ("
                            + key.watched().scale().words()
                            + ").");
        }
        int from = 0;
        int stretch = 1;
        for (int i = 1; i <= values.size(); i++) {
            if (i == values.size() || isBetween(works, options, values.get(i - 1), values.get(i))) {
                charting.stretch(values.subList(from, i), stretch++);
                from = i;
            }
        }
        return new Chart(
                key,
                values.get(0).method(),
                scale,
                charting.points,
                works,
                missing,
                charting.remarks);
    }

    private static boolean isBetween(
            List<History.Work> works, TrendOptions options, DatedValue before, DatedValue after) {
        return works.stream()
                .filter(options::isBoundary)
                .anyMatch(w -> w.days() > before.days() && w.days() <= after.days());
    }

    private void stretch(List<DatedValue> values, int stretch) {
        final int base = Math.min(values.size(), options.base());
        if (scale == Scale.SPREAD) {
            spreads(values, stretch, base);
            return;
        }
        final double[] t = values.stream().mapToDouble(v -> scale.forth(v.value())).toArray();
        if (values.size() < TrendOptions.LEAST_BASE) {
            withoutLimits(values, stretch, t);
            return;
        }
        final MovingRange limits = MovingRange.of(Arrays.copyOf(t, base));
        final double size = Arrays.stream(t).map(Math::abs).max().orElse(0);
        if (limits.sd() <= SAME * Math.max(1, size)) {
            equal(values, stretch, base);
            return;
        }
        individuals(values, stretch, base, t, limits);
    }

    private void individuals(
            List<DatedValue> values, int stretch, int base, double[] t, MovingRange limits) {
        final double[] sd = new double[t.length];
        Arrays.fill(sd, limits.sd());
        final double[] z = new double[t.length];
        for (int i = 0; i < t.length; i++) {
            z[i] = (t[i] - limits.centre()) / sd[i];
        }
        final List<MovingAverage.Step> averages =
                MovingAverage.of(t, sd, limits.centre(), MovingAverage.WEIGHT, MovingAverage.WIDTH);
        final List<List<RunRules.Signal>> rules = RunRules.of(z);
        for (int i = 0; i < t.length; i++) {
            final MovingAverage.Step average = averages.get(i);
            final List<Signal> signals = signals(rules.get(i), average.outside());
            double range = Double.NaN;
            double rangeUpper = Double.NaN;
            if (i > 0) {
                range = Math.abs(t[i] - t[i - 1]);
                rangeUpper = limits.rangeUpper();
                if (range > rangeUpper) {
                    signals.add(Signal.of(Signal.Kind.JUMP, t[i] > t[i - 1] ? 1 : -1, watched));
                }
            }
            points.add(
                    new ChartPoint(
                            values.get(i),
                            stretch,
                            i < base,
                            scale.back(limits.centre()),
                            scale.back(limits.lower()),
                            scale.back(limits.upper()),
                            range,
                            rangeUpper,
                            z[i],
                            scale.back(average.value()),
                            scale.back(average.lower()),
                            scale.back(average.upper()),
                            signals));
        }
    }

    private List<Signal> signals(List<RunRules.Signal> rules, int outside) {
        final List<Signal> signals = new ArrayList<>();
        rules.forEach(r -> signals.add(Signal.of(Signal.Kind.of(r.rule()), r.side(), watched)));
        if (outside != 0) {
            signals.add(Signal.of(Signal.Kind.AVERAGE, outside, watched));
        }
        return signals;
    }

    private void spreads(List<DatedValue> values, int stretch, int base) {
        final double[] s = values.stream().mapToDouble(DatedValue::value).toArray();
        final double[] freedom =
                values.stream().mapToDouble(DatedValue::degreesOfFreedom).toArray();
        final Outcome<List<SpreadChart.Step>> outcome = SpreadChart.of(s, freedom, base);
        final List<SpreadChart.Step> steps = outcome.fold(found -> found, not -> List.of());
        if (steps.isEmpty()) {
            withoutLimits(values, stretch, new double[0]);
            outcome.fold(found -> false, not -> remarks.add("No limits: " + not.detail() + "."));
            return;
        }
        final double[] z = steps.stream().mapToDouble(SpreadChart.Step::z).toArray();
        final double[] near = Arrays.stream(z).map(v -> Math.max(-FAR, Math.min(FAR, v))).toArray();
        final double[] ones = new double[z.length];
        Arrays.fill(ones, 1);
        final List<MovingAverage.Step> averages =
                MovingAverage.of(near, ones, 0, MovingAverage.WEIGHT, MovingAverage.WIDTH);
        final List<List<RunRules.Signal>> rules = RunRules.of(z);
        for (int i = 0; i < s.length; i++) {
            final SpreadChart.Step step = steps.get(i);
            final MovingAverage.Step average = averages.get(i);
            points.add(
                    new ChartPoint(
                            values.get(i),
                            stretch,
                            i < base,
                            step.centre(),
                            step.lower(),
                            step.upper(),
                            Double.NaN,
                            Double.NaN,
                            near[i],
                            average.value(),
                            average.lower(),
                            average.upper(),
                            signals(rules.get(i), average.outside())));
        }
    }

    /** Too few for limits: the last two are held against their own uncertainties. */
    private void withoutLimits(List<DatedValue> values, int stretch, double[] t) {
        for (int i = 0; i < values.size(); i++) {
            final List<Signal> signals = new ArrayList<>();
            if (i > 0 && t.length == values.size()) {
                final double step = t[i] - t[i - 1];
                final double u = FastMath.hypot(own(values.get(i)), own(values.get(i - 1)));
                if (Math.abs(step) > STEP * u) {
                    signals.add(Signal.of(Signal.Kind.STEP, step > 0 ? 1 : -1, watched));
                }
            }
            points.add(bare(values.get(i), stretch, false, signals));
        }
    }

    private double own(DatedValue value) {
        return value.standardUncertainty() * Math.abs(scale.slope(value.value()));
    }

    /** All values of the base are equal: a limit would be a line without width. */
    private void equal(List<DatedValue> values, int stretch, int base) {
        remarks.add(
                "No limits: the values that would set them are all equal. Look whether they are"
                        + " copies of one evaluation.");
        final double first = values.get(0).value();
        for (int i = 0; i < values.size(); i++) {
            final double more = values.get(i).value() - first;
            final List<Signal> signals = new ArrayList<>();
            if (Math.abs(more) > SAME * Math.abs(first)) {
                signals.add(Signal.of(Signal.Kind.DIFFERS, more > 0 ? 1 : -1, watched));
            }
            points.add(bare(values.get(i), stretch, i < base, signals));
        }
    }

    private static ChartPoint bare(
            DatedValue value, int stretch, boolean base, List<Signal> signals) {
        final double none = Double.NaN;
        return new ChartPoint(
                value, stretch, base, none, none, none, none, none, none, none, none, none,
                signals);
    }
}
