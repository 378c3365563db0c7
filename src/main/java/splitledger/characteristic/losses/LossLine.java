package splitledger.characteristic.losses;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;
import org.apache.commons.math3.util.FastMath;
import splitledger.propagation.ActsOn;
import splitledger.propagation.Effect;
import splitledger.propagation.Pool;
import splitledger.propagation.Root;
import splitledger.propagation.Uncertain;
import splitledger.statistics.LevelVariance;
import splitledger.statistics.Outcome;
import splitledger.statistics.Outcome.Reason;
import splitledger.statistics.UnevenLine;
import splitledger.study.Flag;

/**
 * The logarithm of the apparent rate against the inverse temperature of the inlet (Arrhenius), one
 * slope and a level for each split ratio, whose setting all its conditions share: k = -ln(1 - x) /
 * t, u(ln k) = u(x) / [(1 - x) (-ln(1 - x))] as weights, u(x) from the scatter of all conditions
 * pooled (weights that follow a few repeats make the interval too short: 92.8 instead of 93.7 % in
 * 1200 simulated studies), and between conditions what the residuals show beyond them (temperature,
 * flow, surface), see {@link UnevenLine}. Errors that all conditions share (responses, what the
 * solution brought along) are propagated through the line and are no scatter about it. Conditions
 * that cannot stand on the line ({@link ArrheniusConditions}) are left out with a flag.
 */
final class LossLine {
    /** Molar gas constant, J/(mol K): CODATA 2018, exact. */
    static final double GAS_CONSTANT = 8.31446261815324;

    private static final double KILO = 1000;
    private static final double FLOWS = 1.25;

    private final LossOptions options;
    private final LossBasis basis;
    private final List<LossRows.Group> used;
    private final UnevenLine line;
    private final OptionalDouble curvatureP;
    private final double centre;
    private final List<Double> ratios;
    private final List<Uncertain> coefficients;

    /** One condition on the line. */
    record Point(LossRows.Group group, double inverse, double logRate, double uncertainty) {}

    private LossLine(
            LossOptions options,
            LossBasis basis,
            List<LossRows.Group> used,
            UnevenLine line,
            OptionalDouble curvatureP,
            double centre) {
        this.options = options;
        this.basis = basis;
        this.used = List.copyOf(used);
        this.line = line;
        this.curvatureP = curvatureP;
        this.centre = centre;
        ratios = ratios(used);
        final String id = "losses/" + basis.method() + "/" + used.get(0).shots().get(0).row();
        final Pool pool =
                new Pool(
                        id + "/line",
                        line.degreesOfFreedom(),
                        "scatter of ln k about the Arrhenius line");
        coefficients = new ArrayList<>();
        final int p = ratios.size() + 1;
        final double[][] lower = new double[p][p];
        for (int k = 0; k < p; k++) {
            final SortedMap<Root, Double> parts = shared(k);
            for (int l = 0; l <= k; l++) {
                double rest = line.covariance(k, l);
                for (int m = 0; m < l; m++) {
                    rest -= lower[k][m] * lower[l][m];
                }
                if (l == k) {
                    lower[k][k] = Math.sqrt(Math.max(0, rest));
                } else {
                    lower[k][l] = lower[l][l] > 0 ? rest / lower[l][l] : 0;
                }
                parts.put(root(id + "/line/" + l, pool), lower[k][l]);
            }
            coefficients.add(Uncertain.of(line.coefficient(k), "1", parts));
        }
    }

    private static List<Double> ratios(List<LossRows.Group> groups) {
        return groups.stream().map(LossRows.Group::ratio).distinct().sorted().toList();
    }

    private static Root root(String id, Pool pool) {
        return Root.normal(id, pool, Effect.LOSS, ActsOn.BOTH, "losses");
    }

    /** What all conditions share, carried through the line. */
    private SortedMap<Root, Double> shared(int k) {
        final SortedMap<Root, Double> parts = new TreeMap<>();
        for (int i = 0; i < used.size(); i++) {
            final Uncertain x = basis.of(used.get(i));
            final double factor = derivative(x.value()) * line.solution().get(k).get(i);
            for (Root root : x.roots()) {
                if (!root.id().equals(basis.scatterId(used.get(i)))) {
                    parts.merge(root, factor * x.part(root), Double::sum);
                }
            }
        }
        return parts;
    }

    /** Derivative of ln(-ln(1 - x)). */
    private static double derivative(double x) {
        return 1 / ((1 - x) * -FastMath.log1p(-x));
    }

    /**
     * Fits, and notes what was left out.
     *
     * @param judged the basis on which 2 to 60 % are judged: the one nearest to what decomposes
     */
    static Outcome<LossLine> of(
            LossOptions options,
            LossRows rows,
            LossBasis basis,
            LossBasis judged,
            double coverage,
            List<Flag> flags) {
        return ArrheniusConditions.of(rows, basis, judged, coverage, flags)
                .fold(
                        used -> fitted(options, basis, used),
                        not -> Outcome.not(not.reason(), not.detail()));
    }

    private static Outcome<LossLine> fitted(
            LossOptions options, LossBasis basis, List<LossRows.Group> used) {
        final int n = used.size();
        final double[] v = used.stream().mapToDouble(g -> KILO / g.kelvin()).toArray();
        final double centre = Arrays.stream(v).average().orElse(0);
        final double[] y = new double[n];
        final double[] variances = new double[n];
        final double[][] straight = new double[n][];
        final double[][] bent = new double[n][];
        final List<Double> ratios = ratios(used);
        for (int i = 0; i < n; i++) {
            final double x = basis.of(used.get(i)).value();
            y[i] = logRate(options, used.get(i), x);
            final double own =
                    basis.law() instanceof Outcome.Computed<LevelVariance>
                            ? basis.pooledVariance()
                            : 1;
            variances[i] = own / used.get(i).shots().size() * derivative(x) * derivative(x);
            final double d = v[i] - centre;
            straight[i] = row(ratios, used.get(i), d);
            bent[i] = Arrays.copyOf(straight[i], ratios.size() + 2);
            bent[i][ratios.size() + 1] = d * d;
        }
        final OptionalDouble p =
                UnevenLine.fit(bent, y, variances)
                        .fold(
                                f -> OptionalDouble.of(f.p(ratios.size() + 1)),
                                not -> OptionalDouble.empty());
        return UnevenLine.fit(straight, y, variances)
                .fold(
                        f -> Outcome.of(new LossLine(options, basis, used, f, p, centre)),
                        not -> Outcome.not(not.reason(), not.detail()));
    }

    /** A level for each ratio, and the distance from the centre. */
    private static double[] row(List<Double> ratios, LossRows.Group g, double d) {
        final double[] row = new double[ratios.size() + 1];
        row[ratios.indexOf(g.ratio())] = 1;
        row[ratios.size()] = d;
        return row;
    }

    private static double logRate(LossOptions options, LossRows.Group g, double x) {
        return FastMath.log(-FastMath.log1p(-x))
                - FastMath.log(LossRows.time(options, g.temperature(), g.flow()));
    }

    /** ln k at a temperature, degC, mean of all flows. */
    Uncertain logRate(double temperature) {
        final double[] weights = new double[ratios.size() + 1];
        Arrays.fill(weights, 1.0 / ratios.size());
        return at(temperature, weights);
    }

    /** Levels by these weights, and the slope. */
    private Uncertain at(double temperature, double[] weights) {
        final double[] c = weights.clone();
        c[ratios.size()] = inverse(temperature) - centre;
        double value = 0;
        for (int k = 0; k < c.length; k++) {
            value += c[k] * coefficients.get(k).value();
        }
        return Uncertain.combine(value, "1", c, coefficients);
    }

    /** 1000 / T. */
    static double inverse(double temperature) {
        return KILO / (temperature + 273.15);
    }

    /** ln(-ln(1 - x)) at a temperature, for the flow of a condition. */
    Uncertain logTimes(double temperature, LossRows.Group like) {
        final int ratio = ratios.indexOf(like.ratio());
        final double[] weights = new double[ratios.size() + 1];
        if (ratio < 0) {
            Arrays.fill(weights, 1.0 / ratios.size());
        } else {
            weights[ratio] = 1;
        }
        final Uncertain k = at(temperature, weights);
        return k.at(k.value() + FastMath.log(LossRows.time(options, temperature, like.flow())));
    }

    /** Activation energy, kJ/mol: -R times the slope over 1000 / T. */
    Uncertain activationEnergy() {
        return coefficients.get(ratios.size()).scaled(-GAS_CONSTANT, "kJ/mol");
    }

    /** p of a quadratic term; NaN if nothing scatters. */
    OptionalDouble curvatureP() {
        return curvatureP;
    }

    /** Variation between conditions beyond that of injections, relative in k. */
    double between() {
        return line.between();
    }

    /** The basis it is about. */
    LossBasis basis() {
        return basis;
    }

    /** Lowest temperature on the line, degC. */
    double coldest() {
        return used.stream().mapToDouble(LossRows.Group::temperature).min().orElse(Double.NaN);
    }

    /** Highest temperature on the line, degC. */
    double hottest() {
        return used.stream().mapToDouble(LossRows.Group::temperature).max().orElse(Double.NaN);
    }

    /** The conditions on the line. */
    List<Point> points() {
        return used.stream()
                .map(
                        g -> {
                            final double x = basis.of(g).value();
                            return new Point(
                                    g,
                                    inverse(g.temperature()),
                                    logRate(options, g, x),
                                    Math.sqrt(basis.variance(g)) * derivative(x));
                        })
                .toList();
    }

    /**
     * The power of time with which -ln(1 - x) grows; 1 for first order. The levels of the flows say
     * it: the flows differ in time, each with the stated uncertainty of the residence time, which
     * all conditions of a flow share and no repetition shows.
     *
     * @return not computed without two flows a quarter apart
     */
    Outcome<Uncertain> order() {
        final double[] times = new double[ratios.size()];
        for (LossRows.Group g : used) {
            times[ratios.indexOf(g.ratio())] = -FastMath.log(g.flow());
        }
        final double mean = Arrays.stream(times).average().orElse(0);
        final double span =
                Arrays.stream(times).max().orElse(0) - Arrays.stream(times).min().orElse(0);
        if (!(span > FastMath.log(FLOWS))) {
            return Outcome.not(Reason.TOO_FEW_SETTINGS, "one flow: the order is not tested");
        }
        final double squares = Arrays.stream(times).map(t -> (t - mean) * (t - mean)).sum();
        final double[] weights = new double[ratios.size()];
        final SortedMap<Root, Double> flows = new TreeMap<>();
        final double u = options.relative("residence-time-uncertainty").orElse(0);
        double value = 1;
        for (int r = 0; r < weights.length; r++) {
            weights[r] = (times[r] - mean) / squares;
            value += weights[r] * coefficients.get(r).value();
            final String id = "losses/flow/" + ratios.get(r);
            flows.put(root(id, Pool.known(id, "residence time, as stated")), weights[r] * u);
        }
        final Uncertain levels =
                Uncertain.combine(value, "1", weights, coefficients.subList(0, weights.length));
        return Outcome.of(
                Uncertain.combine(
                        value,
                        "1",
                        new double[] {1, 1},
                        List.of(levels, Uncertain.of(0, "1", flows))));
    }
}
