package splitledger.characteristic;

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
import splitledger.statistics.Quantiles;
import splitledger.statistics.UnevenLine;
import splitledger.study.Flag;
import splitledger.study.Place;
import splitledger.study.Trail;

/**
 * The logarithm of the apparent rate against the inverse temperature of the inlet (Arrhenius): k =
 * -ln(1 - x) / t, u(ln k) = u(x) / [(1 - x) (-ln(1 - x))] as weights, and between conditions what
 * the residuals show beyond them (temperature, flow, surface), see {@link UnevenLine}. Errors that
 * all conditions share (responses, what the solution brought along) are propagated through the line
 * and are no scatter about it. A condition with x not above 0 has no logarithm and is left out with
 * a flag, as is one that lies outside 2 to 60 % with its whole interval: there the surface is
 * hardly at work, or hardly any parent is left.
 */
final class LossLine {
    /** Molar gas constant, J/(mol K): CODATA 2018, exact. */
    static final double GAS_CONSTANT = 8.31446261815324;

    static final int TEMPERATURES = 5;
    static final double DEGREES = 80;
    static final double LEAST = 0.02;
    static final double MOST = 0.60;
    private static final double KILO = 1000;
    private static final double ROUNDING = 1e-9;
    private static final double FLOWS = 1.25;

    private final LossOptions options;
    private final LossBasis basis;
    private final List<LossRows.Group> used;
    private final UnevenLine line;
    private final OptionalDouble curvatureP;
    private final double centre;
    private final Uncertain level;
    private final Uncertain slope;

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
        final String id = "losses/" + basis.method() + "/" + name(used);
        final Pool pool =
                new Pool(id, line.degreesOfFreedom(), "scatter of ln k about the Arrhenius line");
        final Root first = root(id + "/slope", pool);
        final Root second = root(id + "/level", pool);
        final double u = Math.sqrt(Math.max(0, line.covariance(1, 1)));
        final double with = u > 0 ? line.covariance(0, 1) / u : 0;
        final double rest = Math.sqrt(Math.max(0, line.covariance(0, 0) - with * with));
        slope = coefficient(1, first, u, second, 0);
        level = coefficient(0, first, with, second, rest);
    }

    private static String name(List<LossRows.Group> used) {
        return used.get(0).shots().get(0).row() + "/line";
    }

    private static Root root(String id, Pool pool) {
        return Root.normal(id, pool, Effect.LOSS, ActsOn.BOTH, "losses");
    }

    /** A coefficient with its scatter, and with what all conditions share. */
    private Uncertain coefficient(int k, Root a, double partA, Root b, double partB) {
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
        parts.put(a, partA);
        parts.put(b, partB);
        return Uncertain.of(line.coefficient(k), "1", parts);
    }

    /** Derivative of ln(-ln(1 - x)). */
    private static double derivative(double x) {
        return 1 / ((1 - x) * -FastMath.log1p(-x));
    }

    /** Fits, and notes what was left out. */
    static Outcome<LossLine> of(
            LossOptions options,
            LossRows rows,
            LossBasis basis,
            double coverage,
            List<Flag> flags) {
        final List<LossRows.Group> used = new ArrayList<>();
        for (LossRows.Group g : rows.groups()) {
            final String why = unfit(g, basis, coverage);
            if (why.isEmpty()) {
                used.add(g);
            } else if (!Double.isNaN(g.temperature())) {
                flags.add(
                        new Flag(
                                Place.NONE,
                                rows.parent() + " at " + Trail.digits(g.temperature()) + " degC",
                                "left out of the Arrhenius line (" + basis.method() + "): " + why));
            }
        }
        final double[] steps =
                used.stream().mapToDouble(LossRows.Group::temperature).distinct().toArray();
        final double span = steps.length == 0 ? 0 : steps[steps.length - 1] - steps[0];
        if (steps.length < TEMPERATURES || span < DEGREES - ROUNDING) {
            return Outcome.not(
                    Reason.TOO_FEW_SETTINGS,
                    "needs 5 inlet temperatures over 80 degC with a breakdown of 2 to 60 %, found "
                            + steps.length
                            + " over "
                            + Trail.digits(span)
                            + " degC");
        }
        return fitted(options, basis, used);
    }

    private static String unfit(LossRows.Group g, LossBasis basis, double coverage) {
        if (Double.isNaN(g.temperature())) {
            return "no inlet temperature";
        }
        if (g.hidden()) {
            return "a product was not found in some injection, and without it the mean is biased";
        }
        final Uncertain x = basis.of(g);
        if (!(x.value() > 0 && x.value() < 1)) {
            return "a breakdown that is not above 0 gives no rate";
        }
        final double u = Math.sqrt(basis.variance(g));
        final double half =
                u > 0 ? u * Quantiles.coverageFactor(coverage, x.degreesOfFreedom()) : 0;
        if (x.value() + half < LEAST) {
            return "less than 2 % decomposes";
        }
        return x.value() - half > MOST ? "more than 60 % decomposes" : "";
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
        for (int i = 0; i < n; i++) {
            final double x = basis.of(used.get(i)).value();
            y[i] = logRate(options, used.get(i), x);
            final double own =
                    basis.law() instanceof Outcome.Computed<LevelVariance>
                            ? basis.variance(used.get(i))
                            : 1.0 / used.get(i).shots().size();
            variances[i] = own * derivative(x) * derivative(x);
            final double d = v[i] - centre;
            straight[i] = new double[] {1, d};
            bent[i] = new double[] {1, d, d * d};
        }
        final OptionalDouble p =
                UnevenLine.fit(bent, y, variances)
                        .fold(f -> OptionalDouble.of(f.p(2)), not -> OptionalDouble.empty());
        return UnevenLine.fit(straight, y, variances)
                .fold(
                        f -> Outcome.of(new LossLine(options, basis, used, f, p, centre)),
                        not -> Outcome.not(not.reason(), not.detail()));
    }

    private static double logRate(LossOptions options, LossRows.Group g, double x) {
        return FastMath.log(-FastMath.log1p(-x))
                - FastMath.log(LossRows.time(options, g.temperature(), g.flow()));
    }

    /** ln k at a temperature, degC. */
    Uncertain logRate(double temperature) {
        final double d = inverse(temperature) - centre;
        return Uncertain.combine(
                level.value() + slope.value() * d, "1", new double[] {1, d}, List.of(level, slope));
    }

    /** 1000 / T. */
    static double inverse(double temperature) {
        return KILO / (temperature + 273.15);
    }

    /** ln(-ln(1 - x)) at a temperature and a flow. */
    Uncertain logTimes(double temperature, double flow) {
        final Uncertain k = logRate(temperature);
        return k.at(k.value() + FastMath.log(LossRows.time(options, temperature, flow)));
    }

    /** Activation energy, kJ/mol: -R times the slope over 1000 / T. */
    Uncertain activationEnergy() {
        return slope.scaled(-GAS_CONSTANT, "kJ/mol");
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
     * Whether the loss grows with time as first order has it: the exponent of time beside 1, from
     * at least two flows a quarter apart at one temperature.
     *
     * @param exponent 1 for first order
     * @param uncertainty its standard uncertainty
     * @param degreesOfFreedom of it
     */
    record Order(double exponent, double uncertainty, double degreesOfFreedom) {}

    /** The exponent of time; not computed without two flows. */
    Outcome<Order> order() {
        final int n = used.size();
        final double[] y = new double[n];
        final double[] variances = new double[n];
        final double[][] rows = new double[n][];
        double least = Double.POSITIVE_INFINITY;
        double most = 0;
        final List<Point> points = points();
        for (int i = 0; i < n; i++) {
            final LossRows.Group g = used.get(i);
            y[i] = points.get(i).logRate();
            variances[i] = points.get(i).uncertainty() * points.get(i).uncertainty();
            final double time = LossRows.time(options, g.temperature(), g.flow());
            rows[i] = new double[] {1, points.get(i).inverse() - centre, FastMath.log(time)};
            least = Math.min(least, g.flow());
            most = Math.max(most, g.flow());
        }
        if (!(most > FLOWS * least)) {
            return Outcome.not(Reason.TOO_FEW_SETTINGS, "one flow: the order is not tested");
        }
        return UnevenLine.fit(rows, y, variances)
                .fold(
                        f ->
                                Outcome.of(
                                        new Order(
                                                1 + f.coefficient(2),
                                                Math.sqrt(f.covariance(2, 2)),
                                                f.degreesOfFreedom())),
                        not -> Outcome.not(not.reason(), not.detail()));
    }
}
